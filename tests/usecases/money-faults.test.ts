/**
 * Every verb about money, ended in the middle: before and after each statement that writes, nothing of it stands, the same
 * request is done when it comes again, and no document's number is lost. At each statement that only reads, too:
 * `HUSKLEDGER_TEST_FAULTS=all npx vitest run tests/usecases/money-faults.test.ts`.
 */
import type { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { answerCorrection, proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { answerSetOff, proposeSetOff } from '../../src/usecases/money/agree-set-off.ts';
import { answerPayment } from '../../src/usecases/money/answer-payment.ts';
import { chargeInterest } from '../../src/usecases/money/charge-interest.ts';
import { giveAdvances } from '../../src/usecases/money/give-advances.ts';
import { holdAmount, releaseHold } from '../../src/usecases/money/hold-amount.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { endLien, recordLien } from '../../src/usecases/money/keep-liens.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { reversePayment } from '../../src/usecases/money/reverse-payment.ts';
import { issueSeasonRules } from '../../src/usecases/season-close/issue-season-rules.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { Fault, faultyStore } from './faulty-store.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';

let record: TestRecord;
let client: Client;
let allRows: string;
beforeAll(async () => {
  record = await openTestRecord();
  client = await record.superuser();
  const { rows } = await client.query<{ name: string }>(
    `SELECT relname AS name FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
     WHERE n.nspname = 'public' AND relkind = 'r' ORDER BY relname`,
  );
  expect(rows.length).toBeGreaterThan(60);
  const parts = rows.map(
    ({ name }) =>
      `SELECT '${name}' AS of, count(*)::int AS rows, md5(string_agg(t::text, ' ' ORDER BY t::text)) AS digest FROM "${name}" t`,
  );
  allRows = parts.join(' UNION ALL ');
});
afterAll(async () => {
  await client.end();
  await record.close();
});

/** What ends a request that has a key. */
const LAST = /^request\.create$/;
/** Statements that leave something behind; ended at another, a transaction is as it was after the last of these. */
const WRITES = /INSERT|UPDATE|SAVEPOINT|^\w+\.create/;
/** A verb is tried some sixty times, or with every statement a hundred. */
const PATIENCE_MS = 300_000;
const EVERY = process.env['HUSKLEDGER_TEST_FAULTS'] === 'all';

/** What stands in all tables. */
const digest = async () => (await client.query(allRows)).rows;

/** The numbers of a seller's documents leave no gap. */
async function expectNoGap(sellerId: string): Promise<number> {
  const { rows } = await client.query<{ serial: number }>(
    'SELECT serial FROM money_document WHERE seller_id = $1 ORDER BY serial',
    [sellerId],
  );
  expect(rows.map(({ serial }) => serial)).toEqual(rows.map((_, index) => index + 1));
  return rows.length;
}

const PAYMENT = {
  ...{ netDays: '10', from: 'invoice', invoices: 'day', returnedPaymentFee: '25' },
  interest: { percentPerYear: '12', dayCount: 'actual/365' },
};

/** A world with two invoices of 1,000.00 and 1,200.00. */
async function invoiced(): Promise<MoneyWorld & { readonly loadId: string; readonly documentId: string }> {
  const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
  const [loadId = ''] = await world.deliver({ T1: '10' }, '2026-11-22');
  await world.deliver({ T2: '12' }, '2026-11-23');
  const { documents } = await world.invoice();
  return { ...world, loadId, documentId: documents[0]?.id ?? '' };
}

const SPENT = { paid_on: '2026-11-25', method: 'check' };

async function paid({ agreementId, buyer }: MoneyWorld, amount = '1500'): Promise<string> {
  const payment = { ...SPENT, amount };
  const asked = { agreementId, direction: 'paid', payment, confirmed: true } as const;
  return (await recordPayment(buyer, asked)).paymentId;
}

async function counted(world: MoneyWorld, amount?: string): Promise<string> {
  const paymentId = await paid(world, amount);
  await answerPayment(world.seller, { paymentId, answer: 'confirmed' });
  return paymentId;
}

/** The buyer has paid 300.00 more than was due, and a new invoice has come. */
async function onAccount() {
  const world = await invoiced();
  await counted(world, '2500');
  await world.deliver({ T3: '10' }, '2026-11-24');
  await world.invoice();
  return world;
}

async function setOff() {
  const world = await onAccount();
  const asked = { agreementId: world.agreementId, amount: '300', reason: 'For invoice 3' };
  return { ...world, ...(await proposeSetOff(world.buyer, asked)) };
}

async function held() {
  const world = await invoiced();
  const asked = { documentId: world.documentId, loadId: world.loadId, figure: '900', reason: 'Wet' };
  return { ...world, ...(await holdAmount(world.buyer, asked)) };
}

function correctionOf({ agreementId, loadId }: { agreementId: string; loadId: string }) {
  const figures = {
    ...{ ticket: 'T1', delivered_at: '2026-11-22T09:00:00-06:00' },
    ...{ gross: '49000', tare: '30000', unit: 'lb' },
  };
  const subject = { agreementId, subject: 'load', subjectId: loadId, figures } as const;
  return { ...subject, reason: 'Misread', confirmed: true };
}

async function corrected() {
  // A hold of the buyer's own on the load is answered by the note too.
  const world = await held();
  return { ...world, ...(await proposeCorrection(world.buyer, correctionOf(world))) };
}

const NOTICE = {
  ...{ lender: 'Fallow Creek Credit', debtor: 'Quillback Acres', crop_year: '2026', county: 'Larkspur' },
  ...{ conditions: 'Checks to both', received_on: '2026-11-20' },
};

async function liened() {
  const world = await invoiced();
  const { agreementId } = world;
  return { ...world, ...(await recordLien(world.seller, { agreementId, notice: NOTICE })) };
}

async function waiting() {
  const world = await moneyWorld(record, {
    conditions: { payment: PAYMENT, advance: { sharePercent: '80', rate: '90', per: 'short-ton' } },
    terms: { price: [{ term: 'flat', label: 'Feed', rate: '200', per: 'short-ton', weight: 'dry-matter' }] },
  });
  const row = { delivered_at: '2026-11-22T09:00:00-06:00', gross: '50000', tare: '30000', unit: 'lb' };
  const loads = ['T1', 'T2'].map((ticket) => ({ ...row, ticket, sample: `S-${ticket}` }));
  await recordLoads(world.seller, { agreementId: world.agreementId, loads, confirmed: true });
  return world;
}

async function late() {
  const world = await invoiced();
  world.on('2026-12-20');
  return world;
}

/** A payment either way, from this side. */
async function payment(by: 'seller' | 'buyer', direction: 'paid' | 'received', amount: string) {
  const world = await onAccount();
  const { agreementId } = world;
  return doing(world[by], (context, key) =>
    recordPayment(context, { agreementId, direction, payment: { ...SPENT, amount }, confirmed: true, key }),
  );
}

interface Doing {
  readonly by: Context;
  readonly run: (context: Context, key: string) => Promise<unknown>;
}

const doing = (by: Context, run: Doing['run']): Doing => ({ by, run });

async function answering(by: 'seller' | 'buyer', answer: 'confirmed' | 'contested' | 'withdrawn') {
  const world = await invoiced();
  const paymentId = await paid(world);
  return doing(world[by], (context, key) =>
    answerPayment(context, { paymentId, answer, reason: 'Did not come', key }),
  );
}

async function settingOff(by: 'seller' | 'buyer', answer: 'confirmed' | 'refused' | 'withdrawn') {
  const world = await setOff();
  const { setOffId } = world;
  return doing(world[by], (context, key) =>
    answerSetOff(context, { setOffId, answer, reason: 'Not yet', key }),
  );
}

async function correcting(by: 'seller' | 'buyer', answer: 'confirmed' | 'refused' | 'withdrawn') {
  const world = await corrected();
  const { correctionId } = world;
  return doing(world[by], (context, key) =>
    answerCorrection(context, { correctionId, answer, reason: 'It is right', key }),
  );
}

const CASES: Readonly<Record<string, () => Promise<Doing>>> = {
  'issuing invoices': async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    await world.deliver({ T1: '10' }, '2026-11-22');
    await world.deliver({ T2: '12' }, '2026-11-23');
    const { agreementId } = world;
    return doing(world.seller, (context, key) => issueInvoices(context, { agreementId, key }));
  },
  'giving advances': async () => {
    const { agreementId, seller } = await waiting();
    return doing(seller, (context, key) => giveAdvances(context, { agreementId, key }));
  },
  'charging interest': async () => {
    const { agreementId, seller } = await late();
    const through = '2026-12-20';
    return doing(seller, (context, key) => chargeInterest(context, { agreementId, through, key }));
  },
  'issuing what the agreed rules for a season come to': async () => {
    const volume = {
      ...{ amount: '20', unit: 'short-ton', weight: 'as-fed' },
      shortfall: { owedBy: 'seller', from: 'range', rate: '12' },
    };
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT, volume } });
    await world.deliver({ T1: '10' }, '2026-11-22');
    const asked = { agreementId: world.agreementId, noMoreLoads: true };
    return doing(world.seller, (context, key) => issueSeasonRules(context, { ...asked, key }));
  },
  'a payment that the buyer made': () => payment('buyer', 'paid', '700'),
  'a payment that the seller received': () => payment('seller', 'received', '700'),
  'money back that the seller paid': () => payment('seller', 'paid', '200'),
  'money back that the buyer received': () => payment('buyer', 'received', '200'),
  'confirming a payment': () => answering('seller', 'confirmed'),
  'contesting a payment': () => answering('seller', 'contested'),
  'withdrawing a payment': () => answering('buyer', 'withdrawn'),
  'a payment that came back, with its fee': async () => {
    const world = await invoiced();
    const paymentId = await counted(world);
    const back = { paymentId, reversedOn: '2026-11-25', reason: 'No funds' };
    return doing(world.seller, (context, key) => reversePayment(context, { ...back, key }));
  },
  'holding an amount': async () => {
    const { buyer, documentId, loadId } = await invoiced();
    const asked = { documentId, loadId, figure: '900', reason: 'Wet' };
    return doing(buyer, (context, key) => holdAmount(context, { ...asked, key }));
  },
  'releasing a hold': async () => {
    const { buyer, holdId } = await held();
    return doing(buyer, (context, key) => releaseHold(context, { holdId, key }));
  },
  'proposing a set-off': async () => {
    const { agreementId, seller } = await onAccount();
    const asked = { agreementId, amount: '300', reason: 'For invoice 3' };
    return doing(seller, (context, key) => proposeSetOff(context, { ...asked, key }));
  },
  'confirming a set-off': () => settingOff('seller', 'confirmed'),
  'refusing a set-off': () => settingOff('seller', 'refused'),
  'withdrawing a set-off': () => settingOff('buyer', 'withdrawn'),
  'recording a lien': async () => {
    const { agreementId, seller } = await invoiced();
    return doing(seller, (context, key) => recordLien(context, { agreementId, notice: NOTICE, key }));
  },
  'ending a lien': async () => {
    const { buyer, lienId } = await liened();
    const end = { lienId, endedOn: '2026-11-25', reason: 'Its release' };
    return doing(buyer, (context, key) => endLien(context, { ...end, key }));
  },
  'proposing a correction of an invoiced load': async () => {
    const world = await invoiced();
    const asked = correctionOf(world);
    return doing(world.buyer, (context, key) => proposeCorrection(context, { ...asked, key }));
  },
  'confirming a correction, with its credit note': () => correcting('seller', 'confirmed'),
  'refusing a correction': () => correcting('seller', 'refused'),
  'withdrawing a correction': () => correcting('buyer', 'withdrawn'),
};

