/**
 * Who sells what to whom, in which money, by which clock. What the page around the builder has settled is shown only.
 */
'use client';

import { useEffect, useState } from 'react';
import { FEEDS, type Feed } from '../../domain/agreement/measures.ts';
import { opening } from '../place/sentence.ts';
import { useBuilder } from './builder-context.tsx';
import { StrayFaults } from './builder-panel.tsx';
import { idOfPath, readAt, shownText } from './document-path.ts';
import { headSettings, PARTS_ELSEWHERE } from './head-settings.ts';
import type { Setting } from './setting.ts';
import { Settings } from './setting-view.tsx';

export function HeadPart() {
  const { document, fixed } = useBuilder();
  const zones = useTimeZones();
  const settings = headSettings(zones);
  const open = settings.filter(({ path }) => !(fixed as readonly unknown[]).includes(path[0]));
  const settled = settings.filter((setting) => !open.includes(setting));
  const others = PARTS_ELSEWHERE.map(
    (key): Setting => ({ kind: 'ticks', path: [key], label: key, options: [] }),
  );
  return (
    <section className="builder-part" aria-labelledby="formula-head" id={idOfPath([])} tabIndex={-1}>
      <h3 id="formula-head">Who and what</h3>
      {settled.length === 0 ? null : (
        <dl className="facts settled">
          {settled.map(({ path, label }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{settledText(path[0], readAt(document, path))}</dd>
            </div>
          ))}
        </dl>
      )}
      <Settings at={[]} settings={open} />
      <StrayFaults at={[]} settings={[...open, ...others]} />
    </section>
  );
}

function settledText(key: unknown, value: unknown): string {
  const text = shownText(value);
  return key === 'feed' ? opening((FEEDS[text as Feed] as string | undefined) ?? text) : text;
}

/** The zones that this browser knows; none while the page is made, so that both draw the same. */
function useTimeZones(): readonly string[] {
  const [zones, setZones] = useState<readonly string[]>([]);
  useEffect(() => setZones(Intl.supportedValuesOf('timeZone')), []);
  return zones;
}
