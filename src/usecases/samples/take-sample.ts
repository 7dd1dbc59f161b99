/**
 * Records that a sample was taken, and names it on the loads that it stands for: a load that named none gets a new
 * version of its ticket, until it is settled.
 */
import { whenText } from '../../domain/dates/instant.ts';
import { readTakingRow, TAKING_COLUMNS } from '../../domain/tables/sampling-rows.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { type LoadRow, readLoadsByTicket } from '../../store/rows/load-rows.ts';
import type { Recorded } from '../../store/rows/result-rows.ts';
import {
  insertTaking,
  readSampleStandings,
  readTakings,
  type TakingRow,
} from '../../store/rows/sample-rows.ts';
import { type FoundAgreement, findOwnAgreement, termsOn } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { writeCorrectedTicket } from '../loads/correct-load.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { samplesNamed } from '../results/samples-named.ts';
import { refuseSettled } from '../settlements/refuse-settled.ts';
import { takingFact } from './sample-fact.ts';

export interface SampleToTake {
  readonly agreementId: string;
  /** `sample`, `taken_at`, `taken_by` and `how`. */
  readonly taking: InputRow;
  /** The loads that it stands for, by ticket. */
  readonly tickets: readonly string[];
  readonly key?: string;
}

/**
 * Returns how many tickets name the sample newly. Refuses `not-allowed`, `bad-input` (also a sample that was taken
 * before, a load that names another, and several loads where each has a sample of its own), `not-found` for a ticket
 * that is not there, `already-settled`.
 */
export async function takeSample(
  context: Context,
  { agreementId, taking, tickets, key }: SampleToTake,
): Promise<{ readonly named: number }> {
  permit(context, 'take-sample');
  const input = { taking, tickets };
  return await doOnce(context, { verb: 'take-sample', subject: agreementId, key, input }, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const [read] = readInputRows([taking], { shape: TAKING_COLUMNS, read: readTakingRow, key: ['sample'] });
    if (!read) throw new Error('A sampling that was read is not there');
    const { sample, takenAt, takenBy, how } = read.found;
    await lockAgreement(tx, agreementId);
    const loads = await loadsNamed(tx, { found, sample, tickets });
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const ids = await samplesNamed(tx, context, { names: [sample], recorded });
    const row: TakingRow = {
      id: context.newId(),
      sampleId: ids.get(sample) ?? '',
      sample,
      takenAt: whenText(takenAt),
      takenBy,
      how,
    };
    await enterTaking(tx, row, recorded);
    for (const load of loads) await nameSample(tx, context, { load, sample });
    return { named: loads.length };
  });
}

/** The same once more is passed over. */
async function enterTaking(tx: Transaction, row: TakingRow, recorded: Recorded): Promise<void> {
  const before = (await readTakings(tx, recorded.agreementId)).find(({ sample }) => sample === row.sample);
  if (!before) {
    await insertTaking(tx, row, recorded);
    await enterFacts(
      tx,
      [{ kind: 'sample-taking', fact: takingFact(row), subjectId: row.id, postings: [] }],
      recorded,
    );
    return;
  }
  if (JSON.stringify(takingFact(before)) === JSON.stringify(takingFact(row))) return;
  const message = `was taken before, at ${before.takenAt} by ${before.takenBy}; give this one another name`;
  throw badInput([{ column: 'sample', message }]);
}

interface ToName {
  readonly found: FoundAgreement;
  readonly sample: string;
  readonly tickets: readonly string[];
}

/** The loads whose tickets do not name it yet. */
async function loadsNamed(tx: Transaction, { found, sample, tickets }: ToName): Promise<readonly LoadRow[]> {
  const agreementId = found.row.id;
  const wanted = [...new Set(tickets.map((ticket) => ticket.trim()))];
  const byTicket = await readLoadsByTicket(tx, agreementId, wanted);
  const loads = wanted.map((ticket) => {
    const load = byTicket.get(ticket);
    if (!load) throw new Refusal('not-found', `There is no load with ticket ${ticket}.`);
    return load;
  });
  const problems = loads.flatMap((load) => {
    if (load.isVoid) return [{ column: 'tickets', message: `name ${load.ticket}, which is void` }];
    if (load.sample === null || load.sample === sample) return [];
    const message = `name ${load.ticket}, which has sample ${load.sample} already; put its ticket right first`;
    return [{ column: 'tickets', message }];
  });
  const fresh = loads.filter((load) => load.sample === null);
  const standing = (await readSampleStandings(tx, agreementId)).find((row) => row.sample === sample);
  const together = (standing?.loads ?? 0) + fresh.length;
  const single = fresh.find(
    (load) => (termsOn(found, load.deliveredOn).agreement.sampling?.plan ?? 'per-load') === 'per-load',
  );
  if (single && together > 1) {
    const message = `give the sample ${together} loads; the agreement takes a sample of each load`;
    problems.push({ column: 'tickets', message });
  }
  if (problems.length > 0) throw badInput(problems);
  await refuseSettled(
    tx,
    agreementId,
    fresh.map(({ id, ticket }) => ({ loadId: id, ticket })),
  );
  return fresh;
}

async function nameSample(
  tx: Transaction,
  context: Context,
  { load, sample }: { readonly load: LoadRow; readonly sample: string },
): Promise<void> {
  const ticket = { ...load, sample };
  await writeCorrectedTicket(tx, context, {
    row: load,
    ticket: { ticket, load: deliveredLoad(ticket) },
    reason: 'Sample named',
  });
}
