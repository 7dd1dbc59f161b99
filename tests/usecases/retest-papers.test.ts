/**
 * Papers of questions: both parties get the same bytes, nobody else gets any, and a question prints however it stands.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readFonts } from '../../src/files/read-fonts.ts';
import type { Context } from '../../src/usecases/context.ts';
import { answerEnding, proposeEnding } from '../../src/usecases/retests/agree-ending.ts';
import { answerFigure } from '../../src/usecases/retests/answer-figure.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { printRetest } from '../../src/usecases/retests/print-retest.ts';
import { handOver } from '../../src/usecases/samples/hand-over.ts';
import { recordScale } from '../../src/usecases/scales/keep-scale.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { squeezed } from '../documents/agreement-text.ts';
import { hasPdftotext, pageTexts } from '../documents/pdf-text.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';
import { type RetestWorld, retestWorld } from './retest-world.ts';

const REFEREE = {
  askWithinDays: '10',
  keptDays: '60',
  referee: 'Bell Reach Referees',
  testWithinDays: '14',
  ifNoReferee: 'mean-of-others',
  fee: 'asker-unless-moved',
  measures: {
    starch: { method: 'referee-stands', tolerance: '1.0' },
    weight: { method: 'second-scale' },
  },
};
const LOADS = { T1: '60', T2: '40' };

let record: TestRecord;
let fonts: Awaited<ReturnType<typeof readFonts>>;
beforeAll(async () => {
  fonts = await readFonts();
  record = await openTestRecord();
});
afterAll(() => record.close());

/** What both parties print, which must be the same; its text without blanks, or empty where that cannot be read. */
async function paperOf({ seller, buyer }: RetestWorld, retestId: string) {
  const [one, other] = [
    await printRetest(seller, { retestId, fonts }),
    await printRetest(buyer, { retestId, fonts }),
  ];
  expect(Buffer.from(one.bytes).equals(Buffer.from(other.bytes))).toBe(true);
  expect(one.name).toBe(other.name);
  return { ...one, text: hasPdftotext ? squeezed(pageTexts(one.bytes).join(' ')) : '' };
}

function expectSaid(text: string, wanted: readonly string[]): void {
  if (!hasPdftotext) return;
  for (const sentence of wanted) expect(text).toContain(squeezed(sentence));
}

/** A question of the buyer about starch, which it makes 52.0. */
async function askedWorld(loads: Readonly<Record<string, string>> = LOADS) {
  const world = await retestWorld(record, { retest: REFEREE });
  const { sampleId, parts } = await world.deliver({ sample: 'S1', loads });
  await world.invoice();
  world.at('2026-10-05');
  const { retestIds } = await askRetest(world.buyer, {
    agreementId: world.agreementId,
    about: 'starch',
    claims: { [sampleId]: '52.0' },
    reason: 'Our own test',
  });
  return { world, parts, retestId: retestIds[0] ?? '' };
}

describe('a question about starch', () => {
  test('prints while it is open, the same on a later day, and once it is decided', async () => {
    const { world, parts, retestId } = await askedWorld();
    await handOver(world.seller, {
      partId: parts['referee'] ?? '',
      handover: {
        handed_at: '2026-10-05T19:15:00Z',
        to_whom: 'Marrow Creek Courier',
        kept_where: 'cool box',
        seal_intact: 'yes',
      },
    });
    const open = await paperOf(world, retestId);
    expect(open.name).toBe('Retest-Starch-S1-2026-10-05');
    expectSaid(open.text, [
      'This question is',
      'Open',
      'to be reported by 2026-10-19: The referee, Bell Reach Referees, tests its sealed part.',
      '2026-10-05 13:15 Marrow Creek Courier cool box',
      'Where the referee does not report in time, the mean of the figures that it was to judge counts.',
      'USD 100.00 of invoices is held for this question',
    ]);
    world.at('2026-10-08');
    const later = await paperOf(world, retestId);
    expect(Buffer.from(later.bytes).equals(Buffer.from(open.bytes))).toBe(true);
    const figure = { tester: 'referee', value: '52.40', part: parts['referee'] ?? '', method: 'enzymatic' };
    const { figureId } = await world.report(world.buyer, { retestId, figure });
    expectSaid((await paperOf(world, retestId)).text, [
      'Reported already: 52.40 by Bell Reach Referees',
      'the rule takes it in from 2026-10-14 on.',
    ]);
    await answerFigure(world.seller, { figureId: figureId ?? '', answer: 'confirm' });
    const { text } = await paperOf(world, retestId);
    expectSaid(text, [
      'Decided by the agreed rule: 52.40 % of dry matter counts in place of 54.0.',
      'owes Quillback Acres',
      'USD 80.00 less for the feed.',
      'The tests cost USD 45.00; Quillback Acres',
      'Credit note 2',
      'Credit note 3',
      'All 2 loads 2,700.00 2,620.00 80.00 less',
    ]);
  });

  test('prints with thirty loads of one sample, and withdrawn', async () => {
    const loads = Object.fromEntries(Array.from({ length: 30 }, (_, index) => [`T${index + 1}`, '4']));
    const { world, parts, retestId } = await askedWorld(loads);
    world.at('2026-10-06');
    const figure = { tester: 'referee', value: '53.5', part: parts['referee'] ?? '' };
    await world.report(world.buyer, { retestId, figure });
    const reason = 'It is not worth a quarrel';
    const { proposalId } = await proposeEnding(world.buyer, {
      retestId,
      ending: 'withdraw',
      bearer: 'buyer',
      reason,
    });
    expectSaid((await paperOf(world, retestId)).text, [
      'A proposal of Tarn Hollow Dairy',
      'This is not answered yet.',
    ]);
    await answerEnding(world.seller, { proposalId: proposalId ?? '', answer: 'confirmed' });
    const ended = await paperOf(world, retestId);
    expectSaid(ended.text, [
      'Withdrawn: 54.0 % of dry matter, as first reported, stands.',
      'had not answered when the question ended.',
      'The tests cost USD 45.00; Tarn Hollow Dairy',
      'No note or invoice followed from it.',
      'All 30 loads 3,240.00 3,240.00 the same',
    ]);
    // A figure that nobody had answered by then is not taken in afterwards.
    world.at('2026-10-20');
    const later = await paperOf(world, retestId);
    expect(Buffer.from(later.bytes).equals(Buffer.from(ended.bytes))).toBe(true);
  });
});

