/**
 * What can be questioned under an agreement: each sample's figure of one measure, or each load's weight, with the rule that
 * would decide it, until when it may be asked, what is left to test, and what stands in the way. The agreement must be
 * locked where something is asked from it.
 */
import { isConstituent, MEASURE_UNITS, type Tested } from '../../domain/agreement/measures.ts';
import { type Questioned, type RetestRules, retestRulesOf } from '../../domain/agreement/retest-rules.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { decimal, MAX_DECIMAL_LENGTH, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { type AskedRule, ruleFor } from '../../domain/retests/asked-rule.ts';
import { decimalsWritten, type RetestFigure } from '../../domain/retests/figures.ts';
import { type NeededPart, neededParts } from '../../domain/retests/kept-parts.ts';
import { lastDayToAsk } from '../../domain/retests/time-limits.ts';
import type { WeighedTwice } from '../../domain/retests/weights.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readCorrections } from '../../store/rows/correction-rows.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { type ResultRecord, readResultRecords } from '../../store/rows/result-rows.ts';
import { readSampleLoads as readSampleLoadRows } from '../../store/rows/sample-load-rows.ts';
import { readHandovers, readParts } from '../../store/rows/sample-rows.ts';
import { readScaleVersions } from '../../store/rows/scale-rows.ts';
import { type FoundAgreement, termsOn } from '../agreements/find-agreement.ts';
import { type Context, stamp } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import type { RefusalCode } from '../refusal.ts';
import { keptParts } from '../samples/kept-parts.ts';
import { weighedBy } from './retest-case.ts';
import { readCases } from './retest-frame.ts';

export interface Obstacle {
  readonly code: Extract<RefusalCode, 'not-ready' | 'too-late' | 'retest-open' | 'correction-open'>;
  readonly message: string;
}

export interface Questionable {
  /** Of the sample, or of the load for a weight. */
  readonly id: string;
  /** "S1", or the ticket. */
  readonly name: string;
  /** As it was reported; of a weight the net. */
  readonly first: string;
  /** "% of dry matter", "lb". */
  readonly unit: string;
  readonly isPercent: boolean;
  /** The version of the result or ticket. */
  readonly version: number;
  readonly laboratory: string | null;
  readonly reportedOn: LocalDate;
  readonly lastDay: LocalDate;
  readonly rule: AskedRule;
  readonly parts: readonly NeededPart[];
  /** The ticket's weighings, of a weight. */
  readonly weighed: WeighedTwice | undefined;
  /** Loads that it is about, first delivered first. */
  readonly loads: readonly { readonly id: string; readonly ticket: string }[];
  /** The question that is open about it, if one. */
  readonly openId: string | undefined;
  /** Why it cannot be asked now. */
  readonly obstacle: Obstacle | undefined;
}

/** In the order in which they were recorded; none where the agreement has no rule for it. */
export async function readQuestionable(
  tx: Transaction,
  context: Context,
  { found, about }: { readonly found: FoundAgreement; readonly about: Questioned },
): Promise<readonly Questionable[]> {
  const today = moneyOfAgreement(found).dayOf(stamp(context));
  const ground: Ground = {
    context,
    found,
    about,
    today,
    cases: await readCases(tx, found),
    corrections: (await readCorrections(tx, found.row.id)).filter(({ answer }) => answer === null),
  };
  return about === 'weight'
    ? await questionableWeights(tx, ground)
    : await questionableFigures(tx, ground, about);
}

interface Ground {
  readonly context: Context;
  readonly found: FoundAgreement;
  readonly about: Questioned;
  readonly today: LocalDate;
  readonly cases: Awaited<ReturnType<typeof readCases>>;
  readonly corrections: Awaited<ReturnType<typeof readCorrections>>;
}

