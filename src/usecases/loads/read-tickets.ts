/**
 * Tickets as forms, files and scale-house programs give them: the columns of `loads.csv`, and what else a ticket may say.
 */
import { parseInstant, zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { DeliveredLoad } from '../../domain/deliveries/delivered-load.ts';
import { plainDecimal } from '../../domain/numbers/printing.ts';
import { needsDistance } from '../../domain/settlement/prepare-term.ts';
import { readLoadRow } from '../../domain/tables/load-row.ts';
import type { Row } from '../../domain/tables/row.ts';
import { LOADS } from '../../domain/tables/table-shape.ts';
import type { TicketRow } from '../../store/rows/load-rows.ts';
import { type FoundAgreement, isId, termsOn } from '../agreements/find-agreement.ts';
import { type InputRow, type ReadRow, readInputRows } from '../read-input-rows.ts';

/** Columns beside those of `loads.csv`. */
const PARTICULARS = ['tare_at', 'gross_scale', 'tare_scale', 'moisture_reading', 'plate', 'weigher', 'photo'];
export const TICKET_COLUMNS = {
  required: LOADS.required,
  optional: [...LOADS.optional, ...PARTICULARS],
};

export interface ReadTicket {
  readonly load: DeliveredLoad;
  readonly ticket: TicketRow;
}

/** Reads tickets of an agreement, each by the version it was delivered under. Refuses `bad-input` with every fault. */
export function readTickets(found: FoundAgreement, rows: readonly InputRow[]): readonly ReadTicket[] {
  const rules = {
    calendar: zoneCalendar(found.agreement.timeZone),
    distanceNeeded: (deliveredOn: LocalDate | undefined) =>
      (deliveredOn ? termsOn(found, deliveredOn) : found).agreement.price.some(needsDistance),
  };
  const read = readInputRows(rows, {
    shape: TICKET_COLUMNS,
    read: (row) => {
      checkParticulars(row);
      return readLoadRow(row, rules);
    },
    key: ['ticket'],
  });
  return read.map((row) => ({ load: row.found, ticket: ticketOf(row) }));
}

function checkParticulars(row: Row): void {
  const tareAt = row.text('tare_at');
  const time = tareAt === '' ? undefined : parseInstant(tareAt);
  if (time && 'wrong' in time) row.fault('tare_at', `must be ${time.wrong}; found ${JSON.stringify(tareAt)}`);
  for (const column of ['gross_scale', 'tare_scale']) {
    const id = row.text(column);
    if (id !== '' && !isId(id)) row.fault(column, 'must be the number of a scale here');
  }
  for (const column of ['plate', 'weigher']) row.optionalName(column);
  row.optionalPercent('moisture_reading');
  if (!/^([0-9a-f]{64})?$/.test(row.text('photo')))
    row.fault('photo', 'must be the fingerprint of a file here');
}

function ticketOf({ found, text, optional }: ReadRow<DeliveredLoad>): TicketRow {
  const distance = optional('miles') ?? optional('km');
  const moisture = optional('moisture_reading');
  const tareAt = parseInstant(text('tare_at'));
  return {
    ticket: found.ticket,
    deliveredAt: Math.trunc(found.deliveredAt),
    deliveredOn: found.deliveredOn,
    gross: plainDecimal(text('gross')),
    tare: plainDecimal(text('tare')),
    unit: found.unit,
    distance: distance === null ? null : plainDecimal(distance),
    distanceUnit: found.distance?.unit ?? null,
    truck: found.truck ?? null,
    sample: found.sample ?? null,
    tareAt: 'wrong' in tareAt ? null : Math.trunc(tareAt.instant),
    grossScale: optional('gross_scale'),
    tareScale: optional('tare_scale'),
    moistureReading: moisture === null ? null : plainDecimal(moisture),
    plate: optional('plate'),
    weigher: optional('weigher'),
    photo: optional('photo'),
  };
}
