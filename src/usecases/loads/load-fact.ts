/**
 * A load's row as the journal remembers it, and as the settlement reads it.
 */
import { whenText } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { DeliveredLoad } from '../../domain/deliveries/delivered-load.ts';
import { decimal, MAX_DECIMAL_LENGTH, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { type DistanceUnit, type ScaleUnit, toPounds } from '../../domain/quantities/units.ts';
import type { ScaleWeight } from '../../journal/accounts.ts';
import type { LoadFact, LoadVersionFact } from '../../journal/facts.ts';
import type { LoadVersionRow, TicketRow } from '../../store/rows/load-rows.ts';

/** What the journal remembers of a load. */
export function loadFact(row: TicketRow): LoadFact {
  const { ticket, deliveredOn, gross, tare, unit, distance, distanceUnit, truck, sample } = row;
  const { tareAt, grossScale, tareScale, moistureReading, plate, weigher, photo } = row;
  const deliveredAt = whenText(row.deliveredAt);
  return {
    ...{ ticket, deliveredAt, deliveredOn, gross, tare, unit, distance, distanceUnit, truck, sample },
    ...(tareAt === null ? {} : { tareAt: whenText(tareAt) }),
    ...(grossScale === null ? {} : { grossScale }),
    ...(tareScale === null ? {} : { tareScale }),
    ...(moistureReading === null ? {} : { moistureReading }),
    ...(plate === null ? {} : { plate }),
    ...(weigher === null ? {} : { weigher }),
    ...(photo === null ? {} : { photo }),
  };
}

/** What the journal remembers of a ticket that was put right. */
export function loadVersionFact(row: LoadVersionRow): LoadVersionFact {
  const { loadId, version, isVoid, reason } = row;
  return { load: loadId, version: String(version), void: isVoid, reason, ...loadFact(row) };
}

/** The net weight in the unit of its scale, all its decimals, as it is posted. */
export function scaleWeight({ net, unit }: DeliveredLoad): ScaleWeight {
  return { weight: printDecimal(net, MAX_DECIMAL_LENGTH), unit };
}

/** A row as a delivered load. Throws where the row could not have been recorded. */
export function deliveredLoad(row: TicketRow): DeliveredLoad {
  const [gross, tare, unit] = [decimal(row.gross), decimal(row.tare), row.unit as ScaleUnit];
  const net = subtract(gross, tare);
  return {
    ticket: row.ticket,
    deliveredAt: row.deliveredAt,
    deliveredOn: row.deliveredOn as LocalDate,
    unit,
    gross,
    tare,
    net,
    netPounds: toPounds(net, unit),
    ...(row.sample === null ? {} : { sample: row.sample }),
    ...(row.truck === null ? {} : { truck: row.truck }),
    ...(row.distance === null
      ? {}
      : { distance: { length: decimal(row.distance), unit: row.distanceUnit as DistanceUnit } }),
  };
}
