/**
 * What the agreed rules for the season mean for its closing: what is open by them, and what the statement says of them.
 */
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import type { OpenPoint } from '../../domain/season-close/open-points.ts';
import type { MoneyFrame } from '../money/money-frame.ts';
import type { SeasonRuleStanding } from './season-rules.ts';

/** Money that is on no note yet, and rules that wait: both may be carried over. */
export function adjustmentPoints(
  rules: readonly SeasonRuleStanding[],
  { print }: Pick<MoneyFrame, 'print'>,
): readonly OpenPoint[] {
  const open = rules.filter(({ waits, owed, issued }) => waits === undefined && owed !== issued);
  const left = open.reduce((sum, { owed, issued }) => sum + owed - issued, 0n);
  const waiting = rules.flatMap(({ waits }) => waits ?? []);
  return [
    // Two rules may owe each other out; what is on no note is open all the same.
    ...(open.length === 0 ? [] : [{ kind: 'adjustment' as const, count: open.length, amount: print(left) }]),
    ...(waiting.length === 0
      ? []
      : [
          {
            kind: 'adjustment' as const,
            count: waiting.length,
            amount: null,
            why: [...new Set(waiting)].join('; '),
          },
        ]),
  ];
}

/** Nothing where no rule is agreed on, so that statements without any are what they were. */
export function adjustmentsOf(
  rules: readonly SeasonRuleStanding[],
  { print }: Pick<MoneyFrame, 'print'>,
): Pick<ClosingStatement, 'adjustments'> {
  if (rules.length === 0) return {};
  return {
    adjustments: rules.map(({ rule, owed, issued, waits, told }) => ({
      rule,
      words: told((figure) => figure),
      amount: waits === undefined ? print(owed) : null,
      issued: print(issued),
    })),
  };
}
