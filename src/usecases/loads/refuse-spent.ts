/**
 * Ticket numbers that are not free: those that were spoiled or used for something else, and those of trucks that were
 * weighed full and are still to be weighed empty.
 */
import { whenText } from '../../domain/dates/instant.ts';
import { compare, decimal } from '../../domain/numbers/exact.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { TicketRow } from '../../store/rows/load-rows.ts';
import { readSpentTickets, type SpentTicketRow } from '../../store/rows/ticket-rows.ts';
import { readWeighings } from '../../store/rows/weighing-rows.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `ticket-taken`. */
export async function refuseSpentTickets(
  tx: Transaction,
  agreementId: string,
  tickets: readonly string[],
): Promise<void> {
  const [spent] = await readSpentTickets(tx, agreementId, tickets);
  if (spent) throw new Refusal('ticket-taken', `${spentInWords(spent)} Give this load its own ticket.`);
}

/** "Ticket T4 is void: the driver tore it." */
export function spentInWords({ ticket, use, reason }: SpentTicketRow): string {
  const because = /[.!?]$/.test(reason) ? reason : `${reason}.`;
  return use === 'void'
    ? `Ticket ${ticket} is void: ${because}`
    : `Ticket ${ticket} was used elsewhere: ${because}`;
}

/** Refuses `ticket-taken` for a load that has the ticket of an open weighing and not its gross weight and time. */
export async function refuseOtherWeighing(
  tx: Transaction,
  agreementId: string,
  loads: readonly TicketRow[],
): Promise<void> {
  const open = (await readWeighings(tx, agreementId)).filter(({ isOpen }) => isOpen);
  if (open.length === 0) return;
  for (const { ticket, gross, unit, deliveredAt } of loads) {
    const weighing = open.find((weighed) => weighed.ticket === ticket);
    if (!weighing) continue;
    const isSame =
      compare(decimal(weighing.gross), decimal(gross)) === 0 &&
      weighing.unit === unit &&
      weighing.weighedAt === deliveredAt;
    if (isSame) continue;
    throw new Refusal(
      'ticket-taken',
      `Ticket ${ticket} is of a truck that was weighed full at ${whenText(weighing.weighedAt)}, ${weighing.gross} ${weighing.unit}, and not yet empty. Weigh it out, or give this load its own ticket.`,
    );
  }
}
