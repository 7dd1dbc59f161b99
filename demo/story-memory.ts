/**
 * What a story remembers between its lines: the season's rows, and ids by the names that lines use.
 */
import { WrongUse } from '../src/cli/exit-status.ts';
import type { LocalDate } from '../src/domain/dates/local-date.ts';
import type { Side } from '../src/domain/retests/costs.ts';
import type { InputRow } from '../src/usecases/read-input-rows.ts';

interface Season {
  readonly agreementId: string;
  readonly sellerName: string;
  readonly buyerName: string;
  /** The rows of the folder's files. */
  readonly loads: readonly InputRow[];
  readonly results: readonly InputRow[];
  readonly quotes: readonly InputRow[];
}

/** Ids by the names that lines use. */
export interface StoryMemory extends Season {
  readonly ids: Map<string, string>;
  /** Tickets and days of quotes that came in. */
  readonly come: Set<string>;
}

/** A line to do: what was before it, its day, the side that does it, and its request key. */
export interface ActAt {
  readonly memory: StoryMemory;
  readonly day: LocalDate;
  readonly side: Side;
  readonly key: string;
}

export function newMemory(season: Season): StoryMemory {
  return { ...season, ids: new Map(), come: new Set() };
}

/** The id of what an earlier line brought about. Throws `WrongUse` where there is none. */
export function known({ ids }: StoryMemory, name: string): string {
  const id = ids.get(name);
  if (id === undefined) throw new WrongUse(`There is no ${name} in the story so far.`);
  return id;
}

/** The row of a file by its name. Throws `WrongUse` where there is none. */
export function rowOf(
  rows: readonly InputRow[],
  { column, name }: { readonly column: string; readonly name: string },
): InputRow {
  const row = rows.find((candidate) => candidate[column] === name);
  if (!row) throw new WrongUse(`There is no ${column} ${name} in the season's files.`);
  return row;
}

/** The side that a party's name stands for. Throws `WrongUse` for another name. */
export function sideNamed({ sellerName, buyerName }: StoryMemory, name: string): Side {
  if (name === sellerName) return 'seller';
  if (name === buyerName) return 'buyer';
  throw new WrongUse(`${name} is neither ${sellerName} nor ${buyerName}.`);
}
