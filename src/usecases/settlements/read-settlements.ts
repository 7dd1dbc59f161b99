/**
 * The settlements of an agreement as they stand: each line with how it came about, and what it rests on. For bookkeeping
 * programs, a page at a time.
 */
import { type Cursor, listLoads } from '../../store/rows/list-rows.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import {
  readSettlements as readSettlementRows,
  type SettlementRow,
} from '../../store/rows/settlement-rows.ts';
import { findAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';

export interface SettlementView extends Omit<SettlementRow, 'settledBy' | 'agreementVersionId'> {
  readonly ticket: string;
}

export interface SettlementPage {
  readonly settlements: readonly SettlementView[];
  /** Where the next page begins; undefined on the last. */
  readonly next: Cursor | undefined;
}

export interface SettlementsWanted {
  readonly agreementId: string;
  /** Priced loads, or those that the buyer refused. */
  readonly status: SettlementRow['status'];
  /** As `next` of the page before. */
  readonly after?: Cursor;
}

const SETTLEMENTS_A_PAGE = 200;

/** By delivery, newest first. Refuses `not-allowed`, and `not-found` for an agreement of others. */
export async function readSettlements(
  context: Context,
  { agreementId, status, after }: SettlementsWanted,
): Promise<SettlementPage> {
  permit(context, 'read');
  if (after && !isId(after.id)) throw new Refusal('not-found', 'There is no such page of the list.');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    const listed = await listLoads(tx, { agreementId, status, after, count: SETTLEMENTS_A_PAGE + 1 });
    const page = listed.slice(0, SETTLEMENTS_A_PAGE);
    const ids = page.map(({ id }) => id);
    const tickets = new Map((await readLoads(tx, agreementId, ids)).map(({ id, ticket }) => [id, ticket]));
    // Versions come oldest first, so the last of a load is what stands.
    const standing = new Map(
      (await readSettlementRows(tx, agreementId, ids)).map((row) => [row.loadId, row]),
    );
    const last = page.at(-1);
    return {
      settlements: ids.flatMap((id): SettlementView[] => {
        const row = standing.get(id);
        if (!row) return [];
        const { settledBy: _, agreementVersionId: _version, ...rest } = row;
        return [{ ...rest, ticket: tickets.get(id) ?? '' }];
      }),
      next: listed.length > page.length && last ? { deliveredAt: last.deliveredAt, id: last.id } : undefined,
    };
  });
}
