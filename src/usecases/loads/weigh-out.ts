/**
 * A truck that was weighed full is weighed empty: its ticket becomes a load, with both times and both scales. Also the
 * trucks that are still to be weighed empty.
 */
import { whenText, zoneCalendar } from '../../domain/dates/instant.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLoadsByTicket } from '../../store/rows/load-rows.ts';
import { readWeighings, type WeighingRow } from '../../store/rows/weighing-rows.ts';
import { findAgreement, findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { badInput, type InputRow } from '../read-input-rows.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { type RecordedLoad, writeTickets } from './record-loads.ts';
import type { WeighingToRecord } from './weigh-in.ts';

export const WEIGHING_OUT_COLUMNS = {
  required: ['ticket', 'tare', 'weighed_at'],
  optional: ['scale', 'miles', 'km', 'weigher', 'sample', 'moisture_reading', 'photo'],
} as const;

/**
 * Records the load of an open weighing, by its ticket; the same tare again finds the load that it became. Refuses
 * `not-found` where no truck with this ticket is still to be weighed empty, and as `recordLoads`.
 */
export async function weighOut(
  context: Context,
  { agreementId, weighing, key, confirmed }: WeighingToRecord,
): Promise<RecordedLoad> {
  permit(context, 'record-load');
  const asked = { verb: 'weigh-out', subject: agreementId, key, input: weighing };
  return await doOnce(context, asked, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    checkColumns(weighing);
    await lockAgreement(tx, agreementId);
    const ticket = (weighing['ticket'] ?? '').trim();
    const full = (await readWeighings(tx, agreementId)).find((row) => row.ticket === ticket);
    const isLoad = (await readLoadsByTicket(tx, agreementId, [ticket])).has(ticket);
    // A load of this ticket is compared with the ticket as it would be recorded, and refused where it differs.
    if (!full || (!full.isOpen && !isLoad)) {
      throw new Refusal(
        'not-found',
        `No truck with ticket ${ticket} is still to be weighed empty. Record the whole ticket instead.`,
      );
    }
    const loads = [ticketOf(full, weighing)];
    try {
      const [load] = await writeTickets(tx, context, { found, loads, confirmed });
      if (!load) throw new Error('A ticket that was written is not there');
      return load;
    } catch (error) {
      throw error instanceof Refusal ? inOwnColumns(error) : error;
    }
  });
}

/** The whole ticket: what was known when the truck came, and what its tare adds. */
function ticketOf(full: WeighingRow, out: InputRow): InputRow {
  const { ticket, gross, unit, truck, plate, scale, sample, weigher, moistureReading } = full;
  const texts = {
    ...{ ticket, gross, unit, truck, plate },
    delivered_at: whenText(full.weighedAt),
    gross_scale: scale,
    tare: out['tare'],
    tare_at: out['weighed_at'],
    tare_scale: out['scale'],
    sample: out['sample'] || sample,
    moisture_reading: out['moisture_reading'] || moistureReading,
    weigher: bothWeighers(weigher, out['weigher']?.trim() || null),
    ...{ miles: out['miles'], km: out['km'], photo: out['photo'] },
  };
  return Object.fromEntries(
    Object.entries(texts).flatMap(([column, text]) => (text ? [[column, text]] : [])),
  );
}

function bothWeighers(full: string | null, empty: string | null): string | null {
  return full !== null && empty !== null && full !== empty
    ? `${full} (gross), ${empty} (tare)`
    : (full ?? empty);
}

function checkColumns(weighing: InputRow): void {
  const known: readonly string[] = [...WEIGHING_OUT_COLUMNS.required, ...WEIGHING_OUT_COLUMNS.optional];
  const problems: Problem[] = Object.keys(weighing)
    .filter((column) => !known.includes(column))
    .map((column) => ({ row: 0, column, message: `is not known; known columns are ${known.join(', ')}` }));
  for (const column of WEIGHING_OUT_COLUMNS.required) {
    if ((weighing[column] ?? '').trim() === '')
      problems.push({ row: 0, column, message: 'must not be empty' });
  }
  if (problems.length > 0) throw badInput(problems);
}

const OWN_COLUMNS: Readonly<Record<string, string>> = { tare_at: 'weighed_at', tare_scale: 'scale' };

/** A refusal with the columns that whoever weighs out has given. */
function inOwnColumns(refusal: Refusal): Refusal {
  if (refusal.code !== 'bad-input') return refusal;
  return badInput(
    refusal.problems.map((problem) => {
      const own = OWN_COLUMNS[problem.column ?? ''];
      return own === undefined ? problem : { ...problem, column: own };
    }),
  );
}

export interface OpenWeighing extends Omit<WeighingRow, 'weighedAt' | 'isOpen'> {
  /** ISO 8601, UTC. */
  readonly weighedAt: string;
  /** On the wall clock of the agreement: "2026-09-14 21:40". */
  readonly weighedAtLocal: string;
}

/** The trucks of an agreement that are still to be weighed empty, the earliest first. Refuses `not-allowed`, `not-found`. */
export async function readOpenWeighings(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<readonly OpenWeighing[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { agreement } = await findAgreement(tx, agreementId);
    const calendar = zoneCalendar(agreement.timeZone);
    return (await readWeighings(tx, agreementId)).flatMap(({ isOpen, weighedAt, gross, ...row }) =>
      isOpen
        ? [
            {
              ...row,
              gross: printDecimal(decimal(gross)),
              weighedAt: whenText(weighedAt),
              weighedAtLocal: calendar.wallClockAt(weighedAt),
            },
          ]
        : [],
    );
  });
}
