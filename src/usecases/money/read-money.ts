/**
 * The Money place: what waits for the caller, what it owes and is owed by due date, and how the season's value was
 * delivered, invoiced and paid.
 */

import { figuresFor } from '../../documents/figures.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { ageing, daysLate } from '../../domain/money/ageing.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { documentName } from '../../domain/money/money-document.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import { type Context, permit } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import {
  answersWaiting,
  balancesWaiting,
  issuesWaiting,
  type MoneyWait,
  overdueWaiting,
} from './money-waits.ts';
import { notInvoiced, type Pending, readPending } from './not-invoiced.ts';
import { type PartnerMoney, readerSign, readPartnerMoney } from './partner-money.ts';
import { type SeasonMoney, seasonMoney } from './season-money.ts';
import { compareText } from './statement-entries.ts';

/**
 * How things stand with one partner in one currency, amounts as the reader writes them. `balance` and its parts are told in
 * its direction: a part that goes the other way has a minus sign.
 */
export interface PartnerStanding {
  readonly partnerId: string;
  readonly partner: string;
  readonly currency: string;
  /** "they-owe", "you-owe" or "even". */
  readonly direction: 'they-owe' | 'you-owe' | 'even';
  /** What is owed in that direction, held and not due included. */
  readonly balance: string;
  /** Open and not held, of which `overdue` is late, `dueToday` is due today, and `notDue` later. */
  readonly due: string;
  readonly overdue: string;
  readonly dueToday: string;
  readonly notDue: string;
  readonly held: string;
  readonly onAccount: string;
  /** Who paid what is on account. */
  readonly onAccountBy: 'you' | 'them';
  /** Payments that were recorded and that their payee has not answered: they count in nothing yet. */
  readonly unansweredByYou: string;
  readonly unansweredByThem: string;
  readonly agreements: readonly {
    readonly id: string;
    readonly number: string;
    readonly side: 'seller' | 'buyer';
    /** Whether the reader's side issues the invoices. */
    readonly isIssuer: boolean;
    /** Both have signed its season shut. */
    readonly isSealed: boolean;
    /** The number of the agreement that took its balance up; null where none has. */
    readonly carriedInto: string | null;
  }[];
  /** Deliveries on no invoice yet. */
  readonly settledLoads: number;
  readonly settled: string;
  readonly settledFor: 'you' | 'them';
  readonly unpricedLoads: number;
  readonly valuedLoads: number;
  readonly provisional: string;
  readonly provisionalFor: 'you' | 'them';
  /** Advances invoiced for those loads: in the balance already. */
  readonly advances: string;
}

/** An open document. */
export interface DueItem {
  readonly documentId: string;
  readonly name: string;
  readonly partner: string;
  readonly agreementId: string;
  readonly agreement: string;
  readonly isOwedToYou: boolean;
  readonly dueOn: string;
  readonly daysLate: number;
  /** Due of it; what is held beside it. */
  readonly due: string;
  readonly held: string;
  readonly currency: string;
}

export interface MoneyPlace {
  /** The reader's local day. */
  readonly today: LocalDate;
  readonly waits: readonly MoneyWait[];
  readonly partners: readonly PartnerStanding[];
  /** By due date. */
  readonly items: readonly DueItem[];
  /** One for each currency. */
  readonly seasons: readonly SeasonMoney[];
}

/** Of all agreements of the caller's party, or of one. Refuses `not-allowed`, `not-found`. */
export async function readMoney(
  context: Context,
  { locale, agreementId }: { readonly locale: string; readonly agreementId?: string | undefined },
): Promise<MoneyPlace> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const money = await readPartnerMoney(tx, context, { agreementId });
    const { show } = figuresFor(locale);
    const known: KnownMoney[] = [];
    for (const one of money) known.push({ ...one, pending: await readPending(tx, one.frame) });
    const waits = known.flatMap((one) => [
      ...answersWaiting(one, { caller: context.caller, show }),
      ...issuesWaiting(one, show),
      ...overdueWaiting(one, show),
    ]);
    const balances = balancesWaiting(money, show);
    const groups = groupRows(known, ({ partner, frame }) => `${partner.id} ${frame.money.currency}`);
    return {
      today: money[0]?.frame.today ?? ('' as LocalDate),
      waits: [...waits, ...balances].sort((a, b) => (a.since < b.since ? -1 : 1)),
      partners: [...groups.values()].map((group) => standingWith(group, locale)),
      items: money.flatMap((one) => dueItems(one, locale)).sort((a, b) => compareText(a.dueOn, b.dueOn)),
      seasons: await seasonMoney(tx, money),
    };
  });
}

/** An agreement's money with the loads that are on no invoice yet. */
interface KnownMoney extends PartnerMoney {
  readonly pending: Pending;
}

