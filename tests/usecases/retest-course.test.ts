/**
 * Questions over their days: time limits and reminders by local dates, endings that both sides confirm, weights by a second
 * scale, and what may not happen beside an open question. On the real engine, with the clock passed in.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { readNotices } from '../../src/usecases/notices/read-notices.ts';
import { answerEnding, proposeEnding } from '../../src/usecases/retests/agree-ending.ts';
import { answerFigure } from '../../src/usecases/retests/answer-figure.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { passTime } from '../../src/usecases/retests/pass-time.ts';
import { readRetest } from '../../src/usecases/retests/read-retest.ts';
import { readRetestList } from '../../src/usecases/retests/read-retest-list.ts';
import { recordScale } from '../../src/usecases/scales/keep-scale.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';
import { type RetestWorld, retestWorld } from './retest-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

const RULES = {
  askWithinDays: '10',
  keptDays: '60',
  referee: 'Bell Reach Referees',
  testWithinDays: '14',
  fee: 'split',
  measures: {
    starch: { method: 'referee-stands', tolerance: '1.0' },
    weight: { method: 'second-scale' },
  },
};
const LOADS = { T1: '60', T2: '40' };

async function asked(world: RetestWorld, claims: Readonly<Record<string, string>>, about = 'starch') {
  const { agreementId, buyer } = world;
  return await askRetest(buyer, { agreementId, about, claims, reason: 'Our own test' });
}

async function stateOf({ buyer }: RetestWorld, retestId: string) {
  const { record: found } = await readRetest(buyer, { retestId, locale: 'en-US' });
  return found;
}

/** Lets time pass as the program does, at a moment. */
async function passAt(moment: string) {
  return await passTime({ ...record.tools, now: () => Date.parse(moment) });
}

