/**
 * Both sides, and the passing of time, act on one question at the same instant: whoever comes first, there is one question
 * of a figure, one ending of it and one set of notes, and the record is clean. On both engines.
 */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { answerEnding, proposeEnding } from '../../src/usecases/retests/agree-ending.ts';
import { answerFigure } from '../../src/usecases/retests/answer-figure.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { passTime } from '../../src/usecases/retests/pass-time.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, SERVER, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';
import { type RetestWorld, retestWorld } from './retest-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());
/** Agreements that a test began. */
const begun: string[] = [];
afterEach(async () => {
  for (const agreementId of begun.splice(0))
    expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);
});

async function newWorld(): Promise<RetestWorld> {
  const world = await retestWorld(record, { retest: RETEST });
  begun.push(world.agreementId);
  return world;
}

const RETEST = {
  ...{ askWithinDays: '10', keptDays: '60', referee: 'Bell Reach Referees', testWithinDays: '14' },
  fee: 'asker-unless-moved',
  measures: {
    starch: { method: 'referee-stands', tolerance: '1.0' },
    weight: { method: 'second-scale' },
  },
};
/** 60 and 40 short tons by one sample: 50 of dry matter at 54.0 come to 2,700.00. */
const LOADS = { T1: '60', T2: '40' };

type Delivered = Awaited<ReturnType<RetestWorld['deliver']>>;

/** A world with one sample invoiced, and the buyer's question about its starch, asked on 1 October. */
async function questioned(): Promise<{ world: RetestWorld; sample: Delivered; retestId: string }> {
  const world = await newWorld();
  const sample = await world.deliver({ sample: 'S1', loads: LOADS });
  await world.invoice();
  const [retestId = ''] = await ask(world, 'buyer', sample);
  return { world, sample, retestId };
}

async function ask(world: RetestWorld, by: 'seller' | 'buyer', { sampleId }: Delivered) {
  const claims = { [sampleId]: by === 'buyer' ? '52.0' : '56.0' };
  const { agreementId } = world;
  return (await askRetest(world[by], { agreementId, about: 'starch', claims, reason: 'Our own test' }))
    .retestIds;
}

/** The referee's 52.4, which the side that reports it has paid. */
async function reportReferee(
  world: RetestWorld,
  by: 'seller' | 'buyer',
  { sample, retestId }: { readonly sample: Delivered; readonly retestId: string },
): Promise<string | null> {
  const figure = { tester: 'referee', value: '52.4', part: sample.parts['referee'] ?? '', paid_by: by };
  return (await world.report(world[by], { retestId, figure })).figureId;
}

async function select(
  sql: string,
  ...values: readonly unknown[]
): Promise<readonly Record<string, unknown>[]> {
  const client = await record.superuser();
  const { rows } = await client.query<Record<string, unknown>>(sql, [...values]);
  await client.end();
  return rows;
}

const documents = async ({ agreementId }: RetestWorld) =>
  (
    await select(
      'SELECT kind, payable::text FROM money_document WHERE agreement_id = $1 ORDER BY serial',
      agreementId,
    )
  ).map(({ kind, payable }) => `${kind} ${payable}`);

const endings = async ({ agreementId }: RetestWorld) =>
  (
    await select(
      'SELECT because FROM retest_ending WHERE agreement_id = $1 ORDER BY recorded_at, id',
      agreementId,
    )
  ).map(({ because }) => because);

const count = async (table: string, { agreementId }: RetestWorld) =>
  (await select(`SELECT count(*)::int AS n FROM "${table}" WHERE agreement_id = $1`, agreementId))[0]?.['n'];

/** How often both sides were told of an agreement's questions. */
const toldOf = async (kind: string, { agreementId }: RetestWorld) =>
  (
    await select(
      'SELECT count(*)::int AS n FROM notice WHERE kind = $1 AND subject_id = $2',
      kind,
      agreementId,
    )
  )[0]?.['n'];

