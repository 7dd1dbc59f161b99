/**
 * Issues what is ready to be invoiced: invoices for the periods that are over, and notes for loads that have settled
 * anew, were refused or made void since they were invoiced.
 */

import type { LocalDate } from '../../domain/dates/local-date.ts';
import { type DueTerms, daysAfter, dueOn } from '../../domain/money/due-date.ts';
import { type InvoicePeriod, invoicePeriod } from '../../domain/money/invoice-periods.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { groupRows } from '../group-rows.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { holdQuestioned } from '../retests/hold-questioned.ts';
import { claimLoads, type LoadClaim, lastDay } from './claim-loads.ts';
import { type MoneyFrame, moneyFrame } from './money-frame.ts';
import {
  type DocumentDraft,
  namedDocument,
  type WrittenDocument,
  writeDocuments,
} from './write-documents.ts';

export interface InvoicesToIssue {
  readonly agreementId: string;
  /** Periods that are not over yet as well; a season is over when somebody says so. */
  readonly includeOpenPeriods?: boolean;
  readonly key?: string;
}

export interface Issued {
  readonly documents: readonly WrittenDocument[];
  /** Settled loads whose period is not over yet. */
  readonly waiting: number;
  /** Tickets of loads whose deductions need a dry matter that is not reported. */
  readonly lacking: readonly string[];
}

/**
 * Issues documents in the seller's numbers, in one transaction: what is invoiced already stays, so that issuing twice, or
 * in parallel, gives one. Refuses `not-allowed`, `not-found`, and `not-yours` for the side that does not issue.
 */
export async function issueInvoices(
  context: Context,
  { agreementId, includeOpenPeriods = false, key }: InvoicesToIssue,
): Promise<Issued> {
  permit(context, 'issue-invoice');
  const asked = { verb: 'issue-invoices', subject: agreementId, key, input: { includeOpenPeriods } };
  return await doOnce(context, asked, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    refuseOtherIssuer(frame);
    const { claims, lacking } = await claimLoads(tx, frame);
    const fresh = groupRows(
      claims.filter(({ isNote, corrects }) => !isNote && corrects === null),
      ({ load }) => periodOf(frame, load).key,
    );
    const ready = [...fresh.values()].filter(
      ([first]) => includeOpenPeriods || (first && isOver(frame, first)),
    );
    const drafts = [...ready.map((group) => invoiceDraft(frame, group)), ...noteDrafts(frame, claims)];
    const documents = await writeDocuments(tx, context, { frame, drafts });
    await holdQuestioned(tx, context, frame.found);
    if (documents.length > 0) await tellPartner(tx, context, { found: frame.found, kind: 'invoice-came' });
    const all = [...fresh.values()].reduce((count, group) => count + group.length, 0);
    const taken = ready.reduce((count, group) => count + group.length, 0);
    return { documents, waiting: all - taken, lacking };
  });
}

/**
 * Issues the notes of loads that have settled anew, in the transaction that settled them: the documents follow what was
 * decided at once, whoever decided it. The agreement must be locked.
 */
export async function issueNotes(
  tx: Transaction,
  context: Context,
  {
    frame,
    loadIds,
    why = AFTER_CORRECTION,
  }: {
    readonly frame: MoneyFrame;
    readonly loadIds: readonly string[];
    /** To complete "have settled anew …". */
    readonly why?: string;
  },
): Promise<readonly WrittenDocument[]> {
  const { claims } = await claimLoads(tx, frame, loadIds);
  return await writeDocuments(tx, context, { frame, drafts: noteDrafts(frame, claims, why) });
}

/** Refuses `not-yours`. */
export function refuseOtherIssuer({ issuer, side, found }: MoneyFrame): void {
  if (side === issuer) return;
  const name = issuer === 'seller' ? found.row.sellerName : found.row.buyerName;
  throw new Refusal('not-yours', `By your agreement ${name} issues the invoices.`);
}

