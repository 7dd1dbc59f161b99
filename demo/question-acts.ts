/**
 * Does what a line of a story tells about samples, scales and questions, by one use case each, but for time: nobody does
 * that, and it is let pass as the program lets it.
 */
import { WrongUse } from '../src/cli/exit-status.ts';
import { SAMPLE_PARTS } from '../src/domain/agreement/retest-rules.ts';
import type { Context } from '../src/usecases/context.ts';
import { answerEnding, proposeEnding } from '../src/usecases/retests/agree-ending.ts';
import { answerFigure } from '../src/usecases/retests/answer-figure.ts';
import { askRetest } from '../src/usecases/retests/ask-retest.ts';
import { passTime } from '../src/usecases/retests/pass-time.ts';
import { readAsk } from '../src/usecases/retests/read-ask.ts';
import { reportFigure } from '../src/usecases/retests/report-figure.ts';
import { sealParts } from '../src/usecases/samples/seal-parts.ts';
import { takeSample } from '../src/usecases/samples/take-sample.ts';
import { recordScale } from '../src/usecases/scales/keep-scale.ts';
import { paperReport } from './paper-report.ts';
import { type QuestionAct, type Subject, subjectName } from './question-lines.ts';
import { type ActAt, known, type StoryMemory, sideNamed } from './story-memory.ts';

type Acting<Name extends QuestionAct['act']> = Extract<QuestionAct, { readonly act: Name }>;

/** Throws `WrongUse` where a line names what is not there, and whatever its use case refuses. */
export async function doQuestionAct(context: Context, act: QuestionAct, at: ActAt): Promise<void> {
  const { memory, key } = at;
  switch (act.act) {
    case 'record-scale': {
      const { name, place, capacity, division, testedOn } = act;
      // The scales of a story are vehicle scales that are sealed for trade.
      const marks = { unit: 'lb', accuracy_class: 'III L', legal_for_trade: 'yes', tested_on: testedOn };
      const scale = { name, place, capacity, division, ...marks };
      memory.ids.set(`scale ${name}`, (await recordScale(context, { scale, key })).scaleId);
      return;
    }
    case 'take-sample':
      await takeSampleTold(context, act, at);
      return;
    case 'seal-sample':
      await sealSample(context, act, at);
      return;
    case 'ask-retest':
      await askTold(context, act, at);
      return;
    case 'report-figure':
      await reportTold(context, act, at);
      return;
    case 'report-weighing':
      await reportWeighing(context, act, at);
      return;
    case 'confirm-figure':
      await answerFigure(context, { figureId: figureOf(memory, act), answer: 'confirm', key });
      return;
    case 'contest-figure': {
      const { reason } = act;
      await answerFigure(context, { figureId: figureOf(memory, act), answer: 'contest', reason, key });
      return;
    }
    case 'propose-ending':
      await proposeTold(context, act, at);
      return;
    case 'agree-ending': {
      const proposalId = known(memory, `ending proposed for ${subjectName(act.subject)}`);
      await answerEnding(context, { proposalId, answer: 'confirmed', key });
      return;
    }
    case 'pass-time': {
      const { failures } = await passTime(context);
      if (failures.length > 0) throw failures[0];
      return;
    }
  }
}

async function takeSampleTold(
  context: Context,
  { sample, takenBy, how }: Acting<'take-sample'>,
  { memory, key }: ActAt,
): Promise<void> {
  const { agreementId, loads } = memory;
  // A composite is whole once the last of its trucks has unloaded.
  const last = loads
    .filter((load) => load['sample'] === sample)
    .map((load) => load['delivered_at'] ?? '')
    .toSorted()
    .at(-1);
  if (last === undefined) throw new WrongUse(`There is no load of sample ${sample} in the season's files.`);
  const taking = { sample, taken_at: last, taken_by: takenBy, how };
  await takeSample(context, { agreementId, taking, tickets: [], key });
}

async function sealSample(
  context: Context,
  { sample, seals: [first, last], until, where }: Acting<'seal-sample'>,
  { memory, key }: ActAt,
): Promise<void> {
  if (Number(last) - Number(first) !== SAMPLE_PARTS.length - 1) {
    throw new WrongUse(`Four parts take four seals; ${first} to ${last} are not four.`);
  }
  const parts = SAMPLE_PARTS.map((part, index) => ({
    ...{ sample, part, seal: String(Number(first) + index), airtight: 'yes' },
    ...{ kept_where: where, kept_until: until },
  }));
  const sealed = await sealParts(context, { agreementId: memory.agreementId, parts, key });
  for (const [index, { id }] of sealed.entries()) {
    memory.ids.set(partName(sample, SAMPLE_PARTS[index] ?? ''), id);
  }
}

