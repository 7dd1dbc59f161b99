/**
 * The lenders who are to be named on payments under an agreement, as its statement tells them.
 */
import type { LienNamed } from '../../domain/money/statement.ts';
import { groupRows } from '../group-rows.ts';
import type { MoneyFrame } from './money-frame.ts';
import { liveLiens } from './money-rows.ts';

/** Each lender once for each season that money of theirs comes from. */
function carriedLenders({ found, rows }: MoneyFrame): readonly LienNamed[] {
  const seasons = groupRows(rows.carriedLenders, ({ lender, of }) => `${lender}\n${of}`);
  return [...seasons.values()].flatMap(([first]) =>
    first
      ? [
          {
            agreement: found.row.number,
            lender: first.lender,
            conditions: `with what was brought forward from agreement ${first.of}`,
          },
        ]
      : [],
  );
}

/** Agreed on, by a notice that is not over, or with money that was brought forward. */
export function liensOf(frame: MoneyFrame): readonly LienNamed[] {
  const agreement = frame.found.row.number;
  const agreed = (frame.conditions.lienHolders ?? []).map(({ name }) => ({
    agreement,
    lender: name,
    conditions: 'named in the agreement',
  }));
  // What a lender had on the money of a sealed season, it has where that money is now.
  if (frame.rows.broughtForward.length > 0) return [];
  return [
    ...agreed,
    ...carriedLenders(frame),
    ...liveLiens(frame.rows).map(({ fact }) => ({
      agreement,
      lender: fact.lender,
      conditions: fact.conditions,
    })),
  ];
}
