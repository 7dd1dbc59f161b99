/**
 * Tickets of a file beside those that are recorded.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type LoadRow, readLoadsByTicket, type TicketRow } from '../../store/rows/load-rows.ts';
import { readClosing } from '../../store/rows/signing-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { readTickets } from '../loads/read-tickets.ts';
import {
  type Difference,
  isSame,
  type Judge,
  type Judgement,
  NEW,
  recordedAs,
  wrongRow,
} from './judgement.ts';

export function judgeTickets(tx: Transaction, found: FoundAgreement): Judge {
  const calendar = zoneCalendar(found.agreement.timeZone);
  return {
    read: (rows) => readTickets(found, rows),
    compare: async (rows) => {
      const tickets = readTickets(found, rows).map(({ ticket }) => ticket);
      const names = tickets.map(({ ticket }) => ticket);
      const recorded = await readLoadsByTicket(tx, found.row.id, names);
      const closing = await readClosing(tx, found.row.id);
      return tickets.map((ticket): Judgement => {
        const before = recorded.get(ticket.ticket);
        if (before?.isVoid) {
          return recordedAs([{ column: 'ticket', recorded: 'void', given: ticket.ticket }]);
        }
        if (before) return recordedAs(differences(ticket, before, calendar.wallClockAt));
        if (closing && ticket.deliveredOn > closing.lastDeliveryOn) {
          return wrongRow(
            'delivered_at',
            `is after ${closing.lastDeliveryOn}, when both sides closed this agreement for deliveries`,
          );
        }
        return NEW;
      });
    },
  };
}

/** What a ticket says by our columns. A figure is one whatever its zeros; a cell that the file lacks says nothing. */
function differences(
  given: TicketRow,
  recorded: LoadRow,
  wallClockAt: (instant: number) => string,
): Difference[] {
  const told: Difference[] = [];
  const tell = (column: string, was: string | null, is: string | null) => {
    if (is !== null && !isSame(was, is)) told.push({ column, recorded: was ?? 'nothing', given: is });
  };
  if (given.deliveredAt !== recorded.deliveredAt) {
    tell('delivered_at', wallClockAt(recorded.deliveredAt), wallClockAt(given.deliveredAt));
  }
  tell('unit', recorded.unit, given.unit);
  tell('gross', recorded.gross, given.gross);
  tell('tare', recorded.tare, given.tare);
  tell('sample', recorded.sample, given.sample);
  tell('truck', recorded.truck, given.truck);
  tell('plate', recorded.plate, given.plate);
  tell('weigher', recorded.weigher, given.weigher);
  tell('moisture_reading', recorded.moistureReading, given.moistureReading);
  if (given.distance !== null) {
    const was = recorded.distance === null ? null : `${recorded.distance} ${recorded.distanceUnit}`;
    const isEqual = recorded.distanceUnit === given.distanceUnit && isSame(recorded.distance, given.distance);
    if (!isEqual)
      tell(given.distanceUnit === 'km' ? 'km' : 'miles', was, `${given.distance} ${given.distanceUnit}`);
  }
  return told;
}
