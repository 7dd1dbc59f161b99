/**
 * A row of `loads.csv` as a delivered load.
 */
import { parseInstant, type ZoneCalendar } from '../dates/instant.ts';
import type { LocalDate } from '../dates/local-date.ts';
import type { DeliveredLoad } from '../deliveries/delivered-load.ts';
import { compare, subtract } from '../numbers/exact.ts';
import { SCALE_UNITS, toPounds } from '../quantities/units.ts';
import type { Row } from './row.ts';
import { found } from './table-shape.ts';

export interface LoadRules {
  readonly calendar: ZoneCalendar;
  /** True where a price term of a load's day is per mile or km; undefined where the day cannot be read. */
  readonly distanceNeeded: (deliveredOn: LocalDate | undefined) => boolean;
}

/** The load, or undefined where the row has faults (which the row then holds). */
export function readLoadRow(row: Row, { calendar, distanceNeeded }: LoadRules): DeliveredLoad | undefined {
  const ticket = row.name('ticket');
  const time = parseInstant(row.text('delivered_at'));
  if ('wrong' in time) row.fault('delivered_at', `must be ${time.wrong}; ${found(row.text('delivered_at'))}`);
  const gross = row.amount('gross');
  const tare = row.amount('tare');
  if (gross && tare && compare(tare, gross) >= 0) {
    row.fault('tare', `must be below the gross weight of ${row.text('gross')}; found ${row.text('tare')}`);
  }
  const unit = row.word('unit', SCALE_UNITS);
  const sample = row.optionalName('sample');
  const truck = row.optionalName('truck');
  const miles = row.optionalAmount('miles');
  const length = miles ?? row.optionalAmount('km');
  const deliveredOn = 'wrong' in time ? undefined : calendar.dateAt(time.instant);
  const hasNoDistance = length === undefined && row.text('miles') === '' && row.text('km') === '';
  if (hasNoDistance && distanceNeeded(deliveredOn)) {
    row.fault('miles', '(or km) must be given, since the agreement has a price per distance; it is empty');
  }
  if (row.problems.length > 0 || 'wrong' in time || !deliveredOn || !gross || !tare || !unit)
    return undefined;

  const net = subtract(gross, tare);
  return {
    ticket,
    deliveredAt: time.instant,
    deliveredOn,
    unit,
    gross,
    tare,
    net,
    netPounds: toPounds(net, unit),
    ...(sample === '' ? {} : { sample }),
    ...(truck === '' ? {} : { truck }),
    ...(length === undefined ? {} : { distance: { length, unit: miles === undefined ? 'km' : 'mile' } }),
  };
}
