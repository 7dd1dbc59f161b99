/**
 * What was agreed on for a season as a whole, worked out and put on notes: tons short of the volume and beyond it, who issues
 * and when, the difference that a late load makes, and what closing a season says of it.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Conditions } from '../../src/domain/agreement/conditions.ts';
import type { MoneyDocument } from '../../src/domain/money/money-document.ts';
import { printUnits } from '../../src/domain/numbers/printing.ts';
import { closingStatementShape } from '../../src/domain/season-close/closing-statement.ts';
import { pointInWords } from '../../src/domain/season-close/open-points.ts';
import { readFonts } from '../../src/files/read-fonts.ts';
import { findDocument } from '../../src/store/rows/money/document-rows.ts';
import type { Context } from '../../src/usecases/context.ts';
import { voidLoad } from '../../src/usecases/loads/correct-load.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { chargeInterest } from '../../src/usecases/money/charge-interest.ts';
import { exportJournal } from '../../src/usecases/money/export-journal.ts';
import { printDocument, writeDocumentXml } from '../../src/usecases/money/print-money.ts';
import { readStatements } from '../../src/usecases/money/read-statement.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { readSeasonPage } from '../../src/usecases/season/read-season-page.ts';
import { adjustmentPoints } from '../../src/usecases/season-close/adjustments.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { exportSeason } from '../../src/usecases/season-close/export-season.ts';
import { issueSeasonRules } from '../../src/usecases/season-close/issue-season-rules.ts';
import { printClose } from '../../src/usecases/season-close/print-close.ts';
import { readClose } from '../../src/usecases/season-close/read-close.ts';
import { readSeasonRules } from '../../src/usecases/season-close/read-season-rules.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { squeezed } from '../documents/agreement-text.ts';
import { brokenRules } from '../documents/e-invoice/en16931-rules.ts';
import { hasPdftotext, pageTexts } from '../documents/pdf-text.ts';
import { readXml } from '../documents/xml-reader.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { newSigner, postedLot, signNewest } from './bargain.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let fonts: Awaited<ReturnType<typeof readFonts>>;
beforeAll(async () => {
  fonts = await readFonts();
  record = await openTestRecord();
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

type Volume = NonNullable<Conditions['volume']>;
const SHORT: Volume['shortfall'] = { owedBy: 'seller', from: 'range', rate: '12' };

/** 22 short tons for 2,200.00 under a volume of 30 within 10 %, with deliveries over since the 22nd. */
async function season(
  rules: Partial<Volume>,
  { more = {}, loads = { T1: '10', T2: '12' } }: { more?: object; loads?: Record<string, string> } = {},
): Promise<MoneyWorld> {
  const volume = { amount: '30', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10', ...rules };
  const conditions = { volume, delivery: { to: '2026-11-22' }, ...more };
  const world = await moneyWorld(record, { conditions });
  if (Object.keys(loads).length > 0) await world.deliver(loads, '2026-11-20');
  return world;
}

async function issued(world: MoneyWorld) {
  const { documents } = await issueSeasonRules(world.seller, { agreementId: world.agreementId });
  return documents.map(({ kind, payable }) => [kind, payable]);
}

async function documentOf({ seller }: MoneyWorld, id: string): Promise<MoneyDocument> {
  const found = await seller.store.forParty(seller.caller.partyId, (tx) => findDocument(tx, id));
  return JSON.parse(found?.document ?? '{}');
}

async function standing({ seller, agreementId }: Pick<MoneyWorld, 'seller' | 'agreementId'>) {
  const { rules } = await readSeasonRules(seller, { agreementId, show: (figure) => figure });
  return rules;
}

const plain = { show: (figure: string) => figure };

describe('less than agreed', () => {
  test('is owed by the seller, on a credit note that says how', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller, buyer } = world;
    const { documents } = await issueSeasonRules(seller, { agreementId });
    // 27 − 22 = 5 short of the range, at 12.00.
    expect(documents).toMatchObject([{ kind: 'credit-note', payable: '-60.00' }]);
    const document = await documentOf(world, documents[0]?.id ?? '');
    expect(document).toMatchObject({
      corrects: [],
      period: { from: '2026-11-20', to: '2026-11-20' },
      reason: `Short of the agreed volume, as agreed. 22 short tons as-fed are delivered, less than 27: 5 are missing. ${document.seller} owes ${document.buyer} 60.00 USD.`,
      lines: [
        {
          load: null,
          label: 'Short of the agreed volume',
          ...{ quantity: '5', unit: 'short-ton', rate: '-12', amount: '-60.00' },
          how: 'range from 27 − delivered 22 = 5 short-ton; × −12 = −60 → −60.00 USD',
        },
      ],
      totals: { goods: '-60.00', payable: '-60.00' },
    });
    // It lowers no document: it is on account, and both read the same.
    const [statement] = await readStatements(buyer, { agreementId, from: '2026-11-01', to: '2026-11-30' });
    expect(statement?.closing).toBe('60.00');
    expect(await issued(world)).toEqual([]);
  });

  test('is owed by the buyer on a debit note, from the amount as from the range', async () => {
    const world = await season({ shortfall: { owedBy: 'buyer', from: 'amount', rate: '12' } });
    expect(await issued(world)).toEqual([['debit-note', '96.00']]);
  });

  test('by a share of the season’s average', async () => {
    // 2,200.00 ÷ 22 = 100.00 a ton; 5 % of it for 5 tons.
    const world = await season({ shortfall: { owedBy: 'seller', from: 'range', percentOfAverage: '5' } });
    expect(await issued(world)).toEqual([['credit-note', '-25.00']]);
  });

  test('waits for an average where nothing has settled', async () => {
    const world = await season(
      { shortfall: { owedBy: 'seller', from: 'range', percentOfAverage: '5' } },
      { loads: {} },
    );
    const { agreementId, seller } = world;
    const why = 'no load has settled, so that the season’s average price is not known';
    expect(await issueSeasonRules(seller, { agreementId })).toEqual({
      documents: [],
      waiting: [{ rule: 'shortfall', why }],
    });
    const { points } = await readClose(seller, { agreementId });
    expect(points).toEqual([{ kind: 'adjustment', count: 1, amount: null, why }]);
    await expect(
      proposeClose(seller, { agreementId, carriesOver: false, name: 'Wren Alder' }),
    ).rejects.toThrow(`One agreed rule for the season cannot be worked out yet: ${why}. Settle that first`);
  });

  test('nothing came at all: all of the range is short, and the note has no days', async () => {
    const world = await season({ shortfall: SHORT }, { loads: {} });
    const { agreementId, seller } = world;
    const { documents } = await issueSeasonRules(seller, { agreementId });
    expect(documents).toMatchObject([{ payable: '-324.00' }]);
    expect(await documentOf(world, documents[0]?.id ?? '')).toMatchObject({ period: null });
  });

  test('a load that has not settled counts by its weight as delivered, and not by a dry matter that nobody knows', async () => {
    const wet = await season({ shortfall: SHORT });
    const dry = await season({ weight: 'dry-matter', shortfall: SHORT });
    for (const { seller, agreementId } of [wet, dry]) {
      const load = { delivered_at: '2026-11-21T09:00:00-07:00', gross: '38000', tare: '30000', unit: 'lb' };
      await recordLoads(seller, { agreementId, confirmed: true, loads: [{ ...load, ticket: 'T3' }] });
    }
    // 27 − 26 = 1 ton.
    expect((await standing(wet))[0]).toMatchObject({ left: '-12.00' });
    expect((await standing(dry))[0]).toMatchObject({
      left: '-324.00',
      told: expect.stringContaining('3 loads whose dry matter is not known are not counted.'),
    });
  });
});