describe('ended in the middle, nothing of it stands', () => {
  test.each(Object.keys(CASES))(
    '%s',
    async (name) => {
      const { by, run } = (await CASES[name]?.()) ?? doing(await nobody(), async () => undefined);
      const before = await digest();
      /** Fails there, and nothing has changed; returns what was sent until then. */
      const failAt = async (at: number | RegExp, when: 'before' | 'after') => {
        const store = faultyStore(record.store, { at, when });
        await expect(run({ ...by, store }, name), `${name}, ${when} ${at}`).rejects.toThrow(Fault);
        expect(await digest(), `${name}, ${when} statement ${at} (${store.sent.at(-1)})`).toEqual(before);
        return store.sent;
      };
      // With its answer, a request is over.
      const sent = await failAt(LAST, 'after');
      // The request's key, its audit and the frame of an agreement's money are read and written by every one of them.
      expect(sent.length).toBeGreaterThan(15);
      for (const [index, text] of sent.entries()) {
        if (!EVERY && index > 0 && !WRITES.test(text)) continue;
        await failAt(index + 1, 'before');
        await failAt(index + 1, 'after');
      }
      const counting = faultyStore(record.store, { at: sent.length + 1, when: 'before' });
      await run({ ...by, store: counting }, name);
      expect(counting.sent).toHaveLength(sent.length);
      const after = await digest();
      expect(after).not.toEqual(before);
      await run(by, name);
      expect(await digest(), `${name}, done again`).toEqual(after);
      await expectNoGap(await sellerOf(by));
      // The agreements of this case; all of them are looked at in the end.
      for (const agreementId of await agreementsOf(by)) {
        expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);
      }
    },
    PATIENCE_MS,
  );
});