describe('time passes in four places at once', () => {
  const four = async ({ seller }: RetestWorld) => {
    const passed = await Promise.all([1, 2, 3, 4].map(() => passTime(seller)));
    expect(passed.flatMap(({ failures }) => failures)).toEqual([]);
    const sum = (of: (one: (typeof passed)[number]) => number) =>
      passed.reduce((all, one) => all + of(one), 0);
    return { decided: sum(({ decided }) => decided), reminded: sum(({ reminded }) => reminded) };
  };

  test('each question is decided once, each note issued once, each side told once', async () => {
    const { world, sample, retestId } = await questioned();
    const other = await world.deliver({ sample: 'S2', loads: { T3: '20' } });
    await world.invoice();
    await ask(world, 'seller', other);
    const third = await questioned();
    world.at('2026-10-02');
    await reportReferee(world, 'buyer', { sample, retestId });
    // Nobody has answered: the figure counts by itself.
    world.at('2026-10-08');
    expect(await four(world)).toEqual({ decided: 1, reminded: 0 });
    // The price moved the buyer's way, so that the seller bears what the buyer paid.
    const noted = ['invoice 2700.00', 'invoice 540.00', 'credit-note -80.00', 'credit-note -45.00'];
    expect(await documents(world)).toEqual(noted);
    expect(await toldOf('retest-decided', world)).toBe(2);
    // Three days are left for the other two.
    world.at('2026-10-12');
    expect(await four(world)).toEqual({ decided: 0, reminded: 2 });
    expect(await toldOf('retest-due', world)).toBe(2);
    expect(await four(world)).toEqual({ decided: 0, reminded: 0 });
    world.at('2026-10-16');
    expect(await four(world)).toEqual({ decided: 2, reminded: 0 });
    expect(await endings(world)).toEqual(['referee-moved-it', 'no-referee']);
    expect(await endings(third.world)).toEqual(['no-referee']);
    expect(await documents(world)).toEqual(noted);
    expect(await documents(third.world)).toEqual(['invoice 2700.00']);
    expect(await toldOf('retest-decided', world)).toBe(4);
    // All that was held is due again.
    expect(await count('hold_end', world)).toBe(await count('hold', world));
  });
});

describe('time passes while somebody acts', () => {
  test('a figure that is reported on the last day is in time; a day later the question is over', async () => {
    const { world, sample, retestId } = await questioned();
    world.at('2026-10-15');
    const [reported, passed] = await Promise.all([
      reportReferee(world, 'buyer', { sample, retestId }),
      passTime(world.seller),
    ]);
    expect(reported).not.toBeNull();
    expect(passed).toMatchObject({ decided: 0, failures: [] });
    const late = await questioned();
    late.world.at('2026-10-16');
    const acts = [
      () => refused(reportReferee(late.world, 'buyer', late)),
      () => passTime(late.world.seller),
      () => refused(reportReferee(late.world, 'seller', late)),
      () => passTime(late.world.buyer),
    ];
    const [one, , other] = await Promise.all(acts.map((act) => act()));
    for (const code of [one, other]) expect(['done', 'retest-over']).toContain(code);
    expect(await endings(late.world)).toEqual(['no-referee']);
    expect(await count('retest_figure', late.world)).toBe(0);
    expect(await documents(late.world)).toEqual(['invoice 2700.00']);
    expect(await endings(world)).toEqual([]);
    world.at('2026-10-21');
    await passTime(world.seller);
    expect(await endings(world)).toEqual(['referee-moved-it']);
  });

  test('a contest on the day on which the figure counts comes too late, whoever is first', async () => {
    for (const isTimeFirst of [true, false]) {
      const { world, sample, retestId } = await questioned();
      world.at('2026-10-02');
      const figureId = (await reportReferee(world, 'buyer', { sample, retestId })) ?? '';
      world.at('2026-10-08');
      const contest = () =>
        refused(answerFigure(world.seller, { figureId, answer: 'contest', reason: 'Not our sample' }));
      const time = () => passTime(world.buyer);
      await Promise.all((isTimeFirst ? [time, contest] : [contest, time]).map((act) => act()));
      expect(await count('retest_figure_answer', world)).toBe(0);
      expect(await endings(world)).toEqual(['referee-moved-it']);
      expect(await documents(world)).toEqual(['invoice 2700.00', 'credit-note -80.00', 'credit-note -45.00']);
    }
  });
});