test('an average of dry matter is over the settled loads whose dry matter is known', async () => {
  const world = await season(
    { weight: 'dry-matter', shortfall: { owedBy: 'seller', from: 'range', percentOfAverage: '10' } },
    { loads: { T2: '12' } },
  );
  const { agreementId, seller, buyer } = world;
  const load = { ticket: 'T1', sample: 'S1', delivered_at: '2026-11-20T09:00:00-07:00' };
  const loads = [{ ...load, gross: '50000', tare: '30000', unit: 'lb' }];
  await recordLoads(seller, { agreementId, confirmed: true, loads });
  const results = [{ sample: 'S1', basis: 'dry-matter', dry_matter: '50.0' }];
  await recordResults(buyer, { agreementId, results, confirmed: true });
  await settleLoads(seller, { agreementId });
  // 1,000.00 for 5 dry tons are 200.00 each: 27 − 5 = 22 at 20.00. The 1,200.00 of T2 are for nobody knows how many.
  expect(await issued(world)).toEqual([['credit-note', '-440.00']]);
});

describe('more than agreed', () => {
  // 22 of 15 within 10 %: 16.5 is the most, and 5.5 tons are over.
  const over = (surplus: Volume['surplus']) => season({ amount: '15', surplus });

  test.each<[string, NonNullable<Volume['surplus']>, [string, string]]>([
    ['a rate is taken off', { from: 'range', rate: '3' }, ['credit-note', '-16.50']],
    ['the same from the amount', { from: 'amount', rate: '3' }, ['credit-note', '-21.00']],
    [
      'a share of the average is taken off',
      { from: 'range', percentOfAverage: '2.5' },
      ['credit-note', '-13.75'],
    ],
    ['a lower price', { from: 'range', price: '58' }, ['credit-note', '-231.00']],
    ['a higher price', { from: 'amount', price: '104.01' }, ['debit-note', '28.07']],
  ])('%s', async (_, surplus, note) => {
    expect(await issued(await over(surplus))).toEqual([note]);
  });

  test('within the range nothing is issued', async () => {
    const world = await season({ amount: '20', shortfall: SHORT, surplus: { from: 'amount', rate: '3' } });
    expect(await issued(world)).toEqual([]);
    expect((await standing(world)).map(({ told }) => told)).toEqual([
      '22 short tons as-fed are delivered, not less than 18. Nothing is owed.',
      '22 short tons as-fed are delivered, not more than 22. Nothing is owed.',
    ]);
  });
});

