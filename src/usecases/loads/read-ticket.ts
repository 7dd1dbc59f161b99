/**
 * One ticket as it stands, in the columns by which tickets are recorded and put right.
 */
import { whenText } from '../../domain/dates/instant.ts';
import { findLoad, type TicketRow } from '../../store/rows/load-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';

export interface TicketView {
  readonly id: string;
  readonly agreementId: string;
  /** Whoever puts it right names this version, so that nobody writes over what they have not seen. */
  readonly version: number;
  readonly isVoid: boolean;
  /** With the columns of `recordLoads`; those that say nothing are left out. */
  readonly ticket: InputRow;
}

/** Refuses `not-allowed`, and `not-found` for a load that is none of the caller's party's. */
export async function readTicket(
  context: Context,
  { loadId }: { readonly loadId: string },
): Promise<TicketView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const row = isId(loadId) ? await findLoad(tx, loadId) : undefined;
    if (!row) throw new Refusal('not-found', 'There is no such load.');
    const { id, agreementId, version, isVoid } = row;
    return { id, agreementId, version, isVoid, ticket: ticketColumns(row) };
  });
}

/** A ticket's row as `readTickets` reads it. */
export function ticketColumns(row: TicketRow): InputRow {
  const cells: Readonly<Record<string, string | null>> = {
    ticket: row.ticket,
    delivered_at: whenText(row.deliveredAt),
    gross: row.gross,
    tare: row.tare,
    unit: row.unit,
    sample: row.sample,
    truck: row.truck,
    [row.distanceUnit === 'km' ? 'km' : 'miles']: row.distance,
    tare_at: row.tareAt === null ? null : whenText(row.tareAt),
    gross_scale: row.grossScale,
    tare_scale: row.tareScale,
    moisture_reading: row.moistureReading,
    plate: row.plate,
    weigher: row.weigher,
    photo: row.photo,
  };
  return Object.fromEntries(
    Object.entries(cells).filter((cell): cell is [string, string] => cell[1] !== null),
  );
}