async function askTold(
  context: Context,
  { subject, claimed, reason }: Acting<'ask-retest'>,
  { memory, key }: ActAt,
): Promise<void> {
  const { agreementId, ids } = memory;
  const about = subject.about.replaceAll(' ', '-');
  const { items } = await readAsk(context, { agreementId, about, claims: {}, locale: 'en-US' });
  const name = 'ticket' in subject ? subject.ticket : subject.sample;
  const item = items.find((one) => one.name === name);
  if (!item) throw new WrongUse(`There is no ${subjectName(subject)} to question.`);
  const claims = { [item.id]: claimed };
  const { retestIds } = await askRetest(context, { agreementId, about, claims, reason, key });
  ids.set(questionName(subject), retestIds[0] ?? '');
}

async function reportTold(
  context: Context,
  { subject, tester, testedBy, value, testedOn, charge, payer }: Acting<'report-figure'>,
  { memory, side, key }: ActAt,
): Promise<void> {
  if ('ticket' in subject) throw new WrongUse('A weight is reported with its gross and tare.');
  const whose = tester === 'own' ? side : tester;
  const figure = {
    ...{ tester: whose, value, tested_by: testedBy, part: known(memory, partName(subject.sample, whose)) },
    ...{ tested_on: testedOn, charge, paid_by: sideNamed(memory, payer) },
  };
  const told = subjectName(subject);
  const report = await paperReport(`${testedBy} ${subject.sample}.pdf`, [
    testedBy,
    `Sample ${subject.sample}, the ${whose}'s sealed part`,
    `Tested on ${testedOn}`,
    `${told}: ${value} %`,
  ]);
  const retestId = known(memory, questionName(subject));
  const { figureId } = await reportFigure(context, { retestId, figure, report, key });
  memory.ids.set(figureName(subject, value), figureId ?? '');
}

async function reportWeighing(
  context: Context,
  { ticket, scale, gross, tare, testedOn, charge, payer }: Acting<'report-weighing'>,
  { memory, key }: ActAt,
): Promise<void> {
  const subject: Subject = { about: 'weight', ticket };
  const figure = {
    ...{ tester: 'second-scale', scale: known(memory, `scale ${scale}`), gross, tare },
    ...{ tested_on: testedOn, charge, paid_by: sideNamed(memory, payer) },
  };
  const report = await paperReport(`${scale} ${ticket}.pdf`, [
    scale,
    `Second weighing of ticket ${ticket}, ${testedOn}`,
    `Gross ${gross} lb`,
    `Tare ${tare} lb`,
  ]);
  const retestId = known(memory, questionName(subject));
  const { figureId } = await reportFigure(context, { retestId, figure, report, key });
  // The other side speaks of the net weight; both are whole pounds.
  memory.ids.set(figureName(subject, String(Number(gross) - Number(tare))), figureId ?? '');
}

async function proposeTold(
  context: Context,
  { subject, value, bearer, reason }: Acting<'propose-ending'>,
  { memory, key }: ActAt,
): Promise<void> {
  const { proposalId } = await proposeEnding(context, {
    retestId: known(memory, questionName(subject)),
    ending: value === undefined ? 'withdraw' : 'agree',
    ...(value === undefined ? {} : { value }),
    bearer: bearer === undefined ? 'split' : sideNamed(memory, bearer),
    reason,
    key,
  });
  memory.ids.set(`ending proposed for ${subjectName(subject)}`, proposalId ?? '');
}

function figureOf(
  memory: StoryMemory,
  { subject, value }: Acting<'confirm-figure' | 'contest-figure'>,
): string {
  return known(memory, figureName(subject, value));
}

function questionName(subject: Subject): string {
  return `question about ${subjectName(subject)}`;
}

function figureName(subject: Subject, value: string): string {
  return `${value} reported for ${subjectName(subject)}`;
}

function partName(sample: string, part: string): string {
  return `sealed ${part}’s part of sample ${sample}`;
}
