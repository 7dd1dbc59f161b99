/**
 * Holds what was found in a pair of books against what was planted.
 */
import { matchLists, type Outcome, standingsOf } from '../../../src/domain/matching/match-lists.ts';
import { type Books, nameOf } from './generate-books.ts';

export interface Verdict {
  /** Planted and not found as what they are. */
  readonly missed: readonly string[];
  /** Told of rows that agree. */
  readonly invented: readonly string[];
  readonly outcomes: readonly Outcome[];
}

/** What an outcome says of the row that it is known by, and the cause of its first difference. */
export function told(outcome: Outcome): { name: string; says: string } {
  const standings = standingsOf(outcome).join(', ');
  if (outcome.kind !== 'pair') return { name: nameOf(outcome.in, outcome.row.id), says: standings };
  const [first] = outcome.differences;
  const cause = first ? ` by ${first.causes[0]?.name ?? 'unknown'}` : '';
  return { name: nameOf('mine', outcome.mine.id), says: `${standings}${cause}` };
}

/** Matches the books and compares. */
export function judgeBooks(books: Books): Verdict {
  const outcomes = matchLists(books, { decimals: 2 });
  const missed: string[] = [];
  const invented: string[] = [];
  const open = new Map(books.truth);
  for (const outcome of outcomes) {
    const { name, says } = told(outcome);
    const truth = open.get(name);
    open.delete(name);
    const isDifference = truth && /-differs$/.test(truth.standings[0] ?? '');
    const expected = truth
      ? `${truth.standings.join(', ')}${isDifference ? ` by ${truth.cause ?? 'unknown'}` : ''}`
      : 'agrees';
    if (
      says === expected &&
      (outcome.kind !== 'pair' || outcome.mine.id.slice(1) === outcome.record.id.slice(1))
    )
      continue;
    const line = `${name}: ${says}${truth ? `, planted ${truth.kind}: ${expected}` : ''} ${JSON.stringify(outcome.kind === 'pair' ? [outcome.mine.net, outcome.record.net, outcome.mine.amount, outcome.record.amount, outcome.mine.ticket, outcome.record.ticket] : '')}`;
    if (truth) missed.push(line);
    else invented.push(line);
  }
  for (const [name, { kind }] of open) missed.push(`${name}: nothing is said of ${kind}`);
  return { missed, invented, outcomes };
}