describe('both sides act on one question', () => {
  test('one confirms the figure that decides, the other the withdrawal: one of them ends it', async () => {
    for (const isFigureFirst of SERVER === undefined ? [true, false] : [true, false, true, false]) {
      const { world, sample, retestId } = await questioned();
      world.at('2026-10-05');
      const figureId = (await reportReferee(world, 'seller', { sample, retestId })) ?? '';
      const asked = { retestId, ending: 'withdraw', bearer: 'buyer', reason: 'Not worth it' };
      const { proposalId } = await proposeEnding(world.buyer, asked);
      const figure = () => refused(answerFigure(world.buyer, { figureId, answer: 'confirm' }));
      const ending = () =>
        refused(answerEnding(world.seller, { proposalId: proposalId ?? '', answer: 'confirmed' }));
      const acts = isFigureFirst ? [figure, ending] : [ending, figure];
      const codes = await Promise.all(acts.map((act) => act()));
      expect(codes.toSorted()).toEqual(['done', 'retest-over']);
      const [because, ...more] = await endings(world);
      expect(more).toEqual([]);
      // The seller paid for the test: it bears it where the price moved, and is paid it back where nothing came of it.
      const issued = { 'referee-moved-it': 'credit-note -80.00', 'both-confirmed': 'fee 45.00' };
      expect(await documents(world)).toEqual(['invoice 2700.00', issued[because as keyof typeof issued]]);
      expect(await count('hold_end', world)).toBe(await count('hold', world));
    }
  });

  test('both report the referee’s figure: one of them has', async () => {
    const { world, sample, retestId } = await questioned();
    world.at('2026-10-05');
    const sides = ['seller', 'buyer', 'seller', 'buyer'] as const;
    const codes = await Promise.all(
      sides.map((by) => refused(reportReferee(world, by, { sample, retestId }))),
    );
    expect(codes.toSorted()).toEqual(['done', 'not-ready', 'not-ready', 'not-ready']);
    expect(await count('retest_figure', world)).toBe(1);
  });

  test('two people of one side confirm and contest a figure: one word counts', async () => {
    const { world, sample, retestId } = await questioned();
    world.at('2026-10-05');
    const figureId = (await reportReferee(world, 'buyer', { sample, retestId })) ?? '';
    const answer = (word: 'confirm' | 'contest') =>
      refused(answerFigure(world.seller, { figureId, answer: word, reason: 'Digits swapped' }));
    const codes = await Promise.all([answer('confirm'), answer('contest'), answer('confirm')]);
    expect(codes.filter((code) => code === 'done')).toHaveLength(1);
    for (const code of codes) expect(['done', 'retest-over', 'ended-already']).toContain(code);
    expect(await count('retest_figure_answer', world)).toBe(1);
    expect((await endings(world)).length).toBeLessThanOrEqual(1);
  });

  test('both question one figure: one of them asks', async () => {
    const world = await newWorld();
    const sample = await world.deliver({ sample: 'S1', loads: LOADS });
    await world.invoice();
    const sides = ['buyer', 'seller', 'buyer', 'seller'] as const;
    const codes = await Promise.all(sides.map((by) => refused(ask(world, by, sample))));
    expect(codes.toSorted()).toEqual(['done', 'retest-open', 'retest-open', 'retest-open']);
    expect(await count('retest', world)).toBe(1);
    const [loadId = ''] = sample.loadIds;
    const { agreementId } = world;
    const weight = (by: 'seller' | 'buyer', claimed: string) =>
      refused(
        askRetest(world[by], { agreementId, about: 'weight', claims: { [loadId]: claimed }, reason: 'Ours' }),
      );
    const weighed = await Promise.all([weight('seller', '121000'), weight('buyer', '118000')]);
    expect(weighed.toSorted()).toEqual(['done', 'retest-open']);
    expect(await count('retest', world)).toBe(2);
  });
});
