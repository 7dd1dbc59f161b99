/**
 * The season of demo/paid-by-week read whole, on the last day of its story, by sums that are worked out here from the season's
 * files and its story; then the same beside an earlier season, and as an adviser sees it.
 */
import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asOn, type PlayedStory, playStory } from '../../demo/play-story.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { readSeasonPage } from '../../src/usecases/season/read-season-page.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { HELD, OPEN } from '../oracle/paid-by-week.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';

const FOLDER = 'demo/paid-by-week';
const PARTIES = { seller: 'Quillback Acres', buyer: 'Tarn Hollow Dairy' } as const;

let record: TestRecord;
let callers: Readonly<Record<'seller' | 'buyer', Caller>>;
let played: PlayedStory;
beforeAll(async () => {
  record = await openTestRecord();
  callers = {
    seller: await newParty(record.tools, PARTIES.seller),
    buyer: await newParty(record.tools, PARTIES.buyer),
  };
  played = await playStory(record.tools, { folder: FOLDER, ...callers });
}, 120_000);
afterAll(() => record.close());

const at = (caller: Caller): Context => asOn(record.tools, caller, { day: played.to, nth: 1000 });
const read = (side: 'seller' | 'buyer') =>
  readSeasonPage(at(callers[side]), { agreementId: played.agreementId, locale: 'en-US' });

/** n ÷ d to so many decimals, a half away from zero, with thousands marked. Figures above zero only. */
function shown(n: bigint, d: bigint, places: number): string {
  const scaled = (2n * n * 10n ** BigInt(places) + d) / (2n * d);
  const digits = scaled.toString().padStart(places + 1, '0');
  const end = digits.length - places;
  return `${digits.slice(0, end).replace(/\B(?=(\d{3})+$)/g, ',')}.${digits.slice(end)}`;
}

/** Net pounds, dry matter in tenths of a percent as the agreement rounds it, starch in tenths of a percent of it. */
const SETTLED: readonly (readonly [bigint, bigint, bigint])[] = [
  [78_420n - 30_460n, 718n, 712n],
  [79_180n - 31_020n, 718n, 712n],
  [77_900n - 30_480n, 724n, 716n],
  [78_660n - 30_980n, 724n, 716n],
  [79_040n - 30_440n, 710n, 710n],
  [78_240n - 31_040n, 731n, 719n],
  [78_960n - 30_420n, 726n, 714n],
  [77_820n - 30_960n, 726n, 714n],
  [79_300n - 30_480n, 712n, 711n],
  [78_580n - 31_000n, 712n, 711n],
  [78_740n - 30_440n, 736n, 720n],
  // 712, with the tare that both agreed on.
  [79_620n - 31_020n, 736n, 720n],
  [78_060n - 30_500n, 720n, 715n],
  [78_900n - 30_460n, 695n, 706n],
  [78_340n - 30_980n, 729n, 717n],
  [79_120n - 30_420n, 718n, 713n],
  [77_960n - 31_020n, 682n, 702n],
  [78_480n - 30_480n, 723n, 716n],
  [79_060n - 30_440n, 731n, 718n],
];
// demo/expected/paid-by-week.csv sums to 56,281.86; 712 came to 3,086.11 there and comes to 3,023.90 since: 755.91 bushels at
// 4.10 are 3,099.23, less 24.3 short tons at 3.10, 75.33.
const VALUE = 5_621_965n;

