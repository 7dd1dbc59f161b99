/**
 * What the journal remembers of a weighing, a ticket series and a spent ticket.
 */
import { whenText } from '../../domain/dates/instant.ts';
import type { SpentTicketFact, TicketSeriesFact, WeighingFact } from '../../journal/facts.ts';
import type { SeriesRow, SpentTicketRow } from '../../store/rows/ticket-rows.ts';
import type { WeighingRow } from '../../store/rows/weighing-rows.ts';

export function weighingFact(row: WeighingRow): WeighingFact {
  const { ticket, weighedAt, gross, unit, truck, plate, scale, sample, weigher, moistureReading } = row;
  return {
    ...{ ticket, weighedAt: whenText(weighedAt), gross, unit, truck, plate, scale, sample },
    ...{ weigher, moistureReading },
  };
}

export function seriesFact({ prefix, width, firstNumber }: Omit<SeriesRow, 'id'>): TicketSeriesFact {
  return { prefix, width: String(width), first: String(firstNumber) };
}

export function spentTicketFact({ ticket, use, reason }: Omit<SpentTicketRow, 'id'>): SpentTicketFact {
  return { ticket, use, reason };
}
