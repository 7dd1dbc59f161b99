/**
 * How laboratories and scales that met in retests differ, as each party reads it: on the real engine.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { answerFigure } from '../../src/usecases/retests/answer-figure.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { type PatternView, readPatterns } from '../../src/usecases/retests/read-patterns.ts';
import { recordScale } from '../../src/usecases/scales/keep-scale.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';
import { type RetestWorld, retestWorld } from './retest-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const RETEST = {
  askWithinDays: '20',
  keptDays: '90',
  referee: 'Bell Reach Referees',
  testWithinDays: '14',
  fee: 'asker-unless-moved',
  measures: {
    starch: { method: 'referee-stands', tolerance: '1.0' },
    'dry-matter': { method: 'iso-5725', repeatability: '0.5', test: 'dear' },
    weight: { method: 'second-scale' },
  },
};

interface Tested {
  readonly about?: string;
  readonly sample: string;
  readonly claimed: string;
  readonly figure: Readonly<Record<string, string>>;
  readonly result?: Readonly<Record<string, string>>;
  readonly answer?: 'confirm' | 'contest';
}

/** A sample that the buyer questions and has tested again; returns the question's id. */
async function testAgain(world: RetestWorld, of: Tested): Promise<string> {
  const { buyer, seller, agreementId } = world;
  const { sample, claimed, result = {}, about = 'starch' } = of;
  const { sampleId, parts } = await world.deliver({ sample, loads: { [`T-${sample}`]: '60' }, result });
  const claims = { [sampleId]: claimed };
  const { retestIds } = await askRetest(buyer, { agreementId, about, claims, reason: 'Our own test' });
  const [retestId = ''] = retestIds;
  await reportFor(world, { retestId, parts, of });
  return retestId;

  async function reportFor(
    { report }: RetestWorld,
    made: {
      readonly retestId: string;
      readonly parts: Readonly<Record<string, string>>;
      readonly of: Tested;
    },
  ) {
    const tester = made.of.figure['tester'] ?? 'referee';
    const figure = { tester, part: made.parts[tester] ?? '', ...made.of.figure };
    const { figureId } = await report(buyer, { retestId: made.retestId, figure });
    const answer = made.of.answer ?? 'confirm';
    const reason = answer === 'contest' ? { reason: 'Another seal' } : {};
    await answerFigure(seller, { figureId: figureId ?? '', answer, ...reason });
  }
}

const patternsFor = async (context: Context, agreementId?: string) =>
  await readPatterns(context, { locale: 'en-US', ...(agreementId === undefined ? {} : { agreementId }) });

/** "Starch: Alder Bench, Bell Reach Referees: 1.60 less, 0.3 more". */
const lines = (patterns: readonly PatternView[]) =>
  patterns.map(
    ({ name, one, other, meetings }) =>
      `${name}: ${one}, ${other}: ${meetings.map(({ differs }) => differs).join(', ')}`,
  );

