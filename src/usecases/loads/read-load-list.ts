/**
 * A page of loads, newest first, of one agreement or of all that the caller's party is part of.
 */
import { figuresFor } from '../../documents/figures.ts';
import { describeTicket } from '../../documents/invoice/describe-load.ts';
import type { LoadComposition } from '../../documents/strip/load-strip.ts';
import { compare, type Exact, multiply, ONE, smaller, whole } from '../../domain/numbers/exact.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import type { Outcome, WaitingReason } from '../../domain/settlement/outcome.ts';
import { type Cursor, type ListStatus, listLoads } from '../../store/rows/list-rows.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { findAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { loadSetting, outcomesOf } from './load-views.ts';

export interface LoadListRequest {
  readonly agreementId?: string;
  readonly status: ListStatus;
  /** As `next` of the page before. */
  readonly after?: Cursor;
  /** How the reader writes numbers, such as "en-US". */
  readonly locale: string;
}

/** One load in a list, its figures as the reader writes them. */
export interface LoadSummary {
  readonly id: string;
  readonly agreementId: string;
  readonly agreementNumber: string;
  readonly ticket: string;
  /** Local date and time: "2026-09-14 21:40". */
  readonly deliveredAt: string;
  readonly seller: string;
  readonly buyer: string;
  readonly strip: LoadComposition;
  readonly standing: Standing;
}

/** How a load stands: settled with its total, refused, waiting with the reason, or ready to be settled. */
export type Standing =
  | { readonly status: 'settled'; readonly total: string; readonly currency: string }
  | { readonly status: 'refused'; readonly detail: string }
  | { readonly status: 'waiting'; readonly reason: WaitingReason; readonly detail: string }
  /** All is there: it would come to this. */
  | { readonly status: 'ready'; readonly total: string; readonly currency: string };

export interface LoadList {
  readonly loads: readonly LoadSummary[];
  /** Where the next page begins; undefined on the last. */
  readonly next: Cursor | undefined;
}

const LOADS_A_PAGE = 50;

/** Refuses `not-allowed`, and `not-found` for an agreement that is none of the caller's party's. */
export async function readLoadList(context: Context, request: LoadListRequest): Promise<LoadList> {
  permit(context, 'read');
  const { agreementId, status, after, locale } = request;
  if (after && !isId(after.id)) throw new Refusal('not-found', 'There is no such page of the list.');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    if (agreementId !== undefined) await findAgreement(tx, agreementId);
    const listed = await listLoads(tx, { agreementId, status, after, count: LOADS_A_PAGE + 1 });
    const page = listed.slice(0, LOADS_A_PAGE);
    const figures = figuresFor(locale);
    const agreements = [...new Set(page.map((load) => load.agreementId))];
    const told = [];
    for (const id of agreements) {
      const found = await findAgreement(tx, id);
      const ids = page.filter((load) => load.agreementId === id).map((load) => load.id);
      told.push({ found, outcomes: await outcomesOf(tx, found, await readLoads(tx, id, ids)) });
    }
    const heaviest = longestStrip(told.flatMap(({ outcomes }) => outcomes.map(({ outcome }) => outcome)));
    const summaries = new Map<string, LoadSummary>();
    for (const { found, outcomes } of told) {
      for (const { row, terms, outcome, settlements } of outcomes) {
        const setting = loadSetting(terms, { heaviest, figures });
        const { money } = setting;
        const { deliveredAt, strip, ticket } = describeTicket(outcome, setting);
        summaries.set(row.id, {
          id: row.id,
          agreementId: found.row.id,
          agreementNumber: found.row.number,
          ticket,
          deliveredAt,
          seller: found.row.sellerName,
          buyer: found.row.buyerName,
          strip,
          standing: standingOf(outcome, settlements.length > 0, (total) => ({
            total: figures.show(printAmount(total, money)),
            currency: money.currency,
          })),
        });
      }
    }
    const last = page.at(-1);
    return {
      loads: page.flatMap(({ id }) => summaries.get(id) ?? []),
      next: listed.length > page.length && last ? { deliveredAt: last.deliveredAt, id: last.id } : undefined,
    };
  });
}

/**
 * The weight that the longest strip stands for: the heaviest load's, but not so much that one mistyped weight makes
 * slivers of all the others.
 */
function longestStrip(outcomes: readonly Outcome[]): Exact {
  const weights = outcomes.map(({ load }) => load.netPounds).sort(compare);
  const middle = weights[Math.floor(weights.length / 2)] ?? ONE;
  return smaller(weights.at(-1) ?? ONE, multiply(middle, whole(2)));
}

/** How an outcome stands, given whether it has been settled. */
export function standingOf(
  outcome: Outcome,
  isSettled: boolean,
  print: (total: bigint) => { readonly total: string; readonly currency: string },
): Standing {
  switch (outcome.status) {
    case 'settled':
      return { status: isSettled ? 'settled' : 'ready', ...print(outcome.total) };
    case 'refused':
      return { status: 'refused', detail: outcome.breaches.join('; ') };
    case 'waiting':
      return { status: 'waiting', reason: outcome.reason, detail: outcome.detail };
  }
}