describe('time', () => {
  test('a figure can be questioned through the last local day, and not after it', async () => {
    const world = await retestWorld(record, { retest: RULES });
    world.at('2026-10-25');
    const one = await world.deliver({ sample: 'S1', loads: { T1: '60' } });
    const two = await world.deliver({ sample: 'S2', loads: { T2: '40' } });
    // Ten days on it is November 4 in Boise until 07:00 UTC of the 5th, since the clocks went back on the 1st.
    world.at('2026-11-05T06:59:00Z');
    expect((await asked(world, { [one.sampleId]: '52' })).retestIds).toHaveLength(1);
    world.at('2026-11-05T07:01:00Z');
    expect(await refused(asked(world, { [two.sampleId]: '52' }))).toBe('too-late');
  });

  test('a test that does not come in time leaves the first figure, and both are reminded once before', async () => {
    const world = await retestWorld(record, { retest: RULES });
    world.at('2026-10-25');
    const { sampleId, parts } = await world.deliver({ sample: 'S1', loads: LOADS });
    await world.invoice();
    const { retestIds } = await asked(world, { [sampleId]: '52' });
    const [retestId = ''] = retestIds;
    expect((await stateOf(world, retestId)).calls).toMatchObject({ dueOn: '2026-11-08', daysLeft: 14 });
    const told = async (context: Context) =>
      (await readNotices(context)).unseen.filter(({ words }) => words.includes('nearly over')).length;
    expect((await passAt('2026-11-04T20:00:00Z')).reminded).toBe(0);
    expect((await passAt('2026-11-05T20:00:00Z')).reminded).toBe(1);
    expect((await passAt('2026-11-06T20:00:00Z')).reminded).toBe(0);
    expect([await told(world.seller), await told(world.buyer)]).toEqual([1, 1]);
    // The last day lasts until midnight in Boise.
    expect((await passAt('2026-11-09T06:59:00Z')).decided).toBe(0);
    world.at('2026-11-09T07:01:00Z');
    // Nobody has looked yet: whoever reports now learns that the time is over.
    const figure = { tester: 'referee', value: '52.4', part: parts['referee'] ?? '' };
    expect(await world.report(world.buyer, { retestId, figure })).toEqual({ figureId: null });
    const over = await stateOf(world, retestId);
    expect(over.ending).toMatchObject({ because: 'no-referee', value: '54.0', on: '2026-11-09' });
    expect(over.held).toBe('0.00');
    expect(await refused(world.report(world.buyer, { retestId, figure }))).toBe('retest-over');
  });

  test('a figure that nobody answers counts after five days, and decides', async () => {
    const world = await retestWorld(record, { retest: RULES });
    world.at('2026-10-25');
    const { sampleId, parts } = await world.deliver({ sample: 'S1', loads: LOADS });
    const [retestId = ''] = (await asked(world, { [sampleId]: '52' })).retestIds;
    world.at('2026-11-07');
    const figure = { tester: 'referee', value: '52.40', part: parts['referee'] ?? '' };
    await world.report(world.buyer, { retestId, figure });
    expect((await passAt('2026-11-12T20:00:00Z')).decided).toBe(0);
    expect((await passAt('2026-11-13T20:00:00Z')).decided).toBe(1);
    world.at('2026-11-13T21:00:00Z');
    expect((await stateOf(world, retestId)).ending).toMatchObject({
      because: 'referee-moved-it',
      value: '52.40',
      changed: '-80.00',
      // 45 that the buyer paid, split: the odd cent of nothing.
      sellerBears: '22.50',
      buyerBears: '22.50',
    });
  });

  test('a contested figure does not count, and its test has its time anew', async () => {
    const world = await retestWorld(record, { retest: RULES });
    world.at('2026-10-25');
    const { sampleId, parts } = await world.deliver({ sample: 'S1', loads: LOADS });
    const [retestId = ''] = (await asked(world, { [sampleId]: '52' })).retestIds;
    world.at('2026-11-07');
    const figure = { tester: 'referee', value: '50.4', part: parts['referee'] ?? '' };
    expect(await refused(world.report(world.buyer, { retestId, figure: { ...figure, value: '5.24' } }))).toBe(
      'unusual',
    );
    expect(
      await refused(world.report(world.buyer, { retestId, figure: { ...figure, charge: '4500' } })),
    ).toBe('unusual');
    const early = { ...figure, tested_on: '2026-10-20' };
    expect(await refused(world.report(world.buyer, { retestId, figure: early }))).toBe('bad-input');
    // Whoever entered a figure takes it back before it is answered: it costs nothing, and gives no time.
    const slip = await world.report(world.buyer, { retestId, figure });
    const back = { figureId: slip.figureId ?? '', answer: 'withdraw' } as const;
    expect(await refused(answerFigure(world.seller, back))).toBe('not-yours');
    await answerFigure(world.buyer, back);
    expect((await stateOf(world, retestId)).calls).toMatchObject({ since: '2026-10-25' });
    const { figureId } = await world.report(world.buyer, { retestId, figure });
    const contest = { figureId: figureId ?? '', answer: 'contest' } as const;
    expect(await refused(answerFigure(world.seller, contest))).toBe('bad-input');
    await answerFigure(world.seller, { ...contest, reason: 'The report says 52.4' });
    expect((await stateOf(world, retestId)).calls).toMatchObject({
      since: '2026-11-07',
      dueOn: '2026-11-21',
    });
    const again = await world.report(world.buyer, { retestId, figure: { ...figure, value: '52.4' } });
    await answerFigure(world.seller, { figureId: again.figureId ?? '', answer: 'confirm' });
    // Reported twice, tested once: it cost 45 once.
    expect((await stateOf(world, retestId)).ending).toMatchObject({ value: '52.4', sellerBears: '22.50' });
  });
});