describe('a question about a weight', () => {
  test('prints both weighings with their scales, and how far they may lie apart', async () => {
    const world = await retestWorld(record, { retest: REFEREE });
    const described = {
      place: 'North gate',
      unit: 'lb',
      capacity: '120000',
      division: '20',
      accuracy_class: 'III L',
      legal_for_trade: 'yes',
    };
    const scaleOf = async (context: Context, name: string) =>
      (await recordScale(context, { scale: { ...described, name } })).scaleId;
    const own = await scaleOf(world.seller, 'Yard scale');
    const second = await scaleOf(world.buyer, 'Ferry Road scale');
    const { loadIds } = await world.deliver({ sample: 'S1', loads: { T1: '24' }, scale: own });
    world.at('2026-10-03');
    const { retestIds } = await askRetest(world.buyer, {
      agreementId: world.agreementId,
      about: 'weight',
      claims: { [loadIds[0] ?? '']: '46000' },
      reason: 'The bunker holds less',
    });
    const retestId = retestIds[0] ?? '';
    world.at('2026-10-04');
    const figure = { tester: 'second-scale', scale: second, gross: '77000', tare: '30000', tested_by: '' };
    const { figureId } = await world.report(world.buyer, { retestId, figure });
    await answerFigure(world.seller, { figureId: figureId ?? '', answer: 'confirm' });
    const { text, name } = await paperOf(world, retestId);
    expect(name).toBe('Retest-Net-weight-T1-2026-10-03');
    expectSaid(text, [
      'Ticket T1 78,000 30,000 48,000 lb',
      'Gross and tare on Yard scale (class III L, division 20 lb, legal for trade, no certificate recorded).',
      'Ferry Road scale 77,000 30,000 47,000 lb',
      // 78,000 and 77,000 lb may be off by 160 each, 30,000 lb by 60 on either scale.
      'The two net weights lie 1,000 lb apart. The second counts only if they lie more than 440 lb apart.',
      'first gross 160 lb, second gross 160 lb, first tare 60 lb, second tare 60 lb.',
      'Decided by the agreed rule: 47,000 lb counts in place of 48,000 lb.',
    ]);
  });
});

test('an adviser, a stranger and a guess get a refusal', async () => {
  const { world, retestId } = await askedWorld();
  const { tools } = record;
  const as = async (name: string): Promise<Context> => ({
    ...tools,
    now: world.buyer.now,
    caller: await newParty(tools, name),
  });
  const practice = await as('Row and Husk Advice');
  await acceptShare(practice, await askAdviser(world.buyer, { agreementId: world.agreementId }));
  expect(await refused(printRetest(practice, { retestId, fonts }))).toBe('not-found');
  expect(await refused(printRetest(await as('Sorrel Bend Dairy'), { retestId, fonts }))).toBe('not-found');
  expect(await refused(printRetest(world.buyer, { retestId: 'S1', fonts }))).toBe('not-found');
});
