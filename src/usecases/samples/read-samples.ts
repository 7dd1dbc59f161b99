/**
 * The samples of an agreement: which loads have none, which have no result, where each sealed part is and was, and
 * which parts will be thrown away before their figures can no longer be questioned.
 */
import { retestRulesOf } from '../../domain/agreement/retest-rules.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { dateOfDayNumber, dayNumber, type LocalDate } from '../../domain/dates/local-date.ts';
import { SAMPLING_CAUTIONS, type SamplingCaution } from '../../domain/samples/sampling-cautions.ts';
import type { SamplingPlan } from '../../domain/samples/sampling-plan.ts';
import {
  type HandoverRow,
  type PartRow,
  readHandovers,
  readParts,
  readSampleStandings,
  readTakings,
  readUnsampledLoads,
  type SampleStanding,
  type TakingRow,
} from '../../store/rows/sample-rows.ts';
import { findAgreement, termsOn } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { keptPart } from './kept-parts.ts';

export interface PartView extends Omit<PartRow, 'sampleId' | 'sample'> {
  /** Where it is and until when it is kept, by its last hand-over. */
  readonly holder: string;
  readonly isSealIntact: boolean;
  readonly handovers: readonly Omit<HandoverRow, 'partId'>[];
  /** The last day on which the figures can be questioned, where the part is kept for less; null where it is kept long enough. */
  readonly goneBefore: LocalDate | null;
}

export interface SampleView extends SampleStanding {
  readonly taking: TakingRow | undefined;
  readonly parts: readonly PartView[];
}

export interface SamplesView {
  readonly plan: SamplingPlan;
  /** First recorded first. */
  readonly samples: readonly SampleView[];
  /** Loads that no sample stands for, first delivered first. */
  readonly unsampled: readonly {
    readonly id: string;
    readonly ticket: string;
    readonly deliveredOn: string;
  }[];
  /** Samples without a result, by name. */
  readonly awaited: readonly string[];
  /** Seals of parts that are kept for too short a time. */
  readonly goneTooSoon: readonly string[];
  readonly cautions: readonly SamplingCaution[];
}

/** Refuses `not-allowed`, `not-found`. */
export async function readSamples(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<SamplesView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    const { agreement } = found;
    const { dateAt } = zoneCalendar(agreement.timeZone);
    const standings = await readSampleStandings(tx, agreementId);
    const takings = new Map((await readTakings(tx, agreementId)).map((row) => [row.sample, row]));
    const parts = groupRows(await readParts(tx, agreementId), ({ sample }) => sample);
    const handovers = groupRows(await readHandovers(tx, agreementId), ({ partId }) => partId);
    const askWithinDays = retestRulesOf(agreement)?.askWithinDays;
    // Without a result the time to ask has not begun: it ends after today at the earliest.
    const lastToAsk = ({ resultAt }: SampleStanding): LocalDate | undefined =>
      askWithinDays === undefined
        ? undefined
        : later(dateAt(resultAt === null ? context.now() : Date.parse(resultAt)), Number(askWithinDays));
    const samples = standings.map((standing): SampleView => {
      const { sample } = standing;
      const last = lastToAsk(standing);
      return {
        ...standing,
        taking: takings.get(sample),
        parts: (parts.get(sample) ?? []).map((part) =>
          partView(part, { handovers: handovers.get(part.id) ?? [], last }),
        ),
      };
    });
    const perDay = (deliveredOn: string) =>
      termsOn(found, deliveredOn).agreement.sampling?.plan === 'per-day';
    const known = new Set(standings.map(({ sample }) => sample));
    return {
      plan: agreement.sampling?.plan ?? 'per-load',
      samples,
      unsampled: (await readUnsampledLoads(tx, agreementId)).filter(
        ({ deliveredOn }) => !(perDay(deliveredOn) && known.has(deliveredOn)),
      ),
      awaited: standings.filter(({ resultAt }) => resultAt === null).map(({ sample }) => sample),
      goneTooSoon: samples.flatMap((view) =>
        view.parts.filter(({ goneBefore }) => goneBefore !== null).map(({ seal }) => seal),
      ),
      cautions: SAMPLING_CAUTIONS,
    };
  });
}

function partView(
  { sampleId: _, sample: _s, ...part }: PartRow,
  { handovers, last }: { readonly handovers: readonly HandoverRow[]; readonly last: LocalDate | undefined },
): PartView {
  const now = handovers.at(-1);
  const { keptUntil, isSealIntact } = keptPart(part, handovers);
  return {
    ...part,
    keptWhere: now?.keptWhere ?? part.keptWhere,
    keptUntil,
    holder: now?.toWhom ?? part.part,
    isSealIntact,
    handovers: handovers.map(({ partId: _p, ...handover }) => handover),
    goneBefore: last !== undefined && keptUntil !== null && keptUntil < last ? last : null,
  };
}

/** 7 days after 2026-09-20 is 2026-09-27. */
function later(date: LocalDate, days: number): LocalDate {
  return dateOfDayNumber(dayNumber(date) + days);
}