describe('without a decision', () => {
  test('both sides withdraw a question, or agree on a figure', async () => {
    const world = await retestWorld(record, { retest: RULES });
    const one = await world.deliver({ sample: 'S1', loads: LOADS });
    const two = await world.deliver({ sample: 'S2', loads: { T3: '100' } });
    await world.invoice();
    const { retestIds } = await asked(world, { [one.sampleId]: '52', [two.sampleId]: '53' });
    const [first = '', second = ''] = retestIds;
    expect((await readRetestList(world.seller, { locale: 'en-US' })).items.map(({ held }) => held)).toEqual([
      '100.00',
      '50.00',
    ]);
    const withdraw = { retestId: first, ending: 'withdraw', bearer: 'split', reason: 'We found our slip' };
    const { proposalId } = await proposeEnding(world.buyer, withdraw);
    expect(await refused(proposeEnding(world.seller, withdraw))).toBe('correction-open');
    const answer = { proposalId: proposalId ?? '', answer: 'confirmed' } as const;
    expect(await refused(answerEnding(world.buyer, answer))).toBe('not-yours');
    expect(await answerEnding(world.seller, answer)).toEqual({ isOver: true });
    expect((await stateOf(world, first)).ending).toMatchObject({ ending: 'withdrawn', value: '54.0' });

    const agree = { ...withdraw, retestId: second, ending: 'agree', value: '53.50' };
    expect(await refused(proposeEnding(world.seller, { ...agree, value: '' }))).toBe('bad-input');
    expect(await refused(proposeEnding(world.seller, { ...agree, value: '154' }))).toBe('bad-input');
    const refusedOnce = await proposeEnding(world.seller, agree);
    await answerEnding(world.buyer, {
      proposalId: refusedOnce.proposalId ?? '',
      answer: 'refused',
      reason: 'Too much',
    });
    const taken = await proposeEnding(world.buyer, { ...agree, value: '53.20' });
    await answerEnding(world.buyer, { proposalId: taken.proposalId ?? '', answer: 'withdrawn' });
    const last = await proposeEnding(world.buyer, { ...agree, value: '53.40' });
    await answerEnding(world.seller, { proposalId: last.proposalId ?? '', answer: 'confirmed' });
    const over = await stateOf(world, second);
    expect(over.ending).toMatchObject({ ending: 'agreed', value: '53.40', changed: '-30.00' });
    expect(over.documents.map(({ kind, payable }) => `${kind} ${payable}`)).toEqual(['credit-note -30.00']);
    // Withdrawn before anything was tested, it may be asked again; what was agreed on may not.
    expect((await asked(world, { [one.sampleId]: '52' })).retestIds).toHaveLength(1);
    expect(await refused(asked(world, { [two.sampleId]: '52' }))).toBe('not-ready');
  });
});

