/**
 * Draws one setting: its label, its hint, its input and its faults.
 */
'use client';

import type { ReactNode } from 'react';
import type { JsonPath } from '../../domain/agreement/problem.ts';
import { opening } from '../place/sentence.ts';
import { usePlace } from './builder-context.tsx';
import { idOfPath } from './document-path.ts';
import type { OneSetting, Setting } from './setting.ts';
import { type Described, SettingInput } from './setting-input.tsx';
import { SettingRows } from './setting-rows.tsx';

export interface SettingsProps {
  /** The group that the settings belong to. */
  readonly at: JsonPath;
  readonly settings: readonly Setting[];
}

/** Settings one beside the other where there is room. */
export function Settings({ at, settings }: SettingsProps) {
  return (
    <div className="settings">
      {settings.map((setting) =>
        setting.kind === 'rows' ? (
          <SettingRows key={setting.path.join('.')} at={at} setting={setting} draw={drawOne} />
        ) : (
          <SettingView key={setting.path.join('.')} at={at} setting={setting} />
        ),
      )}
    </div>
  );
}

function drawOne(at: JsonPath, setting: OneSetting): ReactNode {
  return <SettingView key={setting.path.join('.')} at={at} setting={setting} />;
}

function SettingView({ at, setting }: { readonly at: JsonPath; readonly setting: OneSetting }) {
  const path = [...at, ...setting.path];
  const place = usePlace(path);
  const id = idOfPath(path);
  const { label, hint, kind } = setting;
  const isGroup = kind === 'ticks';
  const notes = [
    ...(hint === undefined ? [] : [`${id}-hint`]),
    ...(place.faults.length > 0 ? [`${id}-fault`] : []),
  ];
  const described: Described = {
    id,
    'aria-invalid': place.faults.length > 0 || undefined,
    'aria-describedby': notes.join(' ') || undefined,
  };
  const input = <SettingInput setting={setting} at={at} place={place} described={described} />;
  const hinted =
    hint === undefined ? null : (
      <p className="hint" id={`${id}-hint`}>
        {hint}
      </p>
    );
  const faulted =
    place.faults.length === 0 ? null : (
      <p className="fault" id={`${id}-fault`}>
        {place.faults.map(opening).join('. ')}
      </p>
    );
  if (isGroup) {
    return (
      <fieldset className={`field setting-${kind}`} id={id} tabIndex={-1}>
        <legend>{label}</legend>
        {hinted}
        {input}
        {faulted}
      </fieldset>
    );
  }
  return (
    <div className={`field setting-${kind}`}>
      {kind === 'tick' ? null : <label htmlFor={id}>{label}</label>}
      {kind === 'tick' ? null : hinted}
      {input}
      {kind === 'tick' ? hinted : null}
      {faulted}
    </div>
  );
}