/** The rules that a load delivered on a day is questioned by. */
function rulesOn(found: FoundAgreement, deliveredOn: string, about: Questioned) {
  const { agreement } = termsOn(found, deliveredOn);
  const rules = retestRulesOf(agreement);
  const rule = rules && ruleFor(rules, about, agreement.rounding ?? 'half-up');
  return rules && rule ? { rules, rule } : undefined;
}

async function questionableFigures(
  tx: Transaction,
  ground: Ground,
  measure: Tested,
): Promise<readonly Questionable[]> {
  const { found, today } = ground;
  const { row } = found;
  const { dayOf } = moneyOfAgreement(found);
  const versions = groupRows(await readResultRecords(tx, row.id), ({ sample }) => sample);
  const loads = await loadsBySample(tx, found);
  const parts = groupRows(await readParts(tx, row.id), ({ sample }) => sample);
  const handovers = await readHandovers(tx, row.id);
  return [...versions].flatMap(([sample, records]): Questionable[] => {
    const newest = records.at(-1);
    const first = newest?.figures[measure];
    const of = loads.get(sample) ?? [];
    const agreed = rulesOn(found, of[0]?.deliveredOn ?? dayOf(newest?.recordedAt ?? ''), ground.about);
    if (!newest || !first || !agreed) return [];
    const reportedOn = dayOf(firstReport(records, measure).recordedAt);
    const needed = neededParts(agreed.rule.method, {
      parts: keptParts(parts.get(sample) ?? [], handovers),
      first: {
        from: 'laboratory',
        value: decimal(first),
        decimals: decimalsWritten(first),
      } satisfies RetestFigure,
      today,
    });
    const asked = { id: newest.sampleId, reportedOn, rules: agreed.rules, ground };
    return [
      {
        id: newest.sampleId,
        name: sample,
        first,
        unit: figureUnit(measure, newest.basis),
        isPercent: isPercent(measure),
        version: newest.version,
        laboratory: newest.laboratory,
        reportedOn,
        lastDay: lastDayToAsk(reportedOn, agreed.rules.askWithinDays),
        rule: agreed.rule,
        parts: needed,
        weighed: undefined,
        loads: of.map(({ loadId, ticket }) => ({ id: loadId, ticket })),
        openId: openCase(asked)?.id,
        obstacle:
          standing(asked) ??
          correctionOpen(
            ground,
            records.map(({ id }) => id),
          ) ??
          nothingLeft(needed),
      },
    ];
  });
}

/** The oldest of the newest versions that report the same figure: what it stands on was reported then. */
function firstReport(records: readonly ResultRecord[], measure: Tested): ResultRecord {
  const said = (record: ResultRecord) =>
    JSON.stringify([record.basis, record.figures[measure], record.figures['dry-matter']]);
  const newest = records.at(-1);
  if (!newest) throw new Error('A sample without a result has no report');
  const other = records.findLastIndex((record) => said(record) !== said(newest));
  return records[other + 1] ?? newest;
}

async function questionableWeights(tx: Transaction, ground: Ground): Promise<readonly Questionable[]> {
  const { found } = ground;
  const scales = await readScaleVersions(tx);
  const rows = await readSampleLoadRows(tx, found.row.id);
  const loads = await readLoads(
    tx,
    found.row.id,
    rows.map(({ loadId }) => loadId),
  );
  return loads.flatMap((load): Questionable[] => {
    const reportedOn = load.deliveredOn as LocalDate;
    const agreed = rulesOn(found, reportedOn, 'weight');
    if (load.isVoid || !agreed) return [];
    const net = subtract(decimal(load.gross), decimal(load.tare));
    const asked = { id: load.id, reportedOn, rules: agreed.rules, ground };
    return [
      {
        id: load.id,
        name: load.ticket,
        first: printDecimal(net, MAX_DECIMAL_LENGTH),
        unit: load.unit,
        isPercent: false,
        version: load.version,
        laboratory: null,
        reportedOn,
        lastDay: lastDayToAsk(reportedOn, agreed.rules.askWithinDays),
        rule: agreed.rule,
        parts: [],
        weighed: weighedBy(load, { scales, at: stamp(ground.context) }),
        loads: [{ id: load.id, ticket: load.ticket }],
        openId: openCase(asked)?.id,
        obstacle: standing(asked) ?? correctionOpen(ground, [load.id]),
      },
    ];
  });
}

