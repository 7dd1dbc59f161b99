/**
 * Which of the file's columns is what. The first rows of the file stand above, so that nobody has to open it.
 */
'use client';

import { ORDER_WORDS } from '../../domain/tables/cell-texts.ts';
import { type TableKind, WANTED } from '../../domain/tables/wanted-columns.ts';
import type { MatchedImport } from '../../usecases/import/match-import.ts';
import type { OpenMatch } from './import-state.ts';
import { constantsOf, fieldOf, OFFSETS, sourceText } from './match-fields.ts';

export interface MatchViewProps {
  readonly kind: TableKind;
  readonly fileName: string;
  readonly matched: MatchedImport;
  readonly match: OpenMatch;
  readonly isOpen: boolean;
  /** Where two forms stand on one page, their fields have ids of their own. */
  readonly idStart?: string;
}

export function MatchView({ kind, fileName, matched, match, isOpen, idStart = 'field' }: MatchViewProps) {
  const { header, firstRows, rowCount, series, timeZone } = matched;
  const nameOf = (name: string, index: number) => name || `column ${index + 1}`;
  return (
    <details className="import-match" open={isOpen}>
      <summary>Which column is what</summary>
      <p>
        {fileName} has {rowCount === 1 ? 'one row' : `${rowCount} rows`} and {header.length} columns. Its
        first rows:
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by the keyboard, too */}
      <div className="wide-table" tabIndex={0}>
        <table className="grid import-rows">
          <thead>
            <tr>
              {header.map((name, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns have their place and perhaps no name
                <th scope="col" key={index}>
                  {nameOf(name, index)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {firstRows.map((cells, row) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: rows of a file have their place alone
              <tr key={row}>
                {cells.map((cell, index) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: as above
                  <td key={index}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div className="import-columns">
        {WANTED[kind].map(({ name, label, isRequired }) => (
          <div className="field" key={name}>
            <label htmlFor={`${idStart}-${name}`}>
              {label}
              {isRequired ? '' : <span className="quiet-word"> (if the file has it)</span>}
            </label>
            <select
              id={`${idStart}-${name}`}
              name={fieldOf(name)}
              defaultValue={sourceText(match.columns[name])}
            >
              <option value="">{isRequired ? 'Choose its column…' : 'not in the file'}</option>
              {header.map((column, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns have their place and perhaps no name
                <option key={index} value={String(index)}>
                  {nameOf(column, index)}
                </option>
              ))}
              {constantsOf(name, series).map(({ value, label: words }) => (
                <option key={value} value={value}>
                  {words}
                </option>
              ))}
            </select>
          </div>
        ))}
      </div>
      <h3>How it is written</h3>
      <div className="import-columns">
        <div className="field">
          <label htmlFor={`${idStart}-date-order`}>Dates</label>
          <select id={`${idStart}-date-order`} name="date_order" defaultValue={match.dateOrder ?? ''}>
            <option value="">Choose their order…</option>
            {Object.entries(ORDER_WORDS).map(([order, words]) => (
              <option key={order} value={order}>
                {words}
              </option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${idStart}-decimal-mark`}>Decimals</label>
          <select id={`${idStart}-decimal-mark`} name="decimal_mark" defaultValue={match.decimalMark}>
            <option value=".">with a point, 59.2</option>
            <option value=",">with a comma, 59,2</option>
          </select>
        </div>
        {kind === 'tickets' ? (
          <div className="field">
            <label htmlFor={`${idStart}-time-offset`}>Times without an offset are by</label>
            <select id={`${idStart}-time-offset`} name="time_offset" defaultValue={match.timeOffset}>
              <option value="agreement">the clock of {timeZone}</option>
              <option value="Z">UTC</option>
              {OFFSETS.map((offset) => (
                <option key={offset} value={offset}>
                  UTC{offset} all year
                </option>
              ))}
            </select>
          </div>
        ) : null}
      </div>
    </details>
  );
}