/** Where nothing is agreed, everything that has settled goes on one invoice at once. */
export function periodOf(
  { conditions, today }: MoneyFrame,
  { loadId, deliveredOn }: LoadClaim['load'],
): InvoicePeriod {
  const by = conditions.payment?.invoices;
  if (by === undefined) return { key: 'all', last: daysAfter(today, -1) };
  return invoicePeriod(by, { loadId, deliveredOn: deliveredOn as LocalDate });
}

/** Whether all of a load's period is in. */
export function isOver(frame: MoneyFrame, { load }: LoadClaim): boolean {
  const { last } = periodOf(frame, load);
  return last !== null && last < frame.today;
}

function invoiceDraft(frame: MoneyFrame, group: readonly LoadClaim[]): DocumentDraft {
  const terms: DueTerms = frame.conditions.payment ?? {};
  const due = dueOn(terms, {
    issuedOn: frame.today,
    lastDeliveredOn: lastDay(group.map(({ load }) => load.deliveredOn)),
    lastSettledOn: lastDay(
      group.map(({ load }) => (load.settledAt === null ? undefined : frame.dayOf(load.settledAt))),
    ),
  });
  return { ...draftOf(frame, group), kind: 'invoice', dueOn: due, named: [], correctsId: null, reason: null };
}

/** One note for each document that is corrected. */
function noteDrafts(
  frame: MoneyFrame,
  claims: readonly LoadClaim[],
  why: string = AFTER_CORRECTION,
): DocumentDraft[] {
  const notes = claims.filter(({ corrects }) => corrects !== null);
  return [...groupRows(notes, ({ corrects }) => corrects)].map(([correctsId, group]) => {
    const draft = draftOf(frame, group);
    const isCredit = draft.payable < 0n;
    const corrected = frame.rows.documents.find(({ id }) => id === correctsId);
    if (!corrected) throw new Error('A note corrects a document that is not there');
    return {
      ...draft,
      kind: isCredit ? 'credit-note' : 'debit-note',
      dueOn: isCredit ? frame.today : dueOn(frame.conditions.payment ?? {}, { issuedOn: frame.today }),
      named: [namedDocument(corrected)],
      correctsId,
      reason: reasonOf(group, why),
    };
  });
}

const AFTER_CORRECTION = 'after a correction that both sides agreed on';

function reasonOf(group: readonly LoadClaim[], why: string): string {
  const tickets = group.map(({ load }) => load.ticket);
  const isOne = tickets.length === 1;
  const named = isOne ? `Load ${tickets[0]}` : `Loads ${tickets.join(', ')}`;
  const [are, they, have] = isOne ? ['was', 'it was', 'has'] : ['were', 'they were', 'have'];
  if (group.every(({ load }) => load.isVoid)) return `${named} ${are} made void after ${they} invoiced.`;
  if (group.every(({ load }) => load.status === 'refused')) return `${named} ${are} refused.`;
  return `${named} ${have} settled anew ${why}.`;
}

function draftOf(
  { print }: MoneyFrame,
  group: readonly LoadClaim[],
): Omit<DocumentDraft, 'kind' | 'dueOn' | 'named' | 'correctsId' | 'reason'> {
  const days = group.map(({ load }) => load.deliveredOn).toSorted();
  return {
    period: { from: days.at(0) ?? '', to: days.at(-1) ?? '' },
    lines: group.flatMap(({ lines }) => lines),
    deductions: group.flatMap(({ deductions }) => deductions),
    advances: group.flatMap(({ advances }) => advances),
    loads: group.map(({ load, goods, deducted, advance }) => ({
      load: load.loadId,
      settlement: load.isVoid ? null : load.settlementId,
      goods: print(goods),
      deductions: print(deducted),
      advance: print(advance),
    })),
    payable: group.reduce((sum, { goods, deducted, advance }) => sum + goods - deducted - advance, 0n),
  };
}