describe('who, and when', () => {
  test('the side that issues invoices, its office alone, and parties alone', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller, buyer } = world;
    expect(await refused(issueSeasonRules(buyer, { agreementId }))).toBe('not-yours');
    const clerk: Context = { ...seller, caller: { ...seller.caller, role: 'scale-operator' } };
    expect(await refused(issueSeasonRules(clerk, { agreementId }))).toBe('not-allowed');
    const stranger: Context = { ...seller, caller: await newParty(record.tools, 'Fernway Orchards') };
    expect(await refused(issueSeasonRules(stranger, { agreementId }))).toBe('not-found');
    expect(await refused(readSeasonRules(stranger, { agreementId, ...plain }))).toBe('not-found');
    const self = await season({ shortfall: SHORT }, { more: { payment: { issuedBy: 'buyer' } } });
    expect(await refused(issueSeasonRules(self.seller, { agreementId: self.agreementId }))).toBe('not-yours');
    const { documents } = await issueSeasonRules(self.buyer, { agreementId: self.agreementId });
    expect(documents).toMatchObject([{ payable: '-60.00' }]);
  });

  test('not while loads may still come', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller } = world;
    world.on('2026-11-22');
    expect(await refused(issueSeasonRules(seller, { agreementId }))).toBe('not-ready');
    world.on('2026-11-23');
    expect(await issued(world)).toEqual([['credit-note', '-60.00']]);
  });

  test('where no last day is agreed, the issuer says that no more come', async () => {
    const world = await season({ shortfall: SHORT }, { more: { delivery: { hauledBy: 'seller' } } });
    const { agreementId, seller } = world;
    expect(await refused(issueSeasonRules(seller, { agreementId }))).toBe('not-ready');
    const { documents } = await issueSeasonRules(seller, { agreementId, noMoreLoads: true });
    expect(documents).toMatchObject([{ payable: '-60.00' }]);
  });

  test('not where no rule is agreed on', async () => {
    const world = await season({});
    expect(await refused(issueSeasonRules(world.seller, { agreementId: world.agreementId }))).toBe(
      'not-ready',
    );
    expect(await standing(world)).toEqual([]);
    // And the closing statement says nothing of any.
    const { statement } = await readClose(world.seller, { agreementId: world.agreementId });
    expect(Object.keys(statement)).not.toContain('adjustments');
  });

  test('two at once issue one note, and a key is answered once', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller } = world;
    const both = await Promise.all([
      issueSeasonRules(seller, { agreementId }),
      issueSeasonRules(seller, { agreementId }),
    ]);
    expect(both.flatMap(({ documents }) => documents)).toHaveLength(1);
    const keyed = await season({ shortfall: SHORT });
    const ask = { agreementId: keyed.agreementId, key: 'k' };
    const first = await issueSeasonRules(keyed.seller, ask);
    expect(await issueSeasonRules(keyed.seller, ask)).toEqual(first);
    expect(first.documents).toHaveLength(1);
    expect(await refused(issueSeasonRules(keyed.seller, { ...ask, rules: ['surplus'] }))).toBe('key-reused');
  });

  test('some of the rules alone', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller } = world;
    expect((await issueSeasonRules(seller, { agreementId, rules: ['surplus'] })).documents).toEqual([]);
    expect((await issueSeasonRules(seller, { agreementId, rules: ['shortfall'] })).documents).toHaveLength(1);
  });
});

