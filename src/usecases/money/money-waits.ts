/**
 * What of an agreement's money waits for the caller's own act, in sentences, with the page on which it is done.
 */

import { dayInWords } from '../../domain/dates/day-words.ts';
import { ageing } from '../../domain/money/ageing.ts';
import { isSamePair } from '../../domain/parties/same-pair.ts';
import type { Caller } from '../context.ts';
import type { MoneyFrame } from './money-frame.ts';
import type { Pending } from './not-invoiced.ts';
import type { PartnerMoney } from './partner-money.ts';
import { paymentName } from './payment-name.ts';

export interface MoneyWait {
  readonly kind: 'payment' | 'set-off' | 'issue' | 'advance' | 'pay' | 'bring-forward';
  readonly words: string;
  readonly path: string;
  /** Since when it waits: ISO 8601, UTC. */
  readonly since: string;
}

/** An amount, a decimal string, as the reader writes it. */
export type ShowAmount = (amount: string) => string;

/** What the other side recorded or proposed, and this side has not answered. */
export function answersWaiting(
  { partner, frame }: PartnerMoney,
  { caller, show }: { readonly caller: Caller; readonly show: ShowAmount },
): readonly MoneyWait[] {
  const { rows, agreementId } = frame;
  const answered = new Set([
    ...rows.answers.map(({ fact }) => fact.payment),
    ...rows.setOffAnswers.map(({ fact }) => fact.setOff),
  ]);
  const path = `/money/payments?agreement=${agreementId}`;
  return [
    ...rows.payments
      .filter(({ id, fact }) => !answered.has(id) && fact.payer !== caller.partyId)
      .map(({ fact, recordedAt }): MoneyWait => {
        const day = dayInWords(fact.paidOn, frame.today);
        const words = `${partner.name} paid ${show(fact.amount)} ${fact.currency} on ${day} (${paymentName(fact)}). Confirm that it came, or contest it.`;
        return { kind: 'payment', words, path, since: recordedAt };
      }),
    ...rows.setOffs
      .filter(({ id, fact }) => !answered.has(id) && fact.party !== caller.partyId)
      .map(({ fact, recordedAt }): MoneyWait => {
        const words = `${partner.name} proposes to use ${show(fact.amount)} ${fact.currency} on account for open invoices. Agree to it, or refuse.`;
        return { kind: 'set-off', words, path, since: recordedAt };
      }),
  ];
}

/** Loads that can be invoiced or advanced, where the caller's side issues the invoices. */
export function issuesWaiting(
  { frame, pending: { claims, waiting } }: PartnerMoney & { readonly pending: Pending },
  show: ShowAmount,
): readonly MoneyWait[] {
  const { conditions, issuer, side, agreementId, found, recorded } = frame;
  if (issuer !== side) return [];
  const path = `/money/issue?agreement=${agreementId}`;
  const waits: MoneyWait[] = [];
  if (claims.length > 0) {
    const sum = claims.reduce(
      (total, { goods, deducted, advance }) => total + goods - deducted - advance,
      0n,
    );
    const since = claims.map(({ load }) => load.settledAt ?? recorded.recordedAt).toSorted()[0];
    waits.push({
      kind: 'issue',
      words: `${counted(claims.length)} of agreement ${found.row.number} ${claims.length === 1 ? 'has' : 'have'} settled and ${claims.length === 1 ? 'is' : 'are'} on no invoice yet: ${show(frame.print(sum))} ${frame.money.currency}.`,
      path,
      since: since ?? recorded.recordedAt,
    });
  }
  if (conditions.advance) {
    const given = new Set(frame.rows.documents.flatMap(({ fact }) => fact.loads.map(({ load }) => load)));
    const loads = waiting.filter(({ row }) => !given.has(row.id));
    if (loads.length > 0) {
      const words = `${counted(loads.length)} of agreement ${found.row.number} may have an advance.`;
      waits.push({ kind: 'advance', words, path, since: recorded.recordedAt });
    }
  }
  return waits;
}

/** Balances of sealed seasons that the caller's side can bring forward into a later agreement with the same party. */
export function balancesWaiting(money: readonly PartnerMoney[], show: ShowAmount): readonly MoneyWait[] {
  return money.flatMap(({ frame }): MoneyWait[] => {
    const { found, standing, print, rows } = frame;
    if (!found.row.isSealed || standing.balance === 0n || rows.broughtForward.length > 0) return [];
    const takers = money.filter(({ frame: other }) => takesUp(other, frame));
    const [next, ...others] = takers.filter(({ frame: other }) => other.issuer === other.side);
    if (!next) return [];
    const isOne = others.length === 0;
    const into = isOne ? `agreement ${next.frame.found.row.number}` : 'one of your open agreements';
    const [owed, who] =
      standing.balance > 0n
        ? [standing.balance, found.row.buyerName]
        : [-standing.balance, found.row.sellerName];
    return [
      {
        kind: 'bring-forward',
        words: `The season of agreement ${found.row.number} is sealed, and ${who} owes ${show(print(owed))} ${frame.money.currency} of it. Bring that forward into ${into}.`,
        // Where there is a choice, the sealed season's own page leads to each.
        path: isOne
          ? `/agreements/${next.frame.agreementId}/past-seasons`
          : `/agreements/${frame.agreementId}/season-close`,
        since: frame.recorded.recordedAt,
      },
    ];
  });
}

function takesUp({ found, money }: MoneyFrame, { found: sealed, money: of }: MoneyFrame): boolean {
  return !found.row.isSealed && isSamePair(found.row, sealed.row) && money.currency === of.currency;
}

/** What the caller owes that is past its due date; a sealed season takes no payment. */
export function overdueWaiting({ partner, frame }: PartnerMoney, show: ShowAmount): readonly MoneyWait[] {
  if (frame.side !== 'buyer' || frame.found.row.isSealed) return [];
  const aged = ageing(frame.standing, frame.today);
  const late = aged.days1to30 + aged.days31to60 + aged.days61to90 + aged.over90;
  if (late <= 0n) return [];
  const first = frame.standing.documents
    .filter(({ open, held, dueOn }) => open - held > 0n && dueOn < frame.today)
    .map(({ dueOn }) => dueOn)
    .toSorted()[0];
  return [
    {
      kind: 'pay',
      words: `You owe ${partner.name} ${show(frame.print(late))} ${frame.money.currency} that is past its due date; the oldest was due on ${dayInWords(first ?? frame.today, frame.today)}.`,
      path: `/money/pay?agreement=${frame.agreementId}`,
      since: `${first ?? frame.today}T00:00:00.000Z`,
    },
  ];
}

function counted(loads: number): string {
  return loads === 1 ? '1 load' : `${loads} loads`;
}
