/**
 * What would be recorded, what is there already, what differs and what is wrong, row by row; and the button that records.
 */
'use client';

import type { ImportKind } from '../../domain/tables/wanted-columns.ts';
import type { ToldPreview, ToldRow } from './import-state.ts';
import { counted } from './tell-preview.ts';

export interface ImportPreviewProps {
  readonly preview: ToldPreview;
  readonly kind: ImportKind;
  readonly isSending: boolean;
}

export function ImportPreviewView({ preview, kind, isSending }: ImportPreviewProps) {
  const { counts, wrong, differs, columns, fresh, unusual, refused, isTaken } = preview;
  const mayTake = counts.wrong === 0 && counts.new > 0 && refused === undefined && !isTaken;
  return (
    <section aria-labelledby="import-preview" className="import-preview">
      <h2 id="import-preview">What would be recorded</h2>
      {isTaken ? <p>This file was brought in before, by the same columns. Nothing would be added.</p> : null}
      <dl className="facts">
        <div>
          <dt>New</dt>
          <dd>{counts.new}</dd>
        </div>
        <div>
          <dt>There already, the same</dt>
          <dd>{counts.there}</dd>
        </div>
        <div>
          <dt>Different from what is recorded</dt>
          <dd>{counts.differs}</dd>
        </div>
        <div>
          <dt>Wrong</dt>
          <dd>{counts.wrong}</dd>
        </div>
      </dl>
      <Rows
        heading="Wrong"
        words="Put these right in the file, or the columns below, and look again. Nothing is recorded while a row is wrong."
        rows={wrong}
        count={counts.wrong}
      />
      <Rows
        heading="Different from what is recorded"
        words="What is recorded stays as it is. Put it right there if the file is right."
        rows={differs}
        count={counts.differs}
      />
      {fresh.length === 0 ? null : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by the keyboard, too
        <div className="wide-table" tabIndex={0}>
          <table className="grid import-rows">
            <caption>
              New{counts.new > fresh.length ? `, the first ${fresh.length} of ${counts.new}` : ''}, as they
              would be recorded
            </caption>
            <thead>
              <tr>
                <th scope="col">Line</th>
                {columns.map((column) => (
                  <th scope="col" key={column}>
                    {column}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {fresh.map(({ line, cells }) => (
                <tr key={line}>
                  <th scope="row">{line}</th>
                  {cells.map((cell, index) => (
                    <td key={columns[index]}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {refused === undefined ? null : <p className="refused">{refused}</p>}
      {mayTake && unusual !== undefined ? (
        <div className="refused">
          <p>{unusual}</p>
          <label className="option">
            <input type="checkbox" name="confirmed" value="yes" />
            <span>Yes, these figures are right</span>
          </label>
        </div>
      ) : null}
      {mayTake && counts.differs > 0 ? (
        <label className="option">
          <input type="checkbox" name="leave_differing" value="yes" />
          <span>Leave out what differs, and record the rest</span>
        </label>
      ) : null}
      {mayTake ? (
        <button type="submit" name="step" value="take" className="act" disabled={isSending}>
          Record {counted(counts.new, kind)}
        </button>
      ) : null}
    </section>
  );
}

function Rows({
  heading,
  words,
  rows,
  count,
}: {
  readonly heading: string;
  readonly words: string;
  readonly rows: readonly ToldRow[];
  readonly count: number;
}) {
  if (rows.length === 0) return null;
  return (
    <>
      <h3>{heading}</h3>
      <p>{words}</p>
      <ul className="import-faults">
        {rows.map(({ line, told }) => (
          <li key={line}>
            <strong>Line {line}</strong>: {told.join('; ')}
          </li>
        ))}
      </ul>
      {count > rows.length ? <p>And {count - rows.length} more.</p> : null}
    </>
  );
}