describe('a load after the note', () => {
  test('brings the difference alone, and enough of them bring all of it back', async () => {
    const world = await season({ shortfall: SHORT });
    expect(await issued(world)).toEqual([['credit-note', '-60.00']]);
    await world.deliver({ T3: '3' }, '2026-11-21');
    // 27 − 25 = 2 tons are 24.00 in all: 36.00 of the 60.00 go back.
    const { documents } = await issueSeasonRules(world.seller, { agreementId: world.agreementId });
    expect(documents).toMatchObject([{ kind: 'debit-note', payable: '36.00' }]);
    expect((await documentOf(world, documents[0]?.id ?? '')).lines).toMatchObject([
      { amount: '-24.00' },
      {
        label: 'Short of the agreed volume: issued before',
        amount: '60.00',
        how: 'less −60.00 issued before',
      },
    ]);
    // 34 tons keep the agreement, so that nothing is left of it.
    await world.deliver({ T4: '9' }, '2026-11-22');
    const [rule] = await standing(world);
    expect(rule).toMatchObject({ issued: '-24.00' });
    expect(rule?.notes).toHaveLength(2);
    expect(await issued(world)).toEqual([['debit-note', '24.00']]);
    expect((await standing(world))[0]).toMatchObject({ issued: '0.00', left: '0.00' });
  });

  test('that is void since is no delivery', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller } = world;
    const load = { delivered_at: '2026-11-21T09:00:00-07:00', gross: '38000', tare: '30000', unit: 'lb' };
    const [late] = await recordLoads(seller, {
      agreementId,
      confirmed: true,
      loads: [{ ...load, ticket: 'T3' }],
    });
    expect(await issued(world)).toEqual([['credit-note', '-12.00']]);
    await voidLoad(seller, { loadId: late?.id ?? '', reason: 'Another farm’s', baseVersion: 1 });
    expect(await issued(world)).toEqual([['credit-note', '-48.00']]);
  });
});

/** Both kinds of note under one agreement: a shortfall that the buyer owes and, before, one that the seller did. */
async function bothNotes() {
  const debit = await season({ shortfall: { owedBy: 'buyer', from: 'range', rate: '12.345' } });
  const credit = await season({ shortfall: SHORT });
  return await Promise.all(
    [debit, credit].map(async (world) => {
      const { documents } = await issueSeasonRules(world.seller, { agreementId: world.agreementId });
      return { world, id: documents[0]?.id ?? '', payable: documents[0]?.payable ?? '' };
    }),
  );
}

