/**
 * A list of groups with the same settings: the steps of a schedule, the rows of a table, lien holders.
 */
'use client';

import { Fragment, type ReactNode } from 'react';
import type { JsonPath } from '../../domain/agreement/problem.ts';
import { opening } from '../place/sentence.ts';
import { useBuilder, usePlace } from './builder-context.tsx';
import { idOfPath } from './document-path.ts';
import type { OneSetting, RowsSetting } from './setting.ts';
import { isSame } from './setting.ts';

export interface SettingRowsProps {
  readonly at: JsonPath;
  readonly setting: RowsSetting;
  readonly draw: (at: JsonPath, setting: OneSetting) => ReactNode;
}

export function SettingRows({ at, setting, draw }: SettingRowsProps) {
  const path = [...at, ...setting.path];
  const { value, faults } = usePlace(path);
  const { change, problems } = useBuilder();
  const rows: readonly unknown[] = Array.isArray(value) ? value : [];
  // Where the list is all that a panel holds, the panel itself is the place.
  const id = setting.path.length === 0 ? `${idOfPath(path)}-rows` : idOfPath(path);
  const { label, hint, row: name, columns, empty } = setting;
  return (
    <fieldset className="field setting-rows" id={id} tabIndex={-1}>
      <legend>{label}</legend>
      {hint === undefined || rows.length === 0 ? null : <p className="hint">{hint}</p>}
      {rows.map((_, index) => {
        const place = [...path, index];
        const own = problems.filter((problem) => isSame(problem.path, place));
        return (
          // A row has no name but its place, and its inputs hold nothing that is not in the document.
          // biome-ignore lint/suspicious/noArrayIndexKey: the place is the row
          <div key={index} id={idOfPath(place)} className="setting-row">
            {columns.map((column) => (
              <Fragment key={column.path.join('.')}>{draw(place, column)}</Fragment>
            ))}
            <button
              type="button"
              className="quiet"
              aria-label={`Remove ${name} ${index + 1} of ${label}`}
              onClick={() =>
                change({
                  kind: 'remove',
                  path: place,
                  said: `The ${name} ${index + 1} is removed.`,
                  next: `${id}-add`,
                })
              }
            >
              Remove
            </button>
            {own.map(({ message }) => (
              <p key={message} className="fault">
                {opening(message)}
              </p>
            ))}
          </div>
        );
      })}
      {faults.map((message) => (
        <p key={message} className="fault">
          {opening(message)}
        </p>
      ))}
      <button
        type="button"
        className="quiet"
        id={`${id}-add`}
        onClick={() =>
          change({
            kind: 'write',
            path,
            value: [...rows, empty],
            next: idOfPath([...path, rows.length, ...(columns[0]?.path ?? [])]),
          })
        }
      >
        {rows.length === 0 ? `Add a ${name}` : `Add another ${name}`}
      </button>
    </fieldset>
  );
}
