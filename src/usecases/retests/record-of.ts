/**
 * Draws up all of one question from what was recorded.
 */
import { MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import { daysBetween } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { DecidedBecause } from '../../domain/retests/course.ts';
import type {
  RecordedEnding,
  RecordedPart,
  RecordedProposal,
  RecordedWeighing,
  RetestRecord,
} from '../../domain/retests/retest-record.ts';
import {
  becauseInWords,
  type CourseNames,
  callsInWords,
  questionedName,
} from '../../domain/words/retest-course-words.ts';
import { askedRuleInWords } from '../../domain/words/retest-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readTickets, type TicketRow, ticketKey } from '../../store/rows/load-rows.ts';
import { type ResultRow, readResultVersions } from '../../store/rows/result-rows.ts';
import { readHandovers, readParts, readTakings } from '../../store/rows/sample-rows.ts';
import { readScaleVersions, type ScaleVersionRow } from '../../store/rows/scale-rows.ts';
import { type AgreedTerms, termsOn } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { frameOf, type MoneyFrame } from '../money/money-frame.ts';
import { liveHolds } from '../money/money-rows.ts';
import { namedDocument } from '../money/write-documents.ts';
import { decidedText } from './end-retest.ts';
import { tryOutFigure } from './put-figure.ts';
import { figureUnit } from './questionable.ts';
import { questionedLoads } from './questioned-loads.ts';
import { partySide, recordedFigures, recordedScale, weightsApart } from './record-figures.ts';
import { courseOn } from './retest-case.ts';
import type { RetestFrame } from './retest-frame.ts';

/** The agreement must be locked. */
export async function recordOf(tx: Transaction, context: Context, frame: RetestFrame): Promise<RetestRecord> {
  const { asked, found } = frame;
  const { row, rule, about } = asked;
  const { fact } = row;
  const money = await frameOf(tx, context, found);
  const result = row.sample === null ? undefined : await questionedResult(tx, frame);
  const scales = about === 'weight' ? await readScaleVersions(tx) : [];
  const loads = await questionedLoads(tx, frame);
  const terms = questionedTerms(frame, loads);
  const names: CourseNames = {
    seller: found.row.sellerName,
    buyer: found.row.buyerName,
    laboratory: result?.laboratory ?? null,
    referee: rule.referee,
  };
  return {
    id: asked.id,
    agreementId: found.row.id,
    agreement: found.row.number,
    agreementVersion: String(terms.row.version),
    agreementFingerprint: terms.row.fingerprint,
    seller: names.seller,
    buyer: names.buyer,
    currency: found.agreement.currency,
    timeZone: found.agreement.timeZone,
    about,
    name: questionedName(about),
    unit: await unitOf(tx, frame, result),
    sample: row.sample,
    ticket: row.ticket,
    asker: asked.asker,
    askedOn: asked.askedOn,
    reason: fact.reason,
    first: fact.first,
    firstReport: result && {
      laboratory: result.laboratory,
      method: result.method,
      reportedOn: result.reportedOn,
    },
    firstWeighing: about === 'weight' ? await firstWeighing(tx, frame, scales) : undefined,
    claimed: fact.claimed,
    loads,
    ...(await seals(tx, frame)),
    rule: askedRuleInWords(rule),
    referee: rule.referee,
    testDays: rule.testDays,
    figures: await recordedFigures(tx, { frame, names, scales }),
    weights: weightsApart(frame),
    proposals: recordedProposals(frame, money),
    ...(await standing(tx, context, { frame, names })),
    ending: recordedEnding(frame, money),
    held: money.print(
      liveHolds(money.rows)
        .filter((hold) => hold.fact.retest === asked.id)
        .reduce((sum, hold) => sum + minorUnits(hold.fact.amount, money.money), 0n),
    ),
    documents: documentsOf(frame, money),
  };
}

/** The version of the agreement that its rule is from. */
export function questionedTerms(
  { asked, found }: RetestFrame,
  [first]: readonly { readonly deliveredOn: string }[],
): AgreedTerms {
  return termsOn(found, first?.deliveredOn ?? asked.askedOn);
}

async function questionedResult(
  tx: Transaction,
  { asked, found }: RetestFrame,
): Promise<ResultRow | undefined> {
  const { sample, fact } = asked.row;
  const versions = await readResultVersions(tx, found.row.id, sample === null ? [] : [sample]);
  return versions.find(({ version }) => String(version) === fact.firstVersion);
}

async function ticketOf(tx: Transaction, { asked, found }: RetestFrame): Promise<TicketRow | undefined> {
  const { load, firstVersion } = asked.row.fact;
  if (load === null) return undefined;
  return (await readTickets(tx, found.row.id, [load])).get(ticketKey(load, Number(firstVersion)));
}

async function unitOf(tx: Transaction, frame: RetestFrame, result: ResultRow | undefined): Promise<string> {
  const { about } = frame.asked;
  if (about === 'weight') return (await ticketOf(tx, frame))?.unit ?? '';
  return result ? figureUnit(about, result.basis) : MEASURE_UNITS[about];
}

async function firstWeighing(
  tx: Transaction,
  frame: RetestFrame,
  scales: readonly ScaleVersionRow[],
): Promise<RecordedWeighing | undefined> {
  const ticket = await ticketOf(tx, frame);
  const { recordedAt } = frame.asked.row;
  const scaleOf = (id: string | null) => {
    const version = scales.findLast((scale) => scale.scaleId === id && scale.recordedAt <= recordedAt);
    return version && recordedScale(version);
  };
  return (
    ticket && {
      gross: ticket.gross,
      tare: ticket.tare,
      unit: ticket.unit,
      grossScale: scaleOf(ticket.grossScale),
      tareScale: scaleOf(ticket.tareScale),
    }
  );
}

async function seals(
  tx: Transaction,
  { asked, found }: RetestFrame,
): Promise<Pick<RetestRecord, 'taking' | 'parts'>> {
  const { sample } = asked.row;
  if (sample === null) return { taking: undefined, parts: [] };
  const taking = (await readTakings(tx, found.row.id)).find((row) => row.sample === sample);
  const handovers = await readHandovers(tx, found.row.id);
  const parts = (await readParts(tx, found.row.id)).filter((part) => part.sample === sample);
  return {
    taking: taking && { takenAt: taking.takenAt, takenBy: taking.takenBy, how: taking.how },
    parts: parts.map(
      ({ id, part, seal, isAirtight, keptWhere, keptUntil }): RecordedPart => ({
        ...{ part, seal, isAirtight, keptWhere, keptUntil },
        handovers: handovers.filter(({ partId }) => partId === id),
      }),
    ),
  };
}

function recordedProposals(
  { asked, ...frame }: RetestFrame,
  { dayOf }: MoneyFrame,
): readonly RecordedProposal[] {
  return asked.proposals.map(({ row, answer }): RecordedProposal => {
    const { ending, value, bearer, reason, party } = row.fact;
    return {
      id: row.id,
      by: partySide(frame, party),
      on: dayOf(row.recordedAt),
      ending: ending as RecordedProposal['ending'],
      value,
      bearer: bearer as RecordedProposal['bearer'],
      reason,
      answer: (answer?.fact.answer ?? null) as RecordedProposal['answer'],
      answeredOn: answer ? dayOf(answer.recordedAt) : null,
      answerReason: answer?.fact.reason ?? null,
    };
  });
}

/** An open question of a sealed season. */
export const CARRIED_OVER =
  'Carried over when the season was sealed: the two of you settle it in your next agreement.';

async function standing(
  tx: Transaction,
  context: Context,
  { frame, names }: { readonly frame: RetestFrame; readonly names: CourseNames },
): Promise<Pick<RetestRecord, 'calls' | 'obstacle'>> {
  const { asked, found, today } = frame;
  if (asked.ending) return { calls: undefined, obstacle: undefined };
  if (found.row.isSealed) return { calls: undefined, obstacle: CARRIED_OVER };
  const course = courseOn(asked, today);
  if (course.kind === 'outcome') {
    const value = decidedText(asked, course);
    const tried = await tryOutFigure(tx, context, {
      found,
      question: asked.row,
      value,
      reason: 'tried out',
      look: () => true,
    });
    const why = 'obstacle' in tried ? tried.obstacle : 'it is carried out in a moment.';
    return { calls: undefined, obstacle: `By its rule ${value} counts: ${why}` };
  }
  const { tests, since, dueOn } = course;
  return {
    calls: {
      sentences: callsInWords(tests, names),
      testers: tests.map(({ by }) => by),
      since,
      dueOn,
      daysLeft: daysBetween(today, dueOn),
    },
    obstacle: undefined,
  };
}

function recordedEnding({ asked }: RetestFrame, { dayOf }: MoneyFrame): RecordedEnding | undefined {
  if (!asked.ending) return undefined;
  const { fact, recordedAt } = asked.ending;
  const because = fact.because as DecidedBecause | 'both-confirmed';
  return {
    ending: fact.ending as RecordedEnding['ending'],
    because,
    inWords: becauseInWords(because, asked.about === 'weight'),
    value: fact.value,
    on: dayOf(recordedAt),
    sellerBears: fact.sellerBears,
    buyerBears: fact.buyerBears,
    changed: fact.changed,
  };
}

/** The notes and the fee that followed. */
function documentsOf({ asked }: RetestFrame, { rows }: MoneyFrame): RetestRecord['documents'] {
  const ids = asked.ending ? (JSON.parse(asked.ending.fact.documents) as readonly string[]) : [];
  return rows.documents
    .filter(({ id }) => ids.includes(id))
    .map((row) => ({ ...namedDocument(row), id: row.id, payable: row.fact.payable }));
}