async function nobody(): Promise<Context> {
  throw new Error('There is no such case');
}

async function sellerOf({ caller }: Context): Promise<string> {
  const { rows } = await client.query<{ id: string }>(
    'SELECT seller_id AS id FROM agreement WHERE $1 IN (seller_id, buyer_id)',
    [caller.partyId],
  );
  return rows[0]?.id ?? '';
}

async function agreementsOf({ caller }: Context): Promise<readonly string[]> {
  const { rows } = await client.query<{ id: string }>(
    'SELECT id FROM agreement WHERE $1 IN (seller_id, buyer_id)',
    [caller.partyId],
  );
  expect(rows.length).toBeGreaterThan(0);
  return rows.map(({ id }) => id);
}

test('many at once, some of which fail in the middle, leave no gap in the numbers', async () => {
  const first = await moneyWorld(record, { conditions: { payment: PAYMENT } });
  const parties = { seller: first.seller.caller, buyer: first.buyer.caller };
  const worlds = [first];
  for (let more = 1; more <= 3; more++) {
    worlds.push(await moneyWorld(record, { conditions: { payment: PAYMENT }, parties }));
  }
  for (const [index, world] of worlds.entries()) {
    for (const day of ['20', '21', '22'])
      await world.deliver({ [`T${index}-${day}`]: '10' }, `2026-11-${day}`);
  }
  const points = [/INSERT INTO "?money_document/, /next_document_serial/, /INSERT INTO "?posting/, undefined];
  const asked = worlds.flatMap(({ agreementId, seller }) =>
    points.map(async (at) => {
      const store = at ? faultyStore(record.store, { at, when: 'after' }) : record.store;
      return await issueInvoices({ ...seller, store }, { agreementId });
    }),
  );
  const ended = await Promise.allSettled(asked);
  const failed = ended.filter((one) => one.status === 'rejected');
  for (const { reason } of failed) expect(reason).toBeInstanceOf(Fault);
  // Those that came after the one that was done had nothing left to issue, and so nothing to fail at.
  expect(failed.length).toBeGreaterThan(0);
  const issued = ended.flatMap((one) => (one.status === 'fulfilled' ? one.value.documents : []));
  expect(issued).toHaveLength(12);
  expect(await expectNoGap(parties.seller.partyId)).toBe(12);
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
});
