/**
 * Reports a figure that was called for: a laboratory's, or a second scale's, with its report. It counts once the other side
 * confirms it, or has said nothing for some days.
 */
import { MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { parseMinorUnits } from '../../domain/money/minor-units.ts';
import { compare, decimal, MAX_DECIMAL_LENGTH, subtract } from '../../domain/numbers/exact.ts';
import { plainDecimal, printDecimal } from '../../domain/numbers/printing.ts';
import { isWholeDivisions } from '../../domain/scales/divisions.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import { RETEST_COLUMNS, readRetestRow, type TestedFigure } from '../../domain/tables/retest-row.ts';
import type { RetestFigureFact, SecondWeighing } from '../../journal/retest-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertRetestFigure } from '../../store/rows/retest-rows.ts';
import { readHandovers, readParts, readTakings } from '../../store/rows/sample-rows.ts';
import { readScaleVersions } from '../../store/rows/scale-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { fileFingerprint, type GivenFile, keepFile } from '../files/keep-file.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput, type InputRow, type ReadRow, readInputRows } from '../read-input-rows.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { keptPart } from '../samples/kept-parts.ts';
import { doubtFigure } from './doubt-figure.ts';
import { endIfOver } from './pass-time.ts';
import { questionedLoad, tryOutFigure } from './put-figure.ts';
import { courseOn } from './retest-case.ts';
import { type RetestFrame, refuseOver, retestFrame } from './retest-frame.ts';

export interface FigureToReport {
  readonly retestId: string;
  /**
   * With `RETEST_COLUMNS`: `value`, `tested_by` and `part` (the id of the sealed part) of a laboratory; `scale` (its id),
   * `gross` and `tare` of a second scale.
   */
  readonly figure: InputRow;
  /** The laboratory's report, or the second ticket: PDF or picture. */
  readonly report: GivenFile | undefined;
  /** Unusual figures were looked at, and are right. */
  readonly confirmed?: boolean;
  readonly key?: string;
}

/**
 * Returns the figure's id; null where the time was over that nobody had looked at yet, so that the question has ended.
 * Refuses `not-allowed`, `not-found`, `not-yours` for the other side's own laboratory, `bad-input`, `retest-over`, and
 * `not-ready` for a test that is not called for.
 */
export async function reportFigure(
  context: Context,
  { retestId, figure, report, confirmed, key }: FigureToReport,
): Promise<{ readonly figureId: string | null }> {
  permit(context, 'question');
  const input = { figure, report: report ? fileFingerprint(report) : null };
  return await doOnce(context, { verb: 'report-figure', subject: retestId, key, input }, async (tx) => {
    const frame = await retestFrame(tx, context, { table: 'retest', id: retestId });
    refuseOver(frame);
    if (await endIfOver(tx, context, frame)) return { figureId: null };
    const fact = await withReportMissing(report, () => readFigure(tx, context, { frame, figure }));
    if (!report) throw badInput([REPORT_MISSING]);
    refuseUnusual(doubtFigure(frame.asked, fact), confirmed);
    const whole: RetestFigureFact = { ...fact, report: await keepFile(tx, report, frame.recorded) };
    const id = context.newId();
    await insertRetestFigure(tx, { id, fact: whole }, frame.recorded);
    const entering = { kind: 'retest-figure' as const, fact: whole, subjectId: id, postings: [] };
    await enterFacts(tx, [entering], frame.recorded);
    await tellPartner(tx, context, { found: frame.found, kind: 'retest-figure-came' });
    return { figureId: id };
  });
}

const REPORT_MISSING: Problem = {
  column: 'report',
  message: 'is missing: attach what the laboratory or the scale gave you',
};

/** Reads, and where there is no report says so with all other faults. */
async function withReportMissing<Read>(
  report: GivenFile | undefined,
  read: () => Promise<Read>,
): Promise<Read> {
  try {
    return await read();
  } catch (error) {
    if (report || !(error instanceof Refusal) || error.code !== 'bad-input') throw error;
    throw badInput([...error.problems, REPORT_MISSING]);
  }
}

interface ToRead {
  readonly frame: RetestFrame;
  readonly figure: InputRow;
}

async function readFigure(
  tx: Transaction,
  context: Context,
  { frame, figure }: ToRead,
): Promise<Omit<RetestFigureFact, 'report'>> {
  const { asked, today, found } = frame;
  const { about } = asked;
  const from = await firstDayOf(tx, frame);
  const [read] = readInputRows([figure], {
    shape: RETEST_COLUMNS,
    read: (row) =>
      readRetestRow(row, {
        from,
        today,
        isPercent: about !== 'weight' && MEASURE_UNITS[about].startsWith('%'),
      }),
    key: ['tester'],
  });
  if (!read) throw new Error('A figure that was read is not there');
  refuseUncalled(frame, read.found);
  const { money } = moneyOfAgreement(found);
  const charge = parseMinorUnits(read.text('charge'), money);
  if (charge === undefined) {
    const message = `must be an amount of ${money.currency}, with at most ${money.decimals} decimals`;
    throw badInput([{ column: 'charge', message }]);
  }
  const tested =
    about === 'weight' ? await ofScale(tx, { frame, read }) : await ofLaboratory(tx, { frame, read });
  const fact = {
    retest: asked.id,
    tester: read.found.tester,
    testedOn: read.found.testedOn,
    ...tested,
    charge: printAmount(charge, money),
    paidBy: read.found.paidBy,
    party: context.caller.partyId,
  };
  await refuseImpossible(tx, context, { frame, fact });
  return fact;
}