interface ToStand {
  readonly id: string;
  readonly reportedOn: LocalDate;
  readonly rules: RetestRules;
  readonly ground: Ground;
}

function casesAbout({ id, ground }: Pick<ToStand, 'id' | 'ground'>) {
  return ground.cases.filter(
    ({ about, row }) => about === ground.about && (row.fact.sample ?? row.fact.load) === id,
  );
}

function openCase(asked: Pick<ToStand, 'id' | 'ground'>) {
  return casesAbout(asked).find(({ ending }) => !ending);
}

function standing(asked: ToStand): Obstacle | undefined {
  if (openCase(asked)) {
    return { code: 'retest-open', message: 'a question about this figure is open already.' };
  }
  const last = casesAbout(asked).at(-1);
  if (last?.ending && (last.ending.fact.ending !== 'withdrawn' || last.figures.length > 0)) {
    // Whoever could withdraw and ask again would test until a figure suits.
    return {
      code: 'not-ready',
      message: 'it was questioned before, and what came of it stands. A correction takes both sides.',
    };
  }
  const { reportedOn, rules, ground } = asked;
  const lastDay = lastDayToAsk(reportedOn, rules.askWithinDays);
  if (ground.today <= lastDay) return undefined;
  return {
    code: 'too-late',
    message: `it could be questioned until ${lastDay}. ${STILL_POSSIBLE}`,
  };
}

const STILL_POSSIBLE = 'The two of you can still agree on a correction: propose one on the load’s page.';

function correctionOpen({ corrections }: Ground, subjectIds: readonly string[]): Obstacle | undefined {
  if (!corrections.some(({ subjectId }) => subjectIds.includes(subjectId))) return undefined;
  return {
    code: 'correction-open',
    message: 'a correction of it is proposed. Confirm, refuse or withdraw that one first.',
  };
}

/** Without the parts that the method begins with nothing can be tested. */
function nothingLeft(needed: readonly NeededPart[]): Obstacle | undefined {
  const gone = needed.filter(({ isFirst, is }) => isFirst && is !== 'kept');
  if (gone.length === 0) return undefined;
  const told = gone.map(({ part, is, seal, keptUntil }) => {
    const whose = `the ${part}’s part`;
    if (is === 'missing') return `no ${part}’s part of the sample is recorded as sealed`;
    if (is === 'broken') return `the seal ${seal ?? ''} of ${whose} is broken`;
    return `${whose} (seal ${seal ?? ''}) was kept until ${keptUntil ?? ''}`;
  });
  return {
    code: 'not-ready',
    message: `nothing is left to test: ${told.join('; ')}. ${STILL_POSSIBLE} The laboratory may also look through its own papers for a slip.`,
  };
}

async function loadsBySample(tx: Transaction, found: FoundAgreement) {
  const rows = await readSampleLoadRows(tx, found.row.id);
  return groupRows(
    rows.filter(({ sample, deliveredOn }) => sample !== null || isByDay(found, deliveredOn)),
    ({ sample, deliveredOn }) => sample ?? deliveredOn,
  );
}

function isByDay(found: FoundAgreement, deliveredOn: string): boolean {
  return termsOn(found, deliveredOn).agreement.sampling?.plan === 'per-day';
}

/** The unit in which a figure was reported: constituents on the basis of their report. */
export function figureUnit(measure: Tested, basis: string): string {
  return isConstituent(measure) && basis === 'as-fed' ? '% as-fed' : MEASURE_UNITS[measure];
}

function isPercent(measure: Tested): boolean {
  return MEASURE_UNITS[measure].startsWith('%');
}
