/**
 * A world of questions in which every table about them has rows, and every column that may be empty has something in it in
 * one of them: for the tests that look at each.
 */
import { answerEnding, proposeEnding } from '../../src/usecases/retests/agree-ending.ts';
import { answerFigure } from '../../src/usecases/retests/answer-figure.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { passTime } from '../../src/usecases/retests/pass-time.ts';
import { recordScale } from '../../src/usecases/scales/keep-scale.ts';
import type { TestRecord } from '../store/test-record.ts';
import { type RetestWorld, retestWorld, type WorldTerms } from './retest-world.ts';

/** The tables about the questions of an agreement. */
export const RETEST_TABLES = [
  'retest',
  'retest_figure',
  'retest_figure_answer',
  'retest_proposal',
  'retest_proposal_answer',
  'retest_ending',
  'retest_reminder',
] as const;

export interface EveryRetestRow extends RetestWorld {
  /** A question of the buyer's that nobody has ended, with what waits for the seller's word. */
  readonly open: {
    readonly retestId: string;
    readonly sampleId: string;
    /** The referee's part of its sample. */
    readonly partId: string;
    /** Reported by the buyer. */
    readonly figureId: string;
    /** Proposed by the buyer. */
    readonly proposalId: string;
  };
  /** Decided by the referee's figure, by a second scale, agreed on, and withdrawn; all were the buyer's. */
  readonly over: Readonly<Record<'decided' | 'weighed' | 'agreed' | 'withdrawn', string>>;
  /** A load whose weight nobody has questioned. */
  readonly loadId: string;
}

const RETEST = {
  ...{ askWithinDays: '30', keptDays: '60', referee: 'Bell Reach Referees', testWithinDays: '14' },
  fee: 'asker-unless-moved',
  measures: {
    starch: { method: 'referee-stands', tolerance: '1.0' },
    weight: { method: 'second-scale' },
  },
};

export async function everyRetestRow(
  record: TestRecord,
  parties?: WorldTerms['parties'],
): Promise<EveryRetestRow> {
  const world = await retestWorld(record, { retest: RETEST, ...(parties === undefined ? {} : { parties }) });
  const { agreementId, seller, buyer, report } = world;
  const [scale, second] = [await newScale(world, 'Yard scale'), await newScale(world, 'Silo scale')];
  const decided = await world.deliver({ sample: 'S1', loads: { T1: '60', T2: '40' }, scale });
  const agreed = await world.deliver({ sample: 'S2', loads: { T3: '20' } });
  const withdrawn = await world.deliver({ sample: 'S3', loads: { T4: '30' } });
  const open = await world.deliver({ sample: 'S4', loads: { T5: '30' } });
  await world.invoice();
  world.at('2026-10-05');
  const ask = async (about: string, claims: Record<string, string>) =>
    (await askRetest(buyer, { agreementId, about, claims, reason: 'Our own test' })).retestIds;
  const claims = Object.fromEntries(
    [decided, agreed, withdrawn, open].map(({ sampleId }) => [sampleId, '52.0']),
  );
  const [byReferee = '', byBoth = '', byAsker = '', still = ''] = await ask('starch', claims);
  const [loadId = ''] = decided.loadIds;
  const [byScale = ''] = await ask('weight', { [loadId]: '118000' });

  world.at('2026-10-06');
  const referee = async (retestId: string, parts: Readonly<Record<string, string>>, value: string) => {
    const figure = { tester: 'referee', method: 'Polarimeter', value, part: parts['referee'] ?? '' };
    return (await report(buyer, { retestId, figure })).figureId ?? '';
  };
  const wrong = await referee(byReferee, decided.parts, '50.4');
  await answerFigure(seller, { figureId: wrong, answer: 'contest', reason: 'Digits swapped' });
  const right = await referee(byReferee, decided.parts, '52.4');
  await answerFigure(seller, { figureId: right, answer: 'confirm' });
  const weighed = { tester: 'second-scale', scale: second, gross: '147000', tare: '30000' };
  const { figureId } = await report(buyer, { retestId: byScale, figure: weighed });
  await answerFigure(seller, { figureId: figureId ?? '', answer: 'confirm' });

  const propose = async (retestId: string, of: { ending: string; value?: string; bearer: string }) =>
    (await proposeEnding(buyer, { retestId, reason: 'To be done with it', ...of })).proposalId ?? '';
  const refused = await propose(byBoth, { ending: 'agree', value: '53', bearer: 'seller' });
  await answerEnding(seller, { proposalId: refused, answer: 'refused', reason: 'Too low' });
  const met = await propose(byBoth, { ending: 'agree', value: '53.5', bearer: 'split' });
  await answerEnding(seller, { proposalId: met, answer: 'confirmed' });
  const back = await propose(byAsker, { ending: 'withdraw', bearer: 'buyer' });
  await answerEnding(seller, { proposalId: back, answer: 'confirmed' });

  const reported = await referee(still, open.parts, '53.0');
  const proposalId = await propose(still, { ending: 'agree', value: '53.2', bearer: 'split' });
  world.at('2026-10-09');
  // The last day to answer the figure is near.
  const { failures } = await passTime(seller);
  if (failures.length > 0) throw new AggregateError(failures, 'Time did not pass');
  return {
    ...world,
    open: {
      ...{ retestId: still, sampleId: open.sampleId, partId: open.parts['referee'] ?? '' },
      ...{ figureId: reported, proposalId },
    },
    over: { decided: byReferee, weighed: byScale, agreed: byBoth, withdrawn: byAsker },
    loadId: open.loadIds[0] ?? '',
  };
}

async function newScale({ seller }: RetestWorld, name: string): Promise<string> {
  const { scaleId } = await recordScale(seller, {
    scale: {
      ...{ name, place: 'North gate', unit: 'lb', capacity: '200000', division: '20' },
      ...{ accuracy_class: 'III L', legal_for_trade: 'yes' },
    },
  });
  return scaleId;
}
