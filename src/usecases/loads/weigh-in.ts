/**
 * A truck is weighed full now; its tare comes later. The weighing keeps its ticket until then.
 */
import { parseInstant, zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { LAST_LOADS, tellEmptyGross, usualTruck } from '../../domain/deliveries/usual-truck.ts';
import { type Exact, isZero } from '../../domain/numbers/exact.ts';
import { plainDecimal } from '../../domain/numbers/printing.ts';
import { SCALE_UNITS, type ScaleUnit, toPounds } from '../../domain/quantities/units.ts';
import { doubtWeight } from '../../domain/scales/weighing-doubts.ts';
import type { Row } from '../../domain/tables/row.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLoadsByTicket } from '../../store/rows/load-rows.ts';
import { readClosing } from '../../store/rows/signing-rows.ts';
import { readTruckWeighings } from '../../store/rows/ticket-rows.ts';
import { insertWeighing, readWeighings, type WeighingRow } from '../../store/rows/weighing-rows.ts';
import { type FoundAgreement, findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { scalesOfBoth, unknownScale, weightsOf } from './doubt-tickets.ts';
import { refuseSpentTickets } from './refuse-spent.ts';
import { weighingFact } from './ticket-fact.ts';

export const WEIGHING_COLUMNS = {
  required: ['ticket', 'weighed_at', 'gross', 'unit'],
  optional: ['truck', 'plate', 'scale', 'sample', 'weigher', 'moisture_reading'],
} as const;

export interface WeighingToRecord {
  readonly agreementId: string;
  /** With the columns of `WEIGHING_COLUMNS`. */
  readonly weighing: InputRow;
  readonly key?: string;
  /** Unusual weights were looked at, and are right. */
  readonly confirmed?: boolean;
}

interface ReadWeighing {
  readonly ticket: string;
  readonly at: number;
  readonly on: LocalDate;
  readonly gross: Exact;
  readonly unit: ScaleUnit;
}

/**
 * Returns the weighing's id; the same weighing again is not written again. Refuses `not-allowed`, `bad-input`,
 * `not-found`, `not-yours`, `ticket-taken`, `agreement-closed`, `unusual`.
 */
export async function weighIn(
  context: Context,
  { agreementId, weighing, key, confirmed }: WeighingToRecord,
): Promise<{ readonly weighingId: string; readonly isNew: boolean }> {
  permit(context, 'record-load');
  const asked = { verb: 'weigh-in', subject: agreementId, key, input: weighing };
  return await doOnce(context, asked, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const { read, row } = readWeighing(context, found, weighing);
    await lockAgreement(tx, agreementId);
    const earlier = (await readWeighings(tx, agreementId)).find(({ ticket }) => ticket === row.ticket);
    if (earlier && JSON.stringify(weighingFact(earlier)) === JSON.stringify(weighingFact(row))) {
      return { weighingId: earlier.id, isNew: false };
    }
    await refuseTicket(tx, agreementId, { ticket: row.ticket, earlier });
    const closing = await readClosing(tx, agreementId);
    if (closing && read.on > closing.lastDeliveryOn) {
      throw new Refusal(
        'agreement-closed',
        `Both sides closed this agreement for deliveries after ${closing.lastDeliveryOn}.`,
      );
    }
    refuseUnusual(await doubtWeighing(tx, found, { read, row }), confirmed);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    await insertWeighing(tx, row, recorded);
    const fact = weighingFact(row);
    await enterFacts(tx, [{ kind: 'weighing', fact, subjectId: row.id, postings: [] }], recorded);
    return { weighingId: row.id, isNew: true };
  });
}

function readWeighing(context: Context, { agreement }: FoundAgreement, weighing: InputRow) {
  const [given] = readInputRows([weighing], {
    shape: WEIGHING_COLUMNS,
    read: (row) => readWeighingRow(row, agreement.timeZone),
    key: ['ticket'],
  });
  if (!given) throw new Error('A weighing that was read is not there');
  const { found: read, text, optional } = given;
  const moisture = optional('moisture_reading');
  const row: WeighingRow = {
    id: context.newId(),
    ticket: read.ticket,
    weighedAt: read.at,
    gross: plainDecimal(text('gross')),
    unit: read.unit,
    truck: optional('truck'),
    plate: optional('plate'),
    scale: optional('scale'),
    sample: optional('sample'),
    weigher: optional('weigher'),
    moistureReading: moisture === null ? null : plainDecimal(moisture),
    isOpen: true,
  };
  return { read, row };
}

function readWeighingRow(row: Row, timeZone: string): ReadWeighing | undefined {
  const ticket = row.name('ticket');
  const time = parseInstant(row.text('weighed_at'));
  if ('wrong' in time) {
    row.fault('weighed_at', `must be ${time.wrong}; found ${JSON.stringify(row.text('weighed_at'))}`);
  }
  const gross = row.amount('gross');
  if (gross && isZero(gross)) row.fault('gross', 'must be above 0');
  const unit = row.word('unit', SCALE_UNITS);
  for (const column of ['truck', 'plate', 'sample', 'weigher']) row.optionalName(column);
  if (row.text('scale') !== '' && !isId(row.text('scale'))) {
    row.fault('scale', 'must be the number of a scale here');
  }
  row.optionalPercent('moisture_reading');
  if (row.problems.length > 0 || 'wrong' in time || !gross || !unit) return undefined;
  const at = Math.trunc(time.instant);
  return { ticket, at, on: zoneCalendar(timeZone).dateAt(at), gross, unit };
}

async function refuseTicket(
  tx: Transaction,
  agreementId: string,
  { ticket, earlier }: { readonly ticket: string; readonly earlier: WeighingRow | undefined },
): Promise<void> {
  if ((await readLoadsByTicket(tx, agreementId, [ticket])).has(ticket)) {
    throw new Refusal(
      'ticket-taken',
      `Ticket ${ticket} is a load already. Give this weighing its own ticket.`,
    );
  }
  await refuseSpentTickets(tx, agreementId, [ticket]);
  if (earlier) {
    throw new Refusal(
      'ticket-taken',
      `Ticket ${ticket} was weighed before, ${earlier.gross} ${earlier.unit} gross. Give this weighing its own ticket.`,
    );
  }
}

async function doubtWeighing(
  tx: Transaction,
  found: FoundAgreement,
  { read, row }: { readonly read: ReadWeighing; readonly row: WeighingRow },
): Promise<readonly string[]> {
  const { ticket, gross, unit, on } = read;
  const scales = await scalesOfBoth(tx, found, row.scale === null ? [] : [row.scale]);
  const problems = unknownScale(0, { column: 'scale', id: row.scale, scales });
  if (problems.length > 0) throw badInput(problems);
  const scale = scales.get(row.scale ?? '');
  const doubts = scale ? doubtWeight({ ticket, what: 'gross', weight: gross, unit, on }, scale) : [];
  if (row.truck === null) return doubts;
  const { truck } = row;
  const last = await readTruckWeighings(tx, found.row.id, { last: LAST_LOADS, trucks: [truck] });
  const usual = usualTruck(last.map(weightsOf));
  const empty = usual && tellEmptyGross({ ticket, truck, unit, gross: toPounds(gross, unit) }, usual);
  return empty === undefined ? doubts : [...doubts, empty];
}