function standingWith(group: readonly KnownMoney[], locale: string): PartnerStanding {
  const [first] = group;
  if (!first) throw new Error('A group of agreements is empty');
  const { money } = first.frame;
  const figures = figuresFor(locale);
  const sum = { balance: 0n, overdue: 0n, dueToday: 0n, notDue: 0n, held: 0n, onAccount: 0n };
  const unanswered = { you: 0n, them: 0n };
  const pendingSum = { settled: 0n, provisional: 0n, advances: 0n };
  const loads = { settledLoads: 0, unpricedLoads: 0, valuedLoads: 0 };
  for (const { frame, pending: loadsPending } of group) {
    const sign = readerSign(frame);
    const aged = ageing(frame.standing, frame.today);
    const late = aged.days1to30 + aged.days31to60 + aged.days61to90 + aged.over90;
    for (const { amount, by } of unansweredPayments(frame)) unanswered[by] += amount;
    const pending = notInvoiced(loadsPending, frame);
    sum.balance += sign * aged.total;
    sum.overdue += sign * late;
    const today = dueOnDay(frame);
    sum.dueToday += sign * today;
    sum.notDue += sign * (aged.notDue - today);
    sum.held += sign * aged.held;
    sum.onAccount += sign * aged.onAccount;
    pendingSum.settled += sign * pending.settled;
    pendingSum.provisional += sign * pending.provisional;
    pendingSum.advances += sign * pending.advances;
    loads.settledLoads += pending.settledLoads;
    loads.unpricedLoads += pending.unpricedLoads;
    loads.valuedLoads += pending.valuedLoads;
  }
  const isBack = sum.balance < 0n;
  // Told in the direction of the balance, so that no figure needs a sign.
  const show = (amount: bigint) => figures.show(printAmount(isBack ? -amount : amount, money));
  const size = (amount: bigint) => figures.show(printAmount(amount < 0n ? -amount : amount, money));
  return {
    partnerId: first.partner.id,
    partner: first.partner.name,
    currency: money.currency,
    direction: sum.balance === 0n ? 'even' : isBack ? 'you-owe' : 'they-owe',
    balance: show(sum.balance),
    due: show(sum.overdue + sum.dueToday + sum.notDue),
    overdue: show(sum.overdue),
    dueToday: show(sum.dueToday),
    notDue: show(sum.notDue),
    held: show(sum.held),
    onAccount: size(sum.onAccount),
    onAccountBy: sum.onAccount > 0n ? 'you' : 'them',
    unansweredByYou: size(unanswered.you),
    unansweredByThem: size(unanswered.them),
    agreements: group.map(({ frame }) => ({
      id: frame.agreementId,
      number: frame.found.row.number,
      side: frame.side,
      isIssuer: frame.issuer === frame.side,
      isSealed: frame.found.row.isSealed,
      carriedInto: frame.rows.broughtForward[0]?.into ?? null,
    })),
    ...loads,
    settled: size(pendingSum.settled),
    settledFor: pendingSum.settled < 0n ? 'them' : 'you',
    provisional: size(pendingSum.provisional),
    provisionalFor: pendingSum.provisional < 0n ? 'them' : 'you',
    advances: size(pendingSum.advances),
  };
}

/** Open and not held, and due on the frame's own day: not late before its end. */
function dueOnDay({ standing, today }: PartnerMoney['frame']): bigint {
  return standing.documents
    .filter(({ dueOn }) => dueOn === today)
    .reduce((sum, { open, held }) => sum + open - held, 0n);
}

function unansweredPayments({
  rows,
  side,
  buyerId,
  money,
}: PartnerMoney['frame']): readonly { readonly amount: bigint; readonly by: 'you' | 'them' }[] {
  const answered = new Set(rows.answers.map(({ fact }) => fact.payment));
  return rows.payments
    .filter(({ id }) => !answered.has(id))
    .map(({ fact }) => ({
      amount: minorUnits(fact.amount, money),
      by: (side === 'buyer') === (fact.payer === buyerId) ? 'you' : 'them',
    }));
}

function dueItems({ partner, frame }: PartnerMoney, locale: string): readonly DueItem[] {
  const figures = figuresFor(locale);
  const show = (amount: bigint) => figures.show(frame.print(amount));
  return frame.standing.documents
    .filter(({ open }) => open > 0n)
    .map((document) => ({
      documentId: document.id,
      name: documentName({ kind: document.kind, number: String(document.serial) }),
      partner: partner.name,
      agreementId: frame.agreementId,
      agreement: frame.found.row.number,
      isOwedToYou: frame.side === 'seller',
      dueOn: document.dueOn,
      daysLate: daysLate(document, frame.today),
      due: show(document.open - document.held),
      held: document.held > 0n ? show(document.held) : '',
      currency: frame.money.currency,
    }));
}