/** Nothing is tested before it was taken, nor weighed before it came; undefined where nobody recorded when. */
async function firstDayOf(tx: Transaction, { asked, found }: RetestFrame): Promise<LocalDate | undefined> {
  if (asked.row.sample === null) return (await questionedLoad(tx, asked.row)).deliveredOn as LocalDate;
  const taking = (await readTakings(tx, found.row.id)).find(({ sample }) => sample === asked.row.sample);
  return taking && moneyOfAgreement(found).dayOf(taking.takenAt);
}

/** Refuses `not-yours`, `not-ready`. */
function refuseUncalled({ asked, today, side }: RetestFrame, { tester }: TestedFigure): void {
  if ((tester === 'seller' || tester === 'buyer') && tester !== side) {
    throw new Refusal('not-yours', 'The other side has its own part tested, and reports that itself.');
  }
  const course = courseOn(asked, today);
  if (course.kind === 'outcome') throw new Refusal('not-ready', 'Nothing is called for any more.');
  const wanted = course.tests.find(({ by }) => by === tester)?.results ?? 0;
  const waiting = course.unanswered.filter(({ from }) => from === tester).length;
  if (wanted > waiting) return;
  throw new Refusal(
    'not-ready',
    waiting > 0
      ? 'Such a figure is reported already and waits for an answer.'
      : 'By the rule of this question no such test is called for now.',
  );
}

type WhatWasTested = Pick<RetestFigureFact, 'value' | 'testedBy' | 'method' | 'part' | 'weighing'>;

interface Read {
  readonly frame: RetestFrame;
  readonly read: ReadRow<TestedFigure>;
}

/** Refuses `bad-input` for a part that is not the tester's, or whose seal is broken. */
async function ofLaboratory(
  tx: Transaction,
  { frame: { asked, found }, read }: Read,
): Promise<WhatWasTested> {
  const { sample } = asked.row;
  const partId = read.text('part');
  const parts = (await readParts(tx, found.row.id)).filter((part) => part.sample === sample);
  const part = parts.find(({ id, part }) => id === partId && part === read.found.tester);
  if (!part) {
    throw badInput([
      { column: 'part', message: `must be the ${read.found.tester}’s sealed part of sample ${sample}` },
    ]);
  }
  const handovers = (await readHandovers(tx, found.row.id)).filter(({ partId: id }) => id === part.id);
  const { isSealIntact, keptUntil } = keptPart(part, handovers);
  if (!isSealIntact) {
    throw badInput([
      { column: 'part', message: `has a broken seal, ${part.seal}; what it holds proves nothing` },
    ]);
  }
  if (keptUntil !== null && keptUntil < read.found.testedOn) {
    const message = `was kept until ${keptUntil}, before the test`;
    throw badInput([{ column: 'part', message }]);
  }
  return {
    value: plainDecimal(read.text('value')),
    testedBy: read.text('tested_by'),
    method: read.optional('method'),
    part: part.id,
    weighing: null,
  };
}

/** Refuses `bad-input` for a scale that is of neither party, is not legal for trade, is the ticket's own, or cannot show the weights. */
async function ofScale(tx: Transaction, { frame: { asked, found }, read }: Read): Promise<WhatWasTested> {
  const load = await questionedLoad(tx, asked.row);
  const scaleId = read.text('scale');
  const scale = isId(scaleId) ? (await readScaleVersions(tx, [scaleId])).at(-1) : undefined;
  const { weighed } = read.found;
  if (!scale || !weighed) throw badInput([{ column: 'scale', message: 'is not chosen yet' }]);
  const wrong = (column: string, message: string) => badInput([{ column, message }]);
  if (![found.row.sellerId, found.row.buyerId].includes(scale.partyId)) {
    throw wrong('scale', 'must be a scale of one of the two parties, so that both see what it is held to');
  }
  if (!scale.isLegalForTrade) throw wrong('scale', 'must be legal for trade; this one is not');
  if ([load.grossScale, load.tareScale].includes(scaleId)) {
    throw wrong('scale', 'must be another one than that on the ticket');
  }
  if (scale.unit !== load.unit) {
    throw wrong('scale', `must show ${load.unit}, as the ticket does; this one shows ${scale.unit}`);
  }
  if (compare(weighed.gross, decimal(scale.capacity)) > 0) {
    throw wrong('gross', `must be at most this scale’s capacity of ${scale.capacity} ${scale.unit}`);
  }
  const division = decimal(scale.division);
  for (const column of ['gross', 'tare'] as const) {
    if (!isWholeDivisions(weighed[column], division)) {
      throw wrong(
        column,
        `must be a whole number of this scale’s divisions of ${scale.division} ${scale.unit}`,
      );
    }
  }
  const weighing: SecondWeighing = {
    gross: plainDecimal(read.text('gross')),
    tare: plainDecimal(read.text('tare')),
    unit: scale.unit,
    scale: scaleId,
    scaleVersion: String(scale.version),
  };
  return {
    value: printDecimal(subtract(weighed.gross, weighed.tare), MAX_DECIMAL_LENGTH),
    testedBy: scale.name,
    method: null,
    part: null,
    weighing,
  };
}

/** Refuses `bad-input` for a figure that could stand in no result or ticket beside the others. */
async function refuseImpossible(
  tx: Transaction,
  context: Context,
  { frame, fact }: { readonly frame: RetestFrame; readonly fact: Omit<RetestFigureFact, 'report'> },
): Promise<void> {
  const { found, asked } = frame;
  if (fact.value === asked.row.fact.first) return;
  const tried = await tryOutFigure(tx, context, {
    found,
    question: asked.row,
    value: fact.value,
    weighing: fact.weighing,
    reason: 'tried out',
    look: () => true,
  });
  if ('seen' in tried) return;
  const column = asked.about === 'weight' ? 'gross' : 'value';
  throw badInput([{ column, message: `cannot stand beside the other figures: ${tried.obstacle}` }]);
}
