/**
 * The figures of a question as they were reported, with their laboratories, seals and scales.
 */
import { printDecimal } from '../../domain/numbers/printing.ts';
import type { Side } from '../../domain/retests/costs.ts';
import { figureStanding } from '../../domain/retests/course.ts';
import type {
  RecordedFigure,
  RecordedScale,
  RecordedWeighing,
  RetestRecord,
} from '../../domain/retests/retest-record.ts';
import { countsUnansweredFrom } from '../../domain/retests/time-limits.ts';
import { ruleOnWeight, tolerancesOf, type WeighedTwice } from '../../domain/retests/weights.ts';
import { type CourseNames, testerName } from '../../domain/words/retest-course-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readParts } from '../../store/rows/sample-rows.ts';
import type { ScaleVersionRow } from '../../store/rows/scale-rows.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import type { ReportedFigure } from './retest-case.ts';
import type { RetestFrame } from './retest-frame.ts';

interface ToRecord {
  readonly frame: RetestFrame;
  readonly names: CourseNames;
  readonly scales: readonly ScaleVersionRow[];
}

/** Oldest first. */
export async function recordedFigures(
  tx: Transaction,
  { frame, names, scales }: ToRecord,
): Promise<readonly RecordedFigure[]> {
  const parts = await readParts(tx, frame.found.row.id);
  const { asked, found, today } = frame;
  // After its ending no time passes for a figure that nobody answered.
  const asOf = asked.ending ? moneyOfAgreement(found).dayOf(asked.ending.recordedAt) : today;
  const sealOf = (id: string | null) => parts.find((part) => part.id === id)?.seal ?? null;
  const all = [...asked.figures, ...asked.takenBack].sort((a, b) =>
    a.row.recordedAt < b.row.recordedAt ? -1 : 1,
  );
  return all.map((figure): RecordedFigure => {
    const { fact, id } = figure.row;
    const isUnanswered = figure.answer === undefined;
    return {
      id,
      tester: figure.from,
      testerName: testerName(figure.from, names),
      testedBy: fact.testedBy,
      method: fact.method,
      value: fact.value,
      testedOn: fact.testedOn,
      seal: sealOf(fact.part),
      weighing: secondWeighing(figure, scales),
      charge: fact.charge,
      paidBy: fact.paidBy as Side,
      report: fact.report,
      by: partySide(frame, fact.party),
      enteredOn: figure.enteredOn,
      standing: asked.takenBack.includes(figure) ? 'taken-back' : figureStanding(figure, asOf),
      answeredOn: figure.answer?.on ?? countsUnansweredFrom(figure.enteredOn),
      isUnanswered,
      contested: figure.said?.fact.reason ?? null,
    };
  });
}

function secondWeighing(
  { row: { fact } }: ReportedFigure,
  scales: readonly ScaleVersionRow[],
): RecordedWeighing | undefined {
  const { weighing } = fact;
  if (!weighing) return undefined;
  const version = scales.find(
    (scale) => scale.scaleId === weighing.scale && String(scale.version) === weighing.scaleVersion,
  );
  const scale = version && recordedScale(version);
  const { gross, tare, unit } = weighing;
  return { gross, tare, unit, grossScale: scale, tareScale: scale };
}

/** How far a ticket and a second scale lie apart; undefined without a second weighing. */
export function weightsApart({ asked }: RetestFrame): RetestRecord['weights'] {
  const { method } = asked.rule;
  const second = asked.figures.findLast(({ answer }) => answer?.word !== 'contest')?.weighed;
  if (method.method !== 'second-scale' || !asked.weighed || !second) return undefined;
  const of = { first: asked.weighed, second };
  const { apart, allowed } = ruleOnWeight(method, of);
  const tolerances = method.toleranceDivisions === undefined ? printedTolerances(of) : undefined;
  return { apart: printDecimal(apart), allowed: printDecimal(allowed), tolerances };
}

function printedTolerances(of: { readonly first: WeighedTwice; readonly second: WeighedTwice }) {
  const first = tolerancesOf(of.first, of.second);
  const second = tolerancesOf(of.second, of.second);
  const print = (weighing: 'gross' | 'tare') => ({
    first: printDecimal(first[weighing]),
    second: printDecimal(second[weighing]),
  });
  return { gross: print('gross'), tare: print('tare') };
}

/** A scale as one of its versions describes it. */
export function recordedScale(scale: ScaleVersionRow): RecordedScale {
  const { name, accuracyClass, division, unit, isLegalForTrade, certificate } = scale;
  return { name, accuracyClass, division, unit, isLegalForTrade, certificate };
}

/** Which side a party is. */
export function partySide({ found }: Pick<RetestFrame, 'found'>, partyId: string): Side {
  return partyId === found.row.sellerId ? 'seller' : 'buyer';
}