describe('six questions, all one way', () => {
  let world: RetestWorld;
  let retestIds: string[];
  beforeAll(async () => {
    world = await retestWorld(record, { retest: RETEST });
    retestIds = [];
    for (const [index, value] of ['52.4', '53.1', '52.9', '53.6', '52.00', '53.2'].entries()) {
      world.at(`2026-10-${String(5 + index * 3).padStart(2, '0')}`);
      // Names are compared without the blanks around them.
      const laboratory = index === 3 ? ' Alder Bench ' : 'Alder Bench';
      const figure = { value };
      retestIds.push(
        await testAgain(world, { sample: `S${index + 1}`, claimed: '52', figure, result: { laboratory } }),
      );
    }
  });

  test('are one pattern, with what chance would do and what their picking does', async () => {
    const { patterns, unnamed, agreement } = await patternsFor(world.buyer);
    expect(unnamed).toBe(0);
    expect(agreement).toBeUndefined();
    expect(patterns).toHaveLength(1);
    expect(patterns[0]).toMatchObject({
      name: 'Starch',
      unit: '% of dry matter',
      one: 'Alder Bench',
      other: 'Bell Reach Referees',
      above: 0,
      below: 6,
      equal: 0,
      // (1.6 + 0.9 + 1.1 + 0.4 + 2.0 + 0.8) ÷ 6 = 6.8 ÷ 6
      mean: '-1.133333',
      sentences: [
        'All 6 times Alder Bench reported more starch than Bell Reach Referees. On average Alder Bench reported 1.13 points more.',
        'If neither read higher as a rule, chance alone would make it as one-sided as this about 3 times in 100. Going by how far apart they are as well, about 5 times in 1,000. That is hard to put down to chance. It shows that the two differ, not which of them is right.',
        'All 6 figures of Alder Bench were questioned as too high, and figures that are picked for that come out lower the second time even between two that agree. Samples that both test without a question would tell more.',
      ],
      // By hand: S = −6.8, Σd² = 9.38, t² = 46.24 × 5 ÷ (56.28 − 46.24) = 23.028; table values for 5: 4.032 leaves 0.01, 5.893 0.002.
      tests: { signTest: '0.031', tTest: { t: '−4.80', freedom: 5, p: '0.005' } },
    });
  });

  test('are told with their figures, their days and their questions', async () => {
    const [pattern] = (await patternsFor(world.seller)).patterns;
    expect(pattern?.meetings.map(({ retestId }) => retestId)).toEqual(retestIds);
    expect(pattern?.meetings[4]).toMatchObject({
      subject: 'sample S5',
      on: '2026-10-17',
      one: '54.0',
      other: '52.00',
      differs: '2.00 less',
      difference: '-2',
    });
  });

  test('are told as the reader writes numbers', async () => {
    const { patterns } = await readPatterns(world.seller, { locale: 'de-DE' });
    expect(patterns[0]?.sentences[0]).toContain('1,13 points');
    expect(patterns[0]?.tests?.tTest?.t).toBe('−4,80');
  });

  test('are nobody else’s to read: no adviser sees them, and no stranger', async () => {
    const practice = await newParty(record.tools, 'Row and Husk Advice');
    const adviser: Context = { ...world.buyer, caller: practice };
    const { secret } = await askAdviser(world.buyer, { agreementId: world.agreementId });
    await acceptShare(adviser, { secret });
    for (const context of [
      adviser,
      { ...record.tools, caller: await newParty(record.tools, 'Sorrel Bend') },
    ]) {
      expect((await patternsFor(context)).patterns).toEqual([]);
      expect(await refused(patternsFor(context, world.agreementId))).toBe('not-found');
    }
  });

  test('a second agreement of the same two adds to them, and each can be read alone', async () => {
    const parties: { readonly seller: Caller; readonly buyer: Caller } = {
      seller: world.seller.caller,
      buyer: world.buyer.caller,
    };
    const second = await retestWorld(record, { retest: RETEST, parties });
    second.at('2026-11-02');
    await testAgain(second, { sample: 'S1', claimed: '55', figure: { value: '54.2' } });
    const { patterns } = await patternsFor(world.buyer);
    expect(patterns).toMatchObject([{ above: 1, below: 6 }]);
    // One of them was questioned as too low: the picking is not all on one side any more.
    expect(patterns[0]?.sentences).toHaveLength(2);
    const alone = await patternsFor(world.buyer, second.agreementId);
    expect(alone.agreement?.id).toBe(second.agreementId);
    expect(alone.patterns).toMatchObject([
      {
        sentences: [
          'The one time they met, Bell Reach Referees reported more starch than Alder Bench. It reported 0.2 points more.',
          'Too few to tell: from 5 meetings on, this page says what chance alone would do.',
        ],
        tests: undefined,
      },
    ]);
    expect((await patternsFor(world.buyer, world.agreementId)).patterns).toMatchObject([
      { above: 0, below: 6 },
    ]);
    expect(await refused(patternsFor(world.buyer, 'none'))).toBe('not-found');
  });
});

