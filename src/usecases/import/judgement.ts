/**
 * What is known of one row of an import before anything is written.
 */
import { compare, parseDecimal } from '../../domain/numbers/exact.ts';
import type { InputRow } from '../read-input-rows.ts';
import type { Problem } from '../refusal.ts';

export type RowStanding = 'new' | 'there' | 'differs' | 'wrong';

/** One figure that the file and the record give differently. */
export interface Difference {
  /** The name of our own column. */
  readonly column: string;
  readonly recorded: string;
  readonly given: string;
}

/** What the record says of a row: nothing, the same, or something else; or why it cannot take it. */
export interface Judgement {
  readonly standing: RowStanding;
  readonly differences: readonly Difference[];
  readonly problems: readonly Omit<Problem, 'row'>[];
}

export const NEW: Judgement = { standing: 'new', differences: [], problems: [] };

/** The judgement of a row that is recorded: the same where nothing differs. */
export function recordedAs(differences: readonly Difference[]): Judgement {
  return { standing: differences.length === 0 ? 'there' : 'differs', differences, problems: [] };
}

export function wrongRow(column: string, message: string): Judgement {
  return { standing: 'wrong', differences: [], problems: [{ column, message }] };
}

/** How one kind of file is judged. */
export interface Judge {
  /** Reads all rows by the rules of the forms; refuses `bad-input` with every fault. */
  readonly read: (rows: readonly InputRow[]) => unknown;
  /** Holds rows that read well against the record, in their order. */
  readonly compare: (rows: readonly InputRow[]) => Promise<readonly Judgement[]>;
}

/** Whether two texts are the same, or the same number: 4.2 and 4.20. */
export function isSame(one: string | null, other: string | null): boolean {
  if (one === other) return true;
  const [a, b] = [parseDecimal(one ?? ''), parseDecimal(other ?? '')];
  return a !== undefined && b !== undefined && compare(a, b) === 0;
}