describe('the season of one agreement', () => {
  test('by weeks, Monday to Sunday, one with nothing passed over', async () => {
    const { season } = await read('seller');
    expect(
      season.weeks.map(({ monday, nth, loads, value, unsettledLoads }) => [
        monday,
        nth,
        loads,
        value,
        unsettledLoads,
      ]),
    ).toEqual([
      // 2,989.32 + 3,001.81 + 2,959.22 + 2,975.45 + 3,009.23 + 3,011.14
      ['2026-09-07', 1, 6, '17,946.17', 0],
      // 3,022.80 + 2,918.16 + 2,987.49 + 2,911.59
      ['2026-09-14', 2, 4, '11,840.04', 0],
      // 3,005.21 + 3,023.90 + 2,900.48
      ['2026-09-21', 3, 3, '8,929.59', 0],
      // 2,834.75 + 2,939.92
      ['2026-09-28', 4, 2, '5,774.67', 0],
      // 3,013.28 + 2,734.80
      ['2026-10-05', 5, 2, '5,748.08', 0],
      ['2026-10-12', 6, 1, '2,954.50', 0],
      ['2026-10-26', 8, 4, '3,026.60', 3],
    ]);
    expect(season.sums).toMatchObject({ loads: 22, value: '56,219.65', unsettledLoads: 3, untestedLoads: 2 });
    // 720 to 722 weigh 47,620, 48,420 and 47,220 lb.
    const wet = SETTLED.reduce((sum, [net]) => sum + net, 47_620n + 48_420n + 47_220n);
    expect(season.sums.wetTons).toBe(shown(wet, 2_000n, 2));
  });

  test('by what was paid for dry matter and for starch in the loads that have settled', async () => {
    const { season, ton, weight } = await read('buyer');
    expect([ton, weight]).toEqual(['short-ton', 'lb']);
    // Dry pounds by 1,000, and starch pounds by 1,000,000.
    const dry = SETTLED.reduce((sum, [net, share]) => sum + net * share, 0n);
    const starch = SETTLED.reduce((sum, [net, share, of]) => sum + net * share * of, 0n);
    expect(season.dryMatter).toMatchObject({ loads: 19, leftOut: 0, value: '56,219.65' });
    expect(season.dryMatter.perTon).toBe(shown(VALUE * 1_000n * 2_000n, dry * 100n, 2));
    expect(season.dryMatter.tons).toBe(shown(dry, 1_000n * 2_000n, 2));
    expect(season.starch).toMatchObject({ loads: 19, leftOut: 0 });
    expect(season.starch.perWeight).toBe(shown(VALUE * 1_000_000n, starch * 100n, 4));
    expect(season.starch.perTon).toBe(shown(VALUE * 1_000_000n * 2_000n, starch * 100n, 2));
  });

  test('with the tests by day and by truck', async () => {
    const { season } = await read('seller');
    expect([season.others, season.truckless]).toEqual(['truck', 0]);
    expect(season.measures.map(({ name }) => name)).toEqual(['dry matter', 'starch', 'crude protein']);
    const starch = season.measures[1];
    // Fourteen days of delivery have a result; 11 September has two, H-03 and H-04.
    expect(starch?.days).toHaveLength(14);
    // 48,600 × 71.0 % at 71.0 and 47,200 × 73.1 % at 71.9.
    const [one, other] = [48_600n * 710n, 47_200n * 731n];
    expect(starch?.days.find(({ of }) => of === '2026-09-11')).toMatchObject({
      loads: 2,
      results: 2,
      least: '71.00',
      median: '71.45',
      greatest: '71.90',
      mean: shown(one * 710n + other * 719n, (one + other) * 10n, 2),
    });
    expect(starch?.others.map(({ of, loads }) => [of, loads])).toEqual([
      ['T-1', 11],
      ['T-2', 9],
    ]);
  });

  test('with the days until price, invoice and money', async () => {
    const { season } = await read('seller');
    // 703, 704 and 719 waited 2 days; 701, 702, 705, 706 3; 709, 710, 713 4; 715, 717, 718 5; and 707, 708, 711, 712, 714
    // and 716 6: the tenth of 19 is 4. The correction of 712 is no first price.
    expect(season.settlement).toMatchObject({ loads: 19, median: '4', longest: 6, longestTicket: '707' });
    // 705, 706 3 days; 709, 710, 713 4; 703, 704, 715, 717, 718 5; eight others 6: the ninth and tenth of 18 are 5.
    expect(season.money?.invoice).toMatchObject({ loads: 18, median: '5', longest: 6, longestTicket: '701' });
    expect(season.money?.notInvoiced).toBe(1);
    // 3,491.61 on the day itself; 14,069.82 for invoice 2 after 6 to 9 days; 8,718.09 for invoice 4, of 713 after 9 days and
    // of 711 and 712 after 11; 1,000.00 set off after 15 and 16; 5,694.48 after 19 and 20; 11,678.22 for invoice 3 after 28
    // and 30, since the first check came back. 44,652.22 in all, of which half is 22,326.11. By the ninth day there are
    // 17,561.43 and less than a third and a half of 8,718.09; with the eleventh all of it: 26,279.52.
    expect(season.money).toMatchObject({ paid: '44,652.22', median: 11, longest: 30 });
    // Of what is open at the end, interest is no feed and what is on account no document.
    const open = OPEN.filter(([name]) => /^(Invoice|Advance)/.test(name)).reduce(
      (sum, [, , left]) => sum + left,
      0n,
    );
    expect(season.money?.unpaid).toEqual({
      documents: 3,
      open: shown(open, 100n, 2),
      held: shown(HELD, 100n, 2),
    });
  });

  test('without questions, and without a season before', async () => {
    const { questions, last } = await read('buyer');
    expect(questions).toMatchObject({ asked: 0, open: 0, items: [] });
    expect(last).toBeUndefined();
  });

  test('is not there for others', async () => {
    const stranger = at(await newParty(record.tools, 'Fernway Orchards'));
    expect(
      await refused(readSeasonPage(stranger, { agreementId: played.agreementId, locale: 'en-US' })),
    ).toBe('not-found');
  });

  test('is seen by an adviser without money and questions', async () => {
    const practice = await newParty(record.tools, 'Row and Husk Advice');
    const link = await askAdviser(at(callers.buyer), { agreementId: played.agreementId });
    await acceptShare(at(practice), link);
    const page = await readSeasonPage(at(practice), { agreementId: played.agreementId, locale: 'en-US' });
    expect(page.side).toBe('adviser');
    expect([page.questions, page.season.money]).toEqual([undefined, undefined]);
    expect(page.season.weeks).toEqual((await read('buyer')).season.weeks);
    expect(page.season.settlement).toMatchObject({ loads: 19 });
  });
});

