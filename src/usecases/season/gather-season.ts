/**
 * All that a season's page is about, read for one agreement at once: loads with their tests and values, when each got its
 * price and its invoice, what was paid for, and the questions. An adviser sees neither money nor questions, so that they
 * are not read for it.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { DocumentKind } from '../../domain/money/money-document.ts';
import type { CountedLoad } from '../../domain/progress/progress.ts';
import {
  type DaysToMoney,
  daysOfLoads,
  daysOfMoney,
  type LoadDays,
  type MoneyUsed,
  type PayableDocument,
} from '../../domain/season/days-to-money.ts';
import { type EndingKind, type QuestionSums, questionSums } from '../../domain/season/question-endings.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type MoneyRows, readMoneyRows } from '../../store/rows/money/all-money-rows.ts';
import { readDeliveredLoads } from '../../store/rows/progress-rows.ts';
import { type FoundAgreement, sideOf } from '../agreements/find-agreement.ts';
import { countedLoad } from '../agreements/read-progress.ts';
import type { Context } from '../context.ts';
import { type LoadOutcome, outcomesOf } from '../loads/load-views.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { allocatedOf, countedPayments, type MoneyOf, standingBy } from '../money/money-rows.ts';
import type { RetestCase } from '../retests/retest-case.ts';
import { readCases } from '../retests/retest-frame.ts';

export interface Season {
  readonly found: FoundAgreement;
  /** In the order in which they were delivered; refused loads are none of them. */
  readonly counted: readonly CountedLoad[];
  readonly refused: number;
  readonly settlement: DaysToMoney['settlement'];
  /** Undefined for an adviser. */
  readonly money: Pick<DaysToMoney, 'invoice' | 'notInvoiced' | 'money'> | undefined;
  readonly questions: Questions | undefined;
}

export interface Questions {
  readonly cases: readonly RetestCase[];
  readonly sums: QuestionSums;
}

/** Documents that ask for money for feed; interest, fees and notes about a season as a whole are no load’s price. */
const FOR_FEED: ReadonlySet<string> = new Set<DocumentKind>(['invoice', 'advance', 'debit-note']);

export async function gatherSeason(
  tx: Transaction,
  { caller }: Pick<Context, 'caller'>,
  found: FoundAgreement,
): Promise<Season> {
  const outcomes = await outcomesOf(tx, found, await readDeliveredLoads(tx, found.row.id));
  // A refused load is no delivery, whatever it weighed.
  const kept = outcomes.filter(({ outcome }) => outcome.status !== 'refused');
  const { wallClockAt } = zoneCalendar(found.agreement.timeZone);
  const counted = kept.map((one) => countedLoad(one, wallClockAt));
  const of = moneyOfAgreement(found);
  const isParty = sideOf(found.row, caller) !== 'adviser';
  const rows = isParty ? await readMoneyRows(tx, [found.row.id]) : undefined;
  const days = daysOfLoads(loadDays(kept, of, rows));
  return {
    found,
    counted,
    refused: outcomes.length - kept.length,
    settlement: days.settlement,
    money: rows && { ...days, money: moneyDays(rows, { of, kept }) },
    questions: isParty ? questionsOf(await readCases(tx, found), of) : undefined,
  };
}

/** Of the loads that have settled: by the first settlement, and the first invoice that brought one. */
function loadDays(
  kept: readonly LoadOutcome[],
  { dayOf }: Pick<MoneyOf, 'dayOf'>,
  rows: MoneyRows | undefined,
): readonly LoadDays[] {
  const invoiced = new Map<string, LocalDate>();
  for (const { fact } of rows?.documents ?? []) {
    const on = fact.issuedOn as LocalDate;
    for (const { load, settlement } of fact.loads) {
      const known = invoiced.get(load);
      if (settlement !== null && (known === undefined || on < known)) invoiced.set(load, on);
    }
  }
  return kept.flatMap(({ row, outcome, settlements: [first] }) =>
    first && outcome.status === 'settled'
      ? {
          loadId: row.id,
          ticket: row.ticket,
          deliveredOn: outcome.load.deliveredOn,
          settledOn: dayOf(first.settledAt),
          invoicedOn: invoiced.get(row.id),
        }
      : [],
  );
}

function moneyDays(
  rows: MoneyRows,
  { of, kept }: { readonly of: MoneyOf; readonly kept: readonly LoadOutcome[] },
): DaysToMoney['money'] {
  const { money, dayOf } = of;
  const deliveredOn = new Map(kept.map(({ row, outcome }) => [row.id, outcome.load.deliveredOn]));
  const standing = new Map(standingBy(rows, of).documents.map((document) => [document.id, document]));
  const documents = rows.documents.flatMap(({ id, fact }): PayableDocument[] => {
    const stands = standing.get(id);
    if (!stands || !FOR_FEED.has(fact.kind) || fact.seasonRule !== undefined) return [];
    const loads = fact.loads.flatMap(({ load, goods, deductions, advance }) => {
      const on = deliveredOn.get(load);
      const [brought, taken, advanced] = [goods, deductions, advance].map((text) => minorUnits(text, money));
      return on === undefined
        ? []
        : [{ deliveredOn: on, amount: (brought ?? 0n) - (taken ?? 0n) - (advanced ?? 0n) }];
    });
    return [{ id, open: stands.open, held: stands.held, loads }];
  });
  const used = [
    ...countedPayments(rows).map(({ payment, answer }) => ({
      on: payment.fact.paidOn as LocalDate,
      allocated: answer.fact.allocated,
    })),
    ...rows.setOffAnswers
      .filter(({ fact }) => fact.answer === 'confirmed')
      .map(({ recordedAt, fact }) => ({ on: dayOf(recordedAt), allocated: fact.allocated })),
  ].flatMap(({ on, allocated }): MoneyUsed[] =>
    allocatedOf(allocated, money).map(({ documentId, amount }) => ({ documentId, on, amount })),
  );
  return daysOfMoney(documents, used);
}

function questionsOf(cases: readonly RetestCase[], { money }: Pick<MoneyOf, 'money'>): Questions {
  const ended = cases.flatMap(({ ending }) =>
    ending
      ? {
          ending: ending.fact.ending as EndingKind,
          changed: minorUnits(ending.fact.changed, money),
          sellerBears: minorUnits(ending.fact.sellerBears, money),
          buyerBears: minorUnits(ending.fact.buyerBears, money),
        }
      : [],
  );
  return { cases, sums: questionSums(cases.length, ended) };
}