test('contested figures are left out, and those of nobody by name are counted', async () => {
  const world = await retestWorld(record, { retest: RETEST });
  await testAgain(world, { sample: 'S1', claimed: '52', figure: { value: '52.4' }, answer: 'contest' });
  await testAgain(world, {
    sample: 'S2',
    claimed: '52',
    figure: { value: '53' },
    result: { laboratory: '' },
  });
  expect(await patternsFor(world.buyer)).toMatchObject({ patterns: [], unnamed: 1 });
});

test('several figures of one laboratory on one question are one meeting, and nobody meets itself', async () => {
  const world = await retestWorld(record, { retest: RETEST });
  const first = { tester: 'laboratory', value: '50.9', tested_by: 'Cobble Hall' };
  const retestId = await testAgain(world, {
    about: 'dry-matter',
    sample: 'S1',
    claimed: '51',
    figure: first,
  });
  expect(lines((await patternsFor(world.buyer)).patterns)).toEqual([
    'Dry matter: Alder Bench, Cobble Hall: 0.9 more',
  ]);
  const client = await record.superuser();
  const { rows } = await client.query<{ id: string }>(
    `SELECT p.id FROM sample_part p WHERE p.agreement_id = $1 AND p.part = 'laboratory'`,
    [world.agreementId],
  );
  await client.end();
  const again = { ...first, value: '50.8', part: rows[0]?.id ?? '' };
  const { figureId } = await world.report(world.buyer, { retestId, figure: again });
  await answerFigure(world.seller, { figureId: figureId ?? '', answer: 'confirm' });
  const { patterns } = await patternsFor(world.buyer);
  expect(patterns[0]?.meetings).toMatchObject([{ one: '50', other: '50.85', difference: '0.85' }]);

  await testAgain(world, {
    about: 'dry-matter',
    sample: 'S2',
    claimed: '51',
    figure: { tester: 'laboratory', value: '50.1', tested_by: 'Alder Bench' },
  });
  expect((await patternsFor(world.buyer)).patterns).toHaveLength(1);
});

test('scales are told apart by more than their names', async () => {
  const world = await retestWorld(record, { retest: RETEST });
  const scale = {
    name: 'Yard scale',
    unit: 'lb',
    capacity: '200000',
    division: '20',
    accuracy_class: 'III L',
    legal_for_trade: 'yes',
    tested_on: '2026-09-01',
    test_due_on: '2027-09-01',
  };
  const own = await recordScale(world.seller, { scale: { ...scale, place: 'North gate' } });
  const theirs = await recordScale(world.buyer, { scale: { ...scale, place: 'Pit' } });
  const { loadIds } = await world.deliver({ sample: 'S1', loads: { T1: '60' }, scale: own.scaleId });
  const { retestIds } = await askRetest(world.buyer, {
    agreementId: world.agreementId,
    about: 'weight',
    claims: { [loadIds[0] ?? '']: '119000' },
    reason: 'Our own scale',
  });
  const figure = {
    tester: 'second-scale',
    scale: theirs.scaleId,
    gross: '149220',
    tare: '30000',
    tested_by: '',
  };
  await world.report(world.buyer, { retestId: retestIds[0] ?? '', figure });
  const { patterns } = await patternsFor(world.seller);
  const [seller, buyer] = [/North gate, Quillback Acres \d+/, /Pit, Tarn Hollow Dairy \d+/];
  expect(patterns[0]?.one).toMatch(seller);
  expect(patterns[0]?.other).toMatch(buyer);
  expect(patterns[0]).toMatchObject({ name: 'Net weight', unit: 'lb', mean: '-780' });
  expect(patterns[0]?.meetings).toMatchObject([
    { subject: 'ticket T1', one: '120,000', other: '119,220', differs: '780 less' },
  ]);
  expect(patterns[0]?.sentences[0]).toMatch(/showed more weight than .* It showed 780 lb more\.$/);
});
