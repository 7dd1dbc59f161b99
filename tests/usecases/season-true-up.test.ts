/**
 * A season priced again by its own averages, through the record: by prices, by tests, by both; what it waits for; and that
 * `verify` works every note about a season out again and names one that does not fit.
 */
import type { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { MoneyDocument } from '../../src/domain/money/money-document.ts';
import { findDocument } from '../../src/store/rows/money/document-rows.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { proposeAmendment } from '../../src/usecases/offers/propose-amendment.ts';
import { recordElections } from '../../src/usecases/prices/record-elections.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { issueSeasonRules } from '../../src/usecases/season-close/issue-season-rules.ts';
import { readSeasonRules } from '../../src/usecases/season-close/read-season-rules.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { newSigner, signNewest } from './bargain.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

/** A reference whose unit is 50 lb of dry matter: at 4.00, 10,000 lb of dry matter are 800.00. */
const CORN = {
  ...{ series: 'corn', unit: 'unit', poundsPerUnit: '50', dryMatterPercent: '100' },
  ...{ starchPercentOfDryMatter: '70', rule: { kind: 'delivery-day' } },
};
const BY_DRY_MATTER = {
  ...{ term: 'remainder', label: 'Dry matter', after: [] },
  at: { reference: 'corn', per: 'dry-matter' },
};

interface Terms {
  readonly trueUp?: object;
  readonly conditions?: object;
  readonly price?: readonly object[];
  readonly references?: object;
  readonly more?: object;
}

/**
 * T1 of 20,000 lb at 50.0 % and T2 of 30,000 lb at 60.0 % dry matter, at quotes of 4.00 and 4.50: 800.00 and 1,620.00. Quotes
 * of 4.00, 4.50 and 4.31 lie in the window; their mean is 4.27 (12.81 ÷ 3).
 */
async function season({ trueUp, conditions = {}, price, references, more = {} }: Terms): Promise<MoneyWorld> {
  const world = await moneyWorld(record, {
    conditions: {
      ...{ delivery: { to: '2026-11-22' } },
      ...(trueUp === undefined ? {} : { trueUp }),
      ...conditions,
    },
    terms: { references: references ?? { corn: CORN }, price: price ?? [BY_DRY_MATTER], ...more },
  });
  const { agreementId, seller, buyer } = world;
  const quotes = Object.entries({
    '2026-08-20': '9.99',
    '2026-09-14': '4.00',
    '2026-09-20': '4.50',
    '2026-09-25': '4.31',
    '2026-10-05': '4.80',
  }).map(([date, quoted]) => ({ series: 'corn', date, price: quoted }));
  await recordQuotes(seller, { agreementId, quotes, confirmed: true });
  const load = { tare: '30000', unit: 'lb' };
  const loads = [
    { ...load, ticket: 'T1', sample: 'S1', delivered_at: '2026-09-14T09:00:00-06:00', gross: '50000' },
    { ...load, ticket: 'T2', sample: 'S2', delivered_at: '2026-09-20T09:00:00-06:00', gross: '60000' },
  ];
  await recordLoads(seller, { agreementId, confirmed: true, loads });
  const results = [
    { sample: 'S1', basis: 'dry-matter', dry_matter: '50.0', starch: '60.0' },
    { sample: 'S2', basis: 'dry-matter', dry_matter: '60.0', starch: '70.0' },
  ];
  await recordResults(buyer, { agreementId, results, confirmed: true });
  await settleLoads(seller, { agreementId });
  return world;
}

const WINDOW = { from: '2026-09-01', to: '2026-09-30' };

async function rulesOf({ seller, agreementId }: MoneyWorld) {
  return (await readSeasonRules(seller, { agreementId, show: (figure) => figure })).rules;
}

async function documentOf({ seller }: MoneyWorld, id = ''): Promise<MoneyDocument> {
  const found = await seller.store.forParty(seller.caller.partyId, (tx) => findDocument(tx, id));
  return JSON.parse(found?.document ?? '{}');
}

async function issue({ seller, agreementId }: MoneyWorld) {
  return await issueSeasonRules(seller, { agreementId });
}

describe('priced again', () => {
  test('by the mean of quotes: a line for each load, and their sum the note', async () => {
    const world = await season({ trueUp: { prices: WINDOW } });
    const { documents } = await issue(world);
    // 10,000 lb ÷ 50 × 4.27 = 854.00; 18,000 ÷ 50 × 4.27 = 1,537.20: 54.00 more, and 82.80 less.
    expect(documents).toMatchObject([{ kind: 'credit-note', payable: '-28.80' }]);
    const document = await documentOf(world, documents[0]?.id);
    expect(document.lines).toMatchObject([
      {
        load: { ticket: 'T1', deliveredOn: '2026-09-14' },
        amount: '54.00',
        how: '854.00 again − 800.00 settled = 54.00; by corn 4.27, the mean of 3 quotes',
      },
      { load: { ticket: 'T2' }, amount: '-82.80' },
    ]);
    expect(document.period).toEqual({ from: '2026-09-14', to: '2026-09-20' });
    expect(document.reason).toBe(
      `Priced again by the season’s averages, as agreed. 2 settled loads come to 2391.20 USD in the place of 2420.00, priced again by corn 4.27, the mean of 3 quotes. ${document.seller} owes ${document.buyer} 28.80 USD.`,
    );
    expect((await issue(world)).documents).toEqual([]);
  });

  test('by the average test: dry matter by weight, starch by dry matter', async () => {
    const world = await season({ trueUp: { tests: true } });
    const { documents } = await issue(world);
    // 28,000 of 50,000 lb are 56.0 %: 11,200 lb ÷ 50 × 4.00 = 896.00, and 16,800 ÷ 50 × 4.50 = 1,512.00.
    const document = await documentOf(world, documents[0]?.id);
    expect(document.lines.map(({ amount }) => amount)).toEqual(['96.00', '-108.00']);
    // (60 × 10,000 + 70 × 18,000) ÷ 28,000 = 66.428….
    expect(document.lines[0]?.how).toBe(
      '896.00 again − 800.00 settled = 96.00; by the average test: dry matter 56, starch 66.4',
    );
    expect(documents[0]?.payable).toBe('-12.00');
  });

  test('by both at once, and basis, floor and ceiling apply to the mean', async () => {
    const world = await season({
      trueUp: { prices: WINDOW, tests: true },
      references: { corn: { ...CORN, basis: '-0.20', floor: '4.10' } },
    });
    // Settled at 4.10 (3.80 held at the floor) and 4.30; again at 4.10 (4.07 held at the floor), 56 %.
    // 11,200 ÷ 50 × 4.10 = 918.40 less 820.00; 16,800 ÷ 50 × 4.10 = 1,377.60 less 1,548.00.
    const { documents } = await issue(world);
    expect((await documentOf(world, documents[0]?.id)).lines.map(({ amount }) => amount)).toEqual([
      '98.40',
      '-170.40',
    ]);
  });

  test('leaves fixed and elected prices, hauling and each load’s weight as they are', async () => {
    const elected = { ...CORN, rule: { kind: 'seller-elects', from: '2026-09-01', to: '2026-09-30' } };
    const world = await moneyWorld(record, {
      conditions: { delivery: { to: '2026-11-22' }, trueUp: { prices: WINDOW } },
      terms: {
        references: { corn: CORN, elected, fixed: { ...CORN, rule: { kind: 'fixed', price: '1.00' } } },
        price: [
          ...['corn', 'elected', 'fixed'].map((reference) => ({
            ...{ ...BY_DRY_MATTER, label: reference },
            at: { reference, per: 'dry-matter' },
          })),
          { term: 'flat', label: 'Hauling', rate: '-4.25', per: 'short-ton', weight: 'as-fed' },
        ],
      },
    });
    const { agreementId, seller, buyer } = world;
    const dates = { '2026-09-14': '4.00', '2026-09-20': '4.50', '2026-10-01': '4.80' };
    const quotes = Object.entries(dates).map(([date, price]) => ({ series: 'corn', date, price }));
    await recordQuotes(seller, { agreementId, quotes, confirmed: true });
    const load = {
      ticket: 'T1',
      sample: 'S1',
      delivered_at: '2026-09-14T09:00:00-06:00',
      tare: '30000',
      unit: 'lb',
    };
    await recordLoads(seller, { agreementId, confirmed: true, loads: [{ ...load, gross: '50000' }] });
    const results = [{ sample: 'S1', basis: 'dry-matter', dry_matter: '50.0' }];
    await recordResults(buyer, { agreementId, results, confirmed: true });
    await recordElections(seller, {
      agreementId,
      elections: [{ ticket: 'T1', series: 'corn', date: '2026-09-20' }],
    });
    await settleLoads(seller, { agreementId });
    // Only the first reference moves, from 4.00 to 4.25: 200 × 0.25.
    expect((await issue(world)).documents).toMatchObject([{ payable: '50.00' }]);
  });

  test('a load that the buyer took outside the ranges, and an average outside of them, settle again', async () => {
    // T1 is dry enough, T2 is taken; the average, 44 % moisture, lies outside once more.
    const world = await season({
      trueUp: { tests: true },
      more: { acceptance: [{ on: 'moisture', below: '45' }] },
    });
    const { agreementId, buyer, seller } = world;
    await recordChoices(buyer, { agreementId, choices: [{ ticket: 'T2', choice: 'accept' }] });
    await settleLoads(seller, { agreementId });
    expect((await issue(world)).documents).toMatchObject([{ payable: '-12.00' }]);
  });

  test('both refused and unsettled loads stay out of it', async () => {
    const world = await season({
      trueUp: { tests: true },
      more: { acceptance: [{ on: 'moisture', below: '45' }] },
    });
    const { agreementId, buyer, seller } = world;
    const choices = [{ ticket: 'T2', choice: 'refuse', went_to: 'back' }];
    await recordChoices(buyer, { agreementId, choices });
    await settleLoads(seller, { agreementId });
    // Of one load, the average is its own.
    expect((await rulesOf(world))[0]).toMatchObject({
      told: 'One settled load comes to 800.00 USD in the place of 800.00, priced again by the average test: dry matter 50, starch 60. Nothing is owed.',
      how: [],
    });
  });
});

describe('waits, and says why', () => {
  test.each<[string, Terms, string]>([
    [
      'for a quote that closes the window',
      { trueUp: { prices: { from: '2026-09-01', to: '2026-10-06' } } },
      'the series corn ends on 2026-10-05; a quote of 2026-10-06 or later closes the days to average',
    ],
    [
      'for a quote in the window',
      { trueUp: { prices: { from: '2026-09-26', to: '2026-09-30' } } },
      'the series corn has no quote from 2026-09-26 to 2026-09-30',
    ],
  ])('%s', async (_, terms, why) => {
    const world = await season(terms);
    const { documents, waiting } = await issue(world);
    expect(documents).toEqual([]);
    expect(waiting[0]?.why).toContain(why);
    expect((await rulesOf(world))[0]?.told).toContain(`It cannot be worked out yet: ${why}`);
  });

  test('then the next quote lets it be issued', async () => {
    const world = await season({ trueUp: { prices: { from: '2026-09-01', to: '2026-10-06' } } });
    const quotes = [{ series: 'corn', date: '2026-10-07', price: '4.90' }];
    await recordQuotes(world.seller, { agreementId: world.agreementId, quotes, confirmed: true });
    // 17.61 ÷ 4 = 4.4025: 880.50 and 1,584.90 are 45.40 more than 2,420.00.
    expect((await issue(world)).documents).toMatchObject([{ kind: 'debit-note', payable: '45.40' }]);
  });
});

const TERMS = {
  ...{ format: 'huskledger-agreement/1', feed: 'whole-ear-corn', currency: 'USD', timeZone: 'America/Boise' },
  references: { corn: CORN },
};

/** T1 under one price, and T2, from the 20th on, under another with the rule; both signed. */
async function twoVersions(
  first: object,
  second: object,
  figures: readonly object[] = [],
): Promise<MoneyWorld> {
  const [one, other] = [
    await newSigner(record.tools, 'Hollow Fen Farm'),
    await newSigner(record.tools, 'Sorrel Bend Dairy'),
  ];
  const parties = { seller: one.caller, buyer: other.caller };
  const world = await moneyWorld(record, {
    parties,
    terms: { references: TERMS.references, price: [first] },
  });
  const { agreementId, seller, buyer } = world;
  const quotes = Object.entries({ '2026-09-14': '4.00', '2026-09-20': '4.50' }).map(([date, price]) => ({
    ...{ series: 'corn', date, price },
  }));
  await recordQuotes(seller, { agreementId, quotes, confirmed: true });
  const load = { tare: '30000', unit: 'lb' };
  const deliver = async (ticket: string, day: string, gross: string, tested: object) => {
    const loads = [{ ...load, ticket, sample: ticket, delivered_at: `${day}T09:00:00-06:00`, gross }];
    await recordLoads(seller, { agreementId, confirmed: true, loads });
    const results = [{ sample: ticket, basis: 'dry-matter', ...tested }];
    await recordResults(buyer, { agreementId, results, confirmed: true });
    await settleLoads(seller, { agreementId });
  };
  await deliver('T1', '2026-09-14', '50000', { dry_matter: '50.0', ...figures[0] });
  const conditions = { trueUp: { tests: true } };
  const { offerId } = await proposeAmendment(seller, {
    ...{ agreementId, validDays: '10', effectiveFrom: '2026-09-20' },
    document: { ...TERMS, price: [second], conditions },
  });
  await signNewest(buyer, offerId, 'Sorrel Bend Dairy');
  await signNewest(seller, offerId, 'Hollow Fen Farm');
  await deliver('T2', '2026-09-20', '60000', { dry_matter: '60.0', ...figures[1] });
  return world;
}

describe('two versions', () => {
  test('the rule of the newest prices each load by its own version', async () => {
    const { agreementId, seller } = await twoVersions(BY_DRY_MATTER, {
      ...BY_DRY_MATTER,
      sharePercent: '50',
    });
    const { documents } = await issueSeasonRules(seller, { agreementId, noMoreLoads: true });
    // T1 at all of 4.00: 96.00 more; T2 at half of 4.50: 756.00 less 810.00.
    expect(documents).toMatchObject([{ kind: 'debit-note', payable: '42.00' }]);
  });

  test('a load that the average takes out of its table lets all of them wait', async () => {
    const table = (dry: string, wet: string) => ({
      ...{ term: 'equivalent-bushels', label: 'Bushels', at: { reference: 'corn' } },
      method: {
        ...{ kind: 'table', between: 'linear' },
        rows: [
          { moisture: dry, poundsPerBushel: '80' },
          { moisture: wet, poundsPerBushel: '82' },
        ],
      },
    });
    // 50 % and 40 % moisture; their average of 44 % is in neither table.
    const world = await twoVersions(table('49', '51'), table('39', '41'));
    const { agreementId, seller } = world;
    const { documents, waiting } = await issueSeasonRules(seller, { agreementId, noMoreLoads: true });
    expect(documents).toEqual([]);
    expect(waiting).toMatchObject([{ rule: 'true-up', why: expect.stringMatching(/^load T1: .*table/) }]);
    expect((await rulesOf(world))[0]).toMatchObject({ waits: true, left: '0.00' });
  });
});

test('averages that leave less than nothing of the dry matter let all of them wait', async () => {
  const starch = { ...BY_DRY_MATTER, term: 'constituent', of: 'starch', label: 'Starch' };
  const { after: _, ...first } = starch;
  // 90 and 40 % starch are 57.9 % of all dry matter; the 50 % NDF of T2 are the only ones.
  const world = await twoVersions(first, { ...BY_DRY_MATTER, label: 'Rest', after: ['starch', 'ndf'] }, [
    { starch: '90.0' },
    { starch: '40.0', ndf: '50.0' },
  ]);
  const { agreementId, seller } = world;
  const { documents, waiting } = await issueSeasonRules(seller, { agreementId, noMoreLoads: true });
  expect(documents).toEqual([]);
  expect(waiting[0]?.why).toBe(
    'the season’s average test leaves -7.9 % of the dry matter for "Rest", after starch and ndf; less than nothing cannot be left',
  );
});

describe('verify', () => {
  const VOLUME = { amount: '50', unit: 'short-ton', weight: 'as-fed' };
  const SHORT = { shortfall: { owedBy: 'seller', from: 'range', percentOfAverage: '10' } };
  let client: Client;
  beforeAll(async () => {
    client = await record.superuser();
  });
  afterAll(() => client.end());

  async function messages(agreementId: string): Promise<string[]> {
    return (await verifyRecord(record.tools, { agreementId })).faults.map(
      ({ row, message }) => `${row} ${message}`,
    );
  }

  /** As the tables' owner, with the triggers off; and back again. */
  async function tampered(agreementId: string, change: { table: string; set: string; which?: string }) {
    const { table, set, which = '' } = change;
    await client.query(`ALTER TABLE ${table} DISABLE TRIGGER ALL`);
    await client.query(
      `CREATE TABLE kept AS SELECT * FROM ${table} WHERE agreement_id = '${agreementId}' ${which}`,
    );
    await client.query(`UPDATE ${table} SET ${set} WHERE agreement_id = '${agreementId}' ${which}`);
    const found = await messages(agreementId);
    await client.query(`DELETE FROM ${table} WHERE id IN (SELECT id FROM kept)`);
    await client.query(`INSERT INTO ${table} SELECT * FROM kept`);
    await client.query('DROP TABLE kept');
    await client.query(`ALTER TABLE ${table} ENABLE TRIGGER ALL`);
    return found;
  }

  test('is clean, and names a note whose sum is another than its rule’s', async () => {
    const world = await season({
      trueUp: { prices: WINDOW },
      conditions: { volume: { ...VOLUME, ...SHORT } },
    });
    const { agreementId } = world;
    const { documents } = await issue(world);
    // 25 tons short at a tenth of 2,420.00 ÷ 25.
    expect(documents.map(({ payable }) => payable)).toEqual(['-242.00', '-28.80']);
    expect(await messages(agreementId)).toEqual([]);
    const [short, trueUp] = documents.map(({ id }) => id);
    const which = `AND id = '${trueUp}'`;
    expect(
      await tampered(agreementId, { table: 'money_document', set: 'payable = -28.70', which }),
    ).toContain(
      `money_document ${trueUp} is the last note by the rule true-up, whose notes come to -28.70; by what is recorded it comes to -28.80`,
    );
    // Somebody changes what both rest on: each is named.
    const change = { table: 'quote', set: 'price = 4.34', which: `AND price = 4.31` };
    const odd = (await tampered(agreementId, change)).filter((fault) => fault.startsWith('money_document'));
    expect(odd).toEqual([
      expect.stringContaining('notes come to -28.80; by what is recorded it comes to -23.20'),
    ]);
    const gone = { table: 'money_document', set: `season_rule = 'surplus'`, which: `AND id = '${short}'` };
    expect((await tampered(agreementId, gone)).join('; ')).toContain(
      `money_document ${short} is the last note by the rule surplus, whose notes come to -242.00; by what is recorded it comes to 0.00`,
    );
    expect(await messages(agreementId)).toEqual([]);
  });

  test('takes no note for wrong that something was recorded after', async () => {
    const world = await season({ trueUp: { prices: WINDOW } });
    const { agreementId, seller } = world;
    await issue(world);
    const quotes = [{ series: 'corn', date: '2026-09-28', price: '4.90' }];
    await recordQuotes(seller, { agreementId, quotes, confirmed: true });
    expect((await rulesOf(world))[0]).toMatchObject({ left: '88.20' });
    expect(await messages(agreementId)).toEqual([]);
    // The next note holds again.
    expect((await issue(world)).documents).toMatchObject([{ payable: '88.20' }]);
    const newest = `AND payable = 88.20`;
    const faults = await tampered(agreementId, {
      table: 'money_document',
      set: 'payable = 88.10',
      which: newest,
    });
    expect(faults.join('; ')).toContain('whose notes come to 59.30; by what is recorded it comes to 59.40');
  });

  test('holds a sealed season to what was not carried over', async () => {
    const world = await season({ conditions: { volume: { ...VOLUME, ...SHORT } } });
    const { agreementId, seller, buyer } = world;
    await issue(world);
    await world.invoice();
    const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
    await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
    expect(await messages(agreementId)).toEqual([]);
    const gone = { table: 'money_document', set: 'season_rule = NULL', which: 'AND season_rule IS NOT NULL' };
    expect((await tampered(agreementId, gone)).join('; ')).toContain(
      'season rule shortfall is signed as issued; its notes come to 0.00, and by what is recorded it comes to -242.00',
    );
  });
});
