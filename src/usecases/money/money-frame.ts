/**
 * The agreement whose money is to change: locked, with its terms, all that is recorded of its money, and today.
 */
import { type Conditions, conditionsOf } from '../../domain/agreement/conditions.ts';
import { parseInstant, zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { Standing } from '../../domain/money/standing.ts';
import { type Money, printAmount } from '../../domain/settlement/line.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { type MoneyRows, readMoneyRows } from '../../store/rows/money/all-money-rows.ts';
import type { Recorded } from '../../store/rows/result-rows.ts';
import { type FoundAgreement, findOwnAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, stamp } from '../context.ts';
import { liveLiens, type MoneyOf, standingBy } from './money-rows.ts';

export interface MoneyFrame extends MoneyOf {
  readonly found: FoundAgreement;
  readonly agreementId: string;
  readonly buyerId: string;
  readonly conditions: Conditions;
  readonly money: Money;
  readonly print: (amount: bigint) => string;
  /** The local date in the agreement's time zone. */
  readonly today: LocalDate;
  readonly side: 'seller' | 'buyer';
  /** Who draws up the invoices: the seller, unless they agreed on self-billing. */
  readonly issuer: 'seller' | 'buyer';
  readonly recorded: Recorded;
  readonly rows: MoneyRows;
  readonly standing: Standing;
}

/** Opens an agreement to change its money. Refuses `not-found`, `not-yours`. */
export async function moneyFrame(
  tx: Transaction,
  context: Context,
  agreementId: string,
): Promise<MoneyFrame> {
  const found = await findOwnAgreement(tx, context.caller, agreementId);
  await lockAgreement(tx, agreementId);
  return await frameOf(tx, context, found);
}

/** The same for an agreement that is found and locked already. */
export async function frameOf(tx: Transaction, context: Context, found: FoundAgreement): Promise<MoneyFrame> {
  return frameWith(context, found, await readMoneyRows(tx, [found.row.id]));
}

/** The same where the agreement's rows have been read. */
export function frameWith(context: Context, found: FoundAgreement, rows: MoneyRows): MoneyFrame {
  const of = moneyOfAgreement(found);
  const conditions = conditionsOf(found.agreement) ?? {};
  const recordedAt = stamp(context);
  return {
    ...of,
    found,
    agreementId: found.row.id,
    buyerId: found.row.buyerId,
    conditions,
    issuer: conditions.payment?.issuedBy ?? 'seller',
    print: (amount) => printAmount(amount, of.money),
    today: of.dayOf(recordedAt),
    side: sideOf(found.row, context.caller) === 'seller' ? 'seller' : 'buyer',
    recorded: { agreementId: found.row.id, recordedAt, recordedBy: context.caller.personId },
    rows,
    standing: standingBy(rows, of),
  };
}

/** The frame after more was recorded in the same transaction. */
export async function refreshed(tx: Transaction, frame: MoneyFrame): Promise<MoneyFrame> {
  const rows = await readMoneyRows(tx, [frame.agreementId]);
  return { ...frame, rows, standing: standingBy(rows, frame) };
}

/** What an agreement's money is in, and on which local day a moment falls. */
export function moneyOfAgreement({ agreement, row }: Pick<FoundAgreement, 'agreement' | 'row'>): MoneyOf {
  const calendar = zoneCalendar(agreement.timeZone);
  return {
    money: moneyOf(agreement),
    sellerId: row.sellerId,
    dayOf: (moment) => {
      const read = parseInstant(moment);
      if ('wrong' in read) throw new Error(`A moment that was recorded is none: ${moment}`);
      return calendar.dateAt(read.instant);
    },
  };
}

/**
 * Lenders to whom a payment to the seller is made out as well: agreed on, by a notice that is not over, or with money that was
 * brought forward from a season of theirs.
 */
export function jointPayeesOf(
  conditions: Conditions,
  rows: Pick<MoneyRows, 'liens' | 'lienEnds' | 'carriedLenders'>,
): readonly string[] {
  const agreed = (conditions.lienHolders ?? []).map(({ name }) => name);
  return [
    ...new Set([
      ...agreed,
      ...liveLiens(rows).map(({ fact }) => fact.lender),
      ...rows.carriedLenders.map(({ lender }) => lender),
    ]),
  ];
}
