/**
 * What a question may come to, in money, before anybody pays for a test. The agreement must be locked.
 */
import {
  add,
  compare,
  decimal,
  divide,
  type Exact,
  HUNDRED,
  isNegative,
  isZero,
  multiply,
  subtract,
  whole,
} from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import type { AskedRule } from '../../domain/retests/asked-rule.ts';
import { costBearer, type Side } from '../../domain/retests/costs.ts';
import { decimalsWritten, distance } from '../../domain/retests/figures.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { type Questioning, tryOutFigure } from './put-figure.ts';

/** Which figure would count: the first, what the asker makes of it, one half way, or one as far on the other side. */
export type PossibleKind = 'first' | 'claimed' | 'halfway' | 'against';

export interface Possible {
  readonly kind: PossibleKind;
  readonly value: string;
  /** What the buyer would owe more, a decimal string, below zero for less; undefined where it could not stand. */
  readonly changed: string | undefined;
  readonly obstacle: string | undefined;
  readonly bearer: Side | 'split';
}

export interface ToForesee {
  readonly found: FoundAgreement;
  readonly question: Questioning;
  readonly rule: AskedRule;
  readonly asker: Side;
  readonly first: string;
  readonly claimed: string;
  /** Of 100 at most. */
  readonly isPercent: boolean;
}

/** In order: the first figure stands, then what the asker hopes for, then what it may lose. */
export async function outlookOf(
  tx: Transaction,
  context: Context,
  toForesee: ToForesee,
): Promise<readonly Possible[]> {
  const { found, question, rule, asker, first, claimed } = toForesee;
  const { money } = moneyOfAgreement(found);
  const possible: Possible[] = [];
  for (const { kind, value } of figuresOf(toForesee)) {
    const tried =
      kind === 'first'
        ? { seen: 0n }
        : await tryOutFigure(tx, context, {
            found,
            question,
            value,
            reason: 'tried out',
            look: ({ changed }) => changed,
          });
    const changed = 'seen' in tried ? tried.seen : undefined;
    possible.push({
      kind,
      value,
      changed: changed === undefined ? undefined : printAmount(changed, money),
      obstacle: 'obstacle' in tried ? tried.obstacle : undefined,
      bearer: costBearer({
        rule: rule.fee,
        asker,
        isMovedToAsker: isTowards({ kind, changed, asker }),
        held: { asker: decimal(claimed), other: decimal(first) },
        referee: decimal(value),
      }),
    });
  }
  return possible;
}

function isTowards(of: {
  readonly kind: PossibleKind;
  readonly changed: bigint | undefined;
  readonly asker: Side;
}): boolean {
  if (of.changed === undefined || of.changed === 0n) return of.kind === 'claimed' || of.kind === 'halfway';
  return of.asker === 'seller' ? of.changed > 0n : of.changed < 0n;
}

function figuresOf({ rule, first, claimed, isPercent }: ToForesee) {
  const [one, other] = [decimal(first), decimal(claimed)];
  const places = Math.max(decimalsWritten(first), decimalsWritten(claimed));
  const halfway = divide(add(one, other), whole(2));
  const against = subtract(multiply(one, whole(2)), other);
  const text = (value: Exact) => printFixed(value, places);
  const figures: readonly (readonly [PossibleKind, Exact, string])[] = [
    ['first', one, first],
    ['claimed', other, claimed],
    ['halfway', halfway, text(halfway)],
    ['against', against, text(against)],
  ];
  return figures
    .filter(([kind, value]) => kind === 'first' || canCount(rule, { first: one, value, isPercent }))
    .map(([kind, , value]) => ({ kind, value }));
}

/** A figure within the tolerance leaves the first. */
function canCount(
  { method }: AskedRule,
  { first, value, isPercent }: { readonly first: Exact; readonly value: Exact; readonly isPercent: boolean },
): boolean {
  if (isNegative(value) || isZero(value) || (isPercent && compare(value, HUNDRED) > 0)) return false;
  if (method.method !== 'referee-stands') return true;
  return compare(distance(first, value), decimal(method.tolerance)) > 0;
}