describe('beside the season before', () => {
  let earlierId: string;
  beforeAll(async () => {
    const document = JSON.parse(await readFile(`${FOLDER}/agreement.json`, 'utf8'));
    const context = (side: 'seller' | 'buyer', nth: number) =>
      asOn(record.tools, callers[side], { day: '2025-10-01' as PlayedStory['to'], nth });
    const seller = context('seller', 0);
    ({ agreementId: earlierId } = await recordAgreement(seller, {
      document: { ...document, id: 'A-25-004' },
      sellerId: callers.seller.partyId,
      buyerId: callers.buyer.partyId,
    }));
    const agreementId = earlierId;
    await recordQuotes(seller, {
      agreementId,
      quotes: [{ series: 'corn-mill-bid', date: '2025-09-30', price: '4.10' }],
    });
    const load = (ticket: string, gross: string) => ({
      ticket,
      delivered_at: '2025-09-30T10:00:00-06:00',
      gross,
      tare: '30000',
      unit: 'lb',
      sample: 'B-1',
    });
    await recordLoads(seller, { agreementId, loads: [load('601', '77320'), load('602', '53660')] });
    await recordResults(context('buyer', 1), {
      agreementId,
      confirmed: true,
      results: [{ sample: 'B-1', basis: 'dry-matter', dry_matter: '70.0', starch: '71.0' }],
    });
    await settleLoads(context('seller', 2), { agreementId });
  });

  test('each figure with what it differs by', async () => {
    const { last } = await read('seller');
    expect(last).toMatchObject({
      agreementId: earlierId,
      number: 'A-25-004',
      first: '2025-09-30',
      last: '2025-09-30',
    });
    const figure = (name: string) => last?.compared.find((one) => one.name === name);
    expect(figure('Loads')).toEqual({ name: 'Loads', unit: '', now: '22', before: '2', differs: '20 more' });
    // 47,320 lb at 70 % ÷ 47.32 are 700 bushels, 23,660 lb 350: at 4.00 they are 2,800.00 and 1,400.00, less 3.10 on 23.66
    // and 11.83 short tons, 73.35 and 36.67.
    expect(figure('Value of the settled loads')).toMatchObject({
      before: '4,089.98',
      now: '56,219.65',
      differs: '52,129.67 more',
      unit: 'USD',
    });
    // 70,980 lb at 70 % are 24.843 short tons: 4,089.98 ÷ 24.843 = 164.6330…
    const dryMatter = figure('Price of dry matter');
    expect(dryMatter).toMatchObject({ before: '164.63', unit: 'USD a short ton' });
    const cents = (text: string | undefined) => BigInt((text ?? '').replace('.', ''));
    const apart = cents(dryMatter?.now) - 16_463n;
    expect(dryMatter?.differs).toBe(
      `${shown(apart < 0n ? -apart : apart, 100n, 2)} ${apart < 0n ? 'less' : 'more'}`,
    );
    expect(figure('Half of the loads had a price within')).toMatchObject({
      before: '1',
      now: '4',
      differs: '3 more',
    });
    expect(figure('Half of what is paid had come within')).toMatchObject({ before: undefined, now: '11' });
    expect(last?.weeks.map(({ nth, amount }) => [nth, amount])).toEqual([[1, '4089.98']]);
  });

  test('which has none before itself', async () => {
    const page = await readSeasonPage(at(callers.seller), { agreementId: earlierId, locale: 'en-US' });
    expect(page.last).toBeUndefined();
    expect(page.season.sums).toMatchObject({ loads: 2, value: '4,089.98' });
  });
});