describe('papers of a note that puts no document right', () => {
  test('as PDF, e-invoice, statement and export of the journal', async () => {
    const notes = await bothNotes();
    expect(notes.map(({ payable }) => payable)).toEqual(['61.73', '-60.00']);
    for (const { world, id, payable } of notes) {
      const { seller, buyer, agreementId } = world;
      const { bytes } = await printDocument(buyer, { documentId: id, fonts });
      if (hasPdftotext) {
        const text = squeezed(pageTexts(bytes).join(' '));
        expect(text).toContain(squeezed('Short of the agreed volume, as agreed. 22 short tons as-fed'));
        expect(text).toContain(squeezed('For the volume that is short'));
        expect(text).not.toContain(squeezed('Correction of the goods'));
      }
      const countries = { seller: 'US', buyer: 'US' };
      const { text } = await writeDocumentXml(seller, { documentId: id, countries });
      expect(brokenRules(readXml(text))).toEqual([]);
      const period = { from: '2026-11-01', to: '2026-11-30' };
      const [own] = await readStatements(seller, { agreementId, ...period });
      const [other] = await readStatements(buyer, { agreementId, ...period });
      expect(own?.closing).toBe(payable);
      expect(other?.closing).toBe(payable.startsWith('-') ? payable.slice(1) : `-${payable}`);
      // Debit and credit of the export come to the same.
      const rows = (await exportJournal(seller, { agreementId })).trimEnd().split('\n').slice(1);
      const note = rows.filter((row) => row.includes(payable.replace('-', '')));
      expect(note).toHaveLength(2);
      expect(note.join('\n')).toContain('djust');
    }
  });

  test('no interest is taken for charged by it, and a late debit note bears some', async () => {
    const payment = {
      netDays: '10',
      from: 'invoice',
      interest: { percentPerYear: '36.5', dayCount: 'actual/365' },
    };
    for (const [owedBy, kind, day] of [
      ['seller', 'credit-note', '2026-12-01'],
      ['buyer', 'debit-note', '2026-12-25'],
    ] as const) {
      const world = await season({ shortfall: { ...SHORT, owedBy } }, { more: { payment } });
      const { agreementId, seller } = world;
      world.on('2026-11-25');
      await world.invoice();
      expect((await issued(world))[0]?.[0]).toBe(kind);
      world.on(day);
      // Through a day before the note's: a note by a rule says nothing of interest.
      const { document } = await chargeInterest(seller, { agreementId, through: '2026-11-10' });
      expect(document).toBeNull();
      const charged = await chargeInterest(seller, { agreementId, through: day });
      // 2,200.00 and 60.00, due on 2026-12-05, are 20 days late at a tenth of a percent a day: 44.00 and 1.20.
      expect(charged.document?.payable).toBe(kind === 'debit-note' ? '45.20' : undefined);
    }
  });
});

test('the season’s page counts no such note as feed that is not paid', async () => {
  const world = await season({ shortfall: { ...SHORT, owedBy: 'buyer' } });
  await world.invoice();
  expect(await issued(world)).toEqual([['debit-note', '60.00']]);
  const { agreementId, seller } = world;
  const page = await readSeasonPage(seller, { agreementId, locale: 'en-US' });
  expect(page.season.money?.unpaid).toMatchObject({ documents: 1, open: '2,200.00' });
});

describe('closing the season', () => {
  test('carries over what is on no note, and says what it is', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller, buyer } = world;
    await world.invoice();
    const { points, inTheWay, statement } = await readClose(buyer, { agreementId });
    expect(points).toEqual([
      { kind: 'adjustment', count: 1, amount: '-60.00' },
      { kind: 'balance', count: 1, amount: '2200.00' },
    ]);
    expect(inTheWay).toEqual([]);
    expect(closingStatementShape.parse(statement).adjustments).toEqual([
      {
        rule: 'shortfall',
        words: `22 short tons as-fed are delivered, less than 27: 5 are missing. ${statement.seller} owes ${statement.buyer} 60.00 USD.`,
        ...{ amount: '-60.00', issued: '0.00' },
      },
    ]);
    expect(await refused(proposeClose(seller, { agreementId, carriesOver: false, name: 'Wren Alder' }))).toBe(
      'not-ready',
    );
    const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
    await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
    expect(await refused(issueSeasonRules(seller, { agreementId }))).toBe('season-closed');
    const { carried } = (await readClose(seller, { agreementId })).statement;
    expect(carried[0]?.words).toBe(
      `${statement.seller} owes 60.00 USD by the agreed rules for the season, on no note yet`,
    );
    const { bytes } = await printClose(seller, { agreementId, fonts });
    if (hasPdftotext) {
      const text = squeezed(pageTexts(bytes).join(' '));
      expect(text).toContain(squeezed('By the agreed rules for the season'));
      expect(text).toContain(squeezed('Short of the agreed volume: 22 short tons as-fed are delivered'));
      expect(text).toContain(squeezed(`${statement.seller} owes 60.00 USD, on notes: nothing`));
    }
    // What both carried over on purpose is no fault; the file holds the same statement.
    expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);
    const { text } = await exportSeason(seller, { agreementId });
    expect(JSON.parse(JSON.parse(text).statement).adjustments).toHaveLength(1);
  });

  test('has nothing to carry once the note is issued', async () => {
    const world = await season({ shortfall: SHORT });
    const { agreementId, seller, buyer } = world;
    await world.invoice();
    await issued(world);
    const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
    const { root } = await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
    expect(root).toMatch(/^[0-9a-f]{64}$/);
    const { statement } = await readClose(seller, { agreementId });
    expect(statement.carried.map(({ kind }) => kind)).toEqual(['balance']);
    expect(statement.adjustments).toMatchObject([{ amount: '-60.00', issued: '-60.00' }]);
  });

  test('names notes that owe each other out, and rules that wait beside them', () => {
    const rule = { lines: [], waits: undefined, told: () => '' };
    const points = adjustmentPoints(
      [
        { ...rule, rule: 'shortfall', owed: -6_000n, issued: 0n },
        { ...rule, rule: 'surplus', owed: 6_000n, issued: 0n },
        { ...rule, rule: 'true-up', owed: 0n, issued: 500n, waits: 'no load has settled' },
      ],
      { print: (amount) => printUnits(amount, 2) },
    );
    const words = {
      seller: 'Quillback Acres',
      buyer: 'Tarn Hollow Dairy',
      money: (amount: string) => amount,
    };
    expect(points.map((point) => pointInWords(point, words))).toEqual([
      '2 notes by the agreed rules for the season are not issued; together they come to nothing',
      'One agreed rule for the season cannot be worked out yet: no load has settled',
    ]);
  });
});