describe('a weight', () => {
  const scale = (name: string, more: object = {}) => ({
    ...{ name, place: 'Mill Lane', unit: 'lb', capacity: '200000', division: '20', accuracy_class: 'III L' },
    ...{ legal_for_trade: 'yes', tested_on: '2026-06-01' },
    ...more,
  });

  async function weighed(gross: string) {
    const world = await retestWorld(record, { retest: RULES });
    const { scaleId: own } = await recordScale(world.seller, { scale: scale('Farm scale') });
    const { scaleId: second } = await recordScale(world.buyer, { scale: scale('Mill scale') });
    const { scaleId: yard } = await recordScale(world.buyer, {
      scale: scale('Yard scale', { legal_for_trade: 'no', accuracy_class: 'III L' }),
    });
    const { loadIds } = await world.deliver({ sample: 'S1', loads: { T1: '20' }, scale: own });
    await world.invoice();
    const [retestId = ''] = (await asked(world, { [loadIds[0] ?? '']: '38000' }, 'weight')).retestIds;
    const figure = { tester: 'second-scale', scale: second, gross, tare: '30000' };
    for (const wrong of [
      { ...figure, scale: yard },
      { ...figure, scale: own },
      { ...figure, gross: '70010' },
      { ...figure, tare: '80000' },
      // Past the scale's capacity, and before the truck came.
      { ...figure, gross: '200020' },
      { ...figure, tested_on: '2026-09-30' },
    ]) {
      expect(await refused(world.report(world.buyer, { retestId, figure: wrong }))).toBe('bad-input');
    }
    const { figureId } = await world.report(world.buyer, { retestId, figure });
    await answerFigure(world.seller, { figureId: figureId ?? '', answer: 'confirm' });
    return await stateOf(world, retestId);
  }

  // 70,000 lb is 3,500 divisions, 140 lb; 30,000 lb is 1,500, 60 lb: 400 lb for both scales (Handbook 44, from memory).
  test('within what both scales may be off by, the first stands', async () => {
    const found = await weighed('69600');
    expect(found.weights).toMatchObject({ apart: '400', allowed: '400' });
    expect(found.ending).toMatchObject({ because: 'first-stands', value: '40000', changed: '0.00' });
  });

  test('beyond it, the second counts', async () => {
    const found = await weighed('69580');
    // 420 lb, half of it dry, at 54 points of 1.00: 5.67.
    expect(found.ending).toMatchObject({ because: 'second-moved-it', value: '39580', changed: '-5.67' });
    expect(found.documents.map(({ kind, payable }) => `${kind} ${payable}`)).toEqual([
      'credit-note -5.67',
      'credit-note -22.50',
    ]);
    expect(found.loads).toMatchObject([{ ticket: 'T1', before: '540.00', now: '534.33' }]);
  });
});

describe('beside an open question', () => {
  test('nobody corrects what is questioned, and nobody else is let in', async () => {
    const world = await retestWorld(record, { retest: RULES });
    const { agreementId, seller, buyer } = world;
    const { sampleId } = await world.deliver({ sample: 'S1', loads: LOADS });
    const [retestId = ''] = (await asked(world, { [sampleId]: '52' })).retestIds;
    const client = await record.superuser();
    const { rows } = await client.query<{ id: string }>('SELECT id FROM result WHERE sample_id = $1', [
      sampleId,
    ]);
    await client.end();
    const correction = proposeCorrection(seller, {
      agreementId,
      subject: 'result',
      subjectId: rows[0]?.id ?? '',
      figures: { basis: 'dry-matter', dry_matter: '50', starch: '53' },
      reason: 'A slip',
    });
    expect(await refused(correction)).toBe('retest-open');
    const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Fernway Orchards') };
    expect(await refused(readRetest(stranger, { retestId, locale: 'en-US' }))).toBe('not-found');
    for (const role of ['viewer', 'scale-operator'] as const) {
      const other: Context = { ...buyer, caller: { ...buyer.caller, role } };
      expect(await refused(asked({ ...world, buyer: other }, { [sampleId]: '52' }))).toBe('not-allowed');
    }
  });

  test('without a sealed part nothing can be tested, and what is still possible is said', async () => {
    const world = await retestWorld(record, { retest: RULES });
    const { sampleId } = await world.deliver({ sample: 'S1', loads: LOADS, isSealed: false });
    const attempt = asked(world, { [sampleId]: '52' });
    await expect(attempt).rejects.toThrow(
      /no referee’s part of the sample is recorded as sealed\. The two of you can still agree on a correction/,
    );
    await attempt.catch(() => undefined);
  });

  test('claims that are none are refused', async () => {
    const world = await retestWorld(record, { retest: RULES });
    const { sampleId } = await world.deliver({ sample: 'S1', loads: LOADS });
    for (const claimed of ['', 'much', '-1', '101', '54.00']) {
      expect(await refused(asked(world, { [sampleId]: claimed })), claimed).toBe('bad-input');
    }
    expect(await refused(asked(world, {}))).toBe('bad-input');
    expect(await refused(asked(world, { [sampleId]: '52' }, 'ndf'))).toBe('not-found');
  });
});
