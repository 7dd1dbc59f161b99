/**
 * One row of a table on its way to becoming a record: cells by column, and the faults found so far.
 */

import { type LocalDate, parseLocalDate } from '../dates/local-date.ts';
import { compare, type Exact, HUNDRED, isNegative, parseDecimal } from '../numbers/exact.ts';
import { CONTROL_CHARACTER } from '../text/control-character.ts';
import { found, type RowProblem } from './table-shape.ts';

export class Row {
  readonly problems: RowProblem[] = [];
  readonly #cell: (column: string) => string;

  /** `cell` gives a column's trimmed text, or '' where the column is not there. */
  constructor(cell: (column: string) => string) {
    this.#cell = cell;
  }

  /** The text of a column, '' where empty or absent. */
  text(column: string): string {
    return this.#cell(column);
  }

  /** Notes what is wrong with a column's cell. Returns undefined, as the value of a cell that has none. */
  fault(column: string, message: string): undefined {
    this.problems.push({ column, message });
    return undefined;
  }

  /** Text that must be there. */
  name(column: string): string {
    const text = this.optionalName(column);
    if (text === '') this.fault(column, 'must not be empty');
    return text;
  }

  /** Text that may be empty. Nothing in it may move a terminal's cursor. */
  optionalName(column: string): string {
    const text = this.text(column);
    if (CONTROL_CHARACTER.test(text)) {
      this.fault(column, `must be plain text, without control characters; ${found(text)}`);
    }
    return text;
  }

  /** One of a few words. */
  word<Word extends string>(column: string, words: readonly Word[]): Word | undefined {
    const text = this.text(column);
    const word = words.find((known) => known === text);
    const hint = words.find((known) => known === text.toLowerCase()) ? ' (small letters)' : '';
    return word ?? this.fault(column, `must be one of ${words.join(', ')}${hint}; ${found(text)}`);
  }

  /** A decimal of 0 or more. */
  amount(column: string): Exact | undefined {
    const text = this.text(column);
    const value = parseDecimal(text);
    if (value !== undefined && !isNegative(value)) return value;
    return this.fault(
      column,
      `must be a number of 0 or more, like 4.25 (no spaces, commas or units); ${found(text)}`,
    );
  }

  /** As `amount`, for a cell that may be empty. */
  optionalAmount(column: string): Exact | undefined {
    return this.text(column) === '' ? undefined : this.amount(column);
  }

  /** A percentage from 0 to 100, for a cell that may be empty. */
  optionalPercent(column: string): Exact | undefined {
    const text = this.text(column);
    if (text === '') return undefined;
    const value = parseDecimal(text);
    if (value !== undefined && !isNegative(value) && compare(value, HUNDRED) <= 0) return value;
    return this.fault(column, `must be a percentage from 0 to 100, like 59.2; ${found(text)}`);
  }

  /** A `YYYY-MM-DD` that is on the calendar. */
  date(column: string): LocalDate | undefined {
    const text = this.text(column);
    return (
      parseLocalDate(text) ??
      this.fault(column, `must be a date on the calendar, like 2026-09-14; ${found(text)}`)
    );
  }
}