/** An agreement that both signed here: 1,500 short tons as-fed, and 12.00 for each that is short. */
async function signedHere(conditions: object) {
  const seller = await newSigner(record.tools, 'Hollow Fen Farm');
  const buyer = await newSigner(record.tools, 'Sorrel Bend Dairy');
  const document = {
    format: 'huskledger-agreement/1',
    feed: 'whole-ear-corn',
    currency: 'USD',
    timeZone: 'America/Boise',
    references: {},
    price: [{ term: 'flat', label: 'Feed', rate: '100', per: 'short-ton', weight: 'as-fed' }],
    conditions,
  };
  const lotId = await postedLot(seller);
  const { offerId } = await makeOffer(buyer, { lotId, document, validDays: '7' });
  const sign = async (offer: string) => {
    await signNewest(buyer, offer, 'Sorrel Bend Dairy');
    return (await signNewest(seller, offer, 'Hollow Fen Farm')).agreementId ?? '';
  };
  return { seller, buyer, document, agreementId: await sign(offerId), sign };
}

describe('what both signed later', () => {
  const volume = { amount: '1500', unit: 'short-ton', weight: 'as-fed', shortfall: SHORT };

  test('an early end is the last day of delivery', async () => {
    const { seller, buyer, agreementId, sign } = await signedHere({ volume, delivery: { to: '2026-12-20' } });
    const ask = { agreementId };
    expect(await refused(issueSeasonRules(seller, ask))).toBe('not-ready');
    const { offerId } = await proposeClosing(buyer, {
      ...ask,
      validDays: '10',
      lastDelivery: '2026-11-20',
    });
    await sign(offerId);
    const { documents } = await issueSeasonRules(seller, ask);
    expect(documents).toMatchObject([{ kind: 'credit-note', payable: '-18000.00' }]);
  });

  test('a rule that is agreed on no more gives back what was issued for it', async () => {
    const { seller, document, agreementId, sign } = await signedHere({
      volume,
      delivery: { to: '2026-11-20' },
    });
    await issueSeasonRules(seller, { agreementId });
    const { shortfall: _, ...without } = volume;
    const { offerId } = await proposeAmendment(seller, {
      ...{ agreementId, validDays: '10', effectiveFrom: '2026-11-26' },
      document: { ...document, conditions: { volume: without, delivery: { to: '2026-11-20' } } },
    });
    await sign(offerId);
    expect((await standing({ seller, agreementId }))[0]).toMatchObject({
      told: 'It is not agreed on any more, so nothing is owed by it.',
      ...{ issued: '-18000.00', left: '18000.00' },
    });
    const { documents } = await issueSeasonRules(seller, { agreementId });
    expect(documents).toMatchObject([{ kind: 'debit-note', payable: '18000.00' }]);
    expect((await standing({ seller, agreementId })).map(({ left }) => left)).toEqual([]);
  });
});
