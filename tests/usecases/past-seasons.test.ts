/**
 * What a sealed season leaves over: carried by both signatures, brought forward once, held as it was held, and put right under
 * the next agreement. Every figure is worked out by hand.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SEASON_SUM_NAMES } from '../../src/domain/money/money-document.ts';
import { readFonts } from '../../src/files/read-fonts.ts';
import { readAgreementList } from '../../src/usecases/agreements/read-agreement-list.ts';
import type { Context } from '../../src/usecases/context.ts';
import { readWaiting } from '../../src/usecases/loads/read-waiting.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { answerPayment } from '../../src/usecases/money/answer-payment.ts';
import { chargeInterest } from '../../src/usecases/money/charge-interest.ts';
import { holdAmount, releaseHold } from '../../src/usecases/money/hold-amount.ts';
import { printDocument, writeDocumentXml } from '../../src/usecases/money/print-money.ts';
import { readDocument } from '../../src/usecases/money/read-document.ts';
import { readMoney } from '../../src/usecases/money/read-money.ts';
import { readStatements } from '../../src/usecases/money/read-statement.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { answerSeasonNote } from '../../src/usecases/season-close/answer-season-note.ts';
import { bringForward } from '../../src/usecases/season-close/bring-forward.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { proposePastSeason } from '../../src/usecases/season-close/put-season-note.ts';
import { readClose } from '../../src/usecases/season-close/read-close.ts';
import { readPastSeasons } from '../../src/usecases/season-close/read-past-seasons.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

async function seal({ agreementId, seller, buyer }: MoneyWorld): Promise<void> {
  const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
}

/** A season of 2,200.00 with 700.00 paid and, where asked, 300.00 held; and the next agreement of the same two. */
async function twoSeasons({ holds = false, seals = true } = {}): Promise<{
  readonly past: MoneyWorld;
  readonly next: MoneyWorld;
}> {
  const past = await moneyWorld(record);
  await past.deliver({ T1: '10', T2: '12' }, '2026-11-20');
  const { documents } = await past.invoice();
  await recordPayment(past.seller, {
    agreementId: past.agreementId,
    direction: 'received',
    payment: { amount: '700', paid_on: '2026-11-24', method: 'check' },
    confirmed: true,
  });
  if (holds) {
    await holdAmount(past.buyer, {
      documentId: documents[0]?.id ?? '',
      figure: '1900',
      reason: 'Load T2 came in wet',
    });
  }
  if (seals) await seal(past);
  const next = await moneyWorld(record, {
    parties: { seller: past.seller.caller, buyer: past.buyer.caller },
  });
  return { past, next };
}

const statement = async (context: Context, partnerId: string) => {
  const [one] = await readStatements(context, { partnerId });
  if (!one) throw new Error('no statement');
  return one;
};

describe('a balance that is carried over', () => {
  test('is brought forward once, by the side that issues, and is owed once', async () => {
    const { past, next } = await twoSeasons();
    const { seller, buyer } = past;
    const of = { agreementId: next.agreementId, ofAgreementId: past.agreementId };
    expect((await statement(seller, buyer.caller.partyId)).closing).toBe('1500.00');
    expect(await refused(bringForward(buyer, of))).toBe('not-yours');
    expect(await refused(bringForward(seller, { ...of, ofAgreementId: next.agreementId }))).toBe('not-found');
    const [document] = (await bringForward(seller, of)).documents;
    if (!document) throw new Error('nothing was brought forward');
    expect(document).toMatchObject({ kind: 'debit-note', payable: '1500.00' });
    expect(await refused(bringForward(seller, of))).toBe('ended-already');

    const after = await statement(seller, buyer.caller.partyId);
    expect(after.closing).toBe('1500.00');
    expect(after.ageing.total).toBe('1500.00');
    expect(after.open.map(({ name, open }) => [name, open])).toEqual([
      [`Debit note ${document.number}`, '1500.00'],
    ]);
    expect(after.entries.slice(-2).map(({ name, amount }) => [name, amount])).toEqual([
      [
        expect.stringMatching(/^(Carried over to agreement|Debit note)/),
        expect.stringMatching(/^-?1500\.00$/),
      ],
      [
        expect.stringMatching(/^(Carried over to agreement|Debit note)/),
        expect.stringMatching(/^-?1500\.00$/),
      ],
    ]);
    // Both read the same, the sign turned.
    const theirs = await statement(buyer, seller.caller.partyId);
    expect(theirs.closing).toBe('-1500.00');
    expect(theirs.entries.map(({ amount }) => turned(amount))).toEqual(
      after.entries.map(({ amount }) => amount),
    );
    // A statement of the sealed season alone says where its balance went.
    const [old] = await readStatements(buyer, { agreementId: past.agreementId });
    expect(old?.closing).toBe('0.00');
    expect(old?.entries.at(-1)?.name).toMatch(/^Carried over to agreement M-/);
    // The places that say what is owed say it once.
    const owed = await readAgreementList(seller, { locale: 'en-US' });
    expect(Object.fromEntries(owed.map(({ id, owed }) => [id, owed]))).toEqual({
      [past.agreementId]: '0',
      [next.agreementId]: '1,500.00',
    });
    const money = await readMoney(buyer, { locale: 'en-US' });
    expect(money.items.map(({ name, agreementId }) => [name, agreementId])).toEqual([
      [`Debit note ${document.number}`, next.agreementId],
    ]);
  });

  test('is paid under the next agreement, since the sealed one takes nothing', async () => {
    const { past, next } = await twoSeasons();
    const payment = {
      direction: 'received' as const,
      payment: { amount: '1500', paid_on: '2026-11-25', method: 'check' },
      confirmed: true,
    };
    const pay = (agreementId: string) => recordPayment(past.seller, { agreementId, ...payment });
    expect(await refused(pay(past.agreementId))).toBe('season-closed');
    await bringForward(past.seller, { agreementId: next.agreementId, ofAgreementId: past.agreementId });
    await pay(next.agreementId);
    expect((await statement(past.seller, past.buyer.caller.partyId)).closing).toBe('0.00');
  });

  test('of a past day still stands where it stood then', async () => {
    const { past, next } = await twoSeasons();
    next.on('2026-12-20');
    await bringForward(next.seller, { agreementId: next.agreementId, ofAgreementId: past.agreementId });
    const [then] = await readStatements(next.seller, { agreementId: past.agreementId, to: '2026-12-01' });
    expect(then?.closing).toBe('1500.00');
    expect(then?.open).toHaveLength(1);
    const [now] = await readStatements(next.seller, { agreementId: past.agreementId });
    expect(now?.closing).toBe('0.00');
    expect(now?.open).toEqual([]);
  });

  test('keeps held for the same side what was held', async () => {
    const { past, next } = await twoSeasons({ holds: true });
    expect((await readClose(past.seller, { agreementId: past.agreementId })).statement.carried).toEqual([
      { kind: 'held', count: '1', words: 'One amount is held: 300.00 USD', amount: '300.00' },
      { kind: 'balance', count: '1', words: expect.stringMatching(/owes 1500\.00 USD$/), amount: '1500.00' },
    ]);
    await bringForward(past.seller, { agreementId: next.agreementId, ofAgreementId: past.agreementId });
    const stands = await statement(past.buyer, past.seller.caller.partyId);
    expect(stands.held.map(({ amount, reason, by }) => [amount, reason, by])).toEqual([
      [
        '-300.00',
        expect.stringMatching(/^Held already under agreement M-\d+: Load T2 came in wet$/),
        expect.stringMatching(/Dairy/),
      ],
    ]);
    expect(stands.ageing.held).toBe('-300.00');
    // Whoever held it lets go of it; the seller does not.
    const client = await record.superuser();
    const { rows } = await client.query<{ id: string }>('SELECT id FROM hold WHERE agreement_id = $1', [
      next.agreementId,
    ]);
    await client.end();
    const holdId = rows[0]?.id ?? '';
    expect(await refused(releaseHold(past.seller, { holdId }))).toBe('not-yours');
    await releaseHold(past.buyer, { holdId });
    expect((await statement(past.buyer, past.seller.caller.partyId)).held).toEqual([]);
  });

  test('below zero becomes a credit on account', async () => {
    const past = await moneyWorld(record);
    await past.deliver({ T1: '10' }, '2026-11-20');
    await past.invoice();
    const { paymentId } = await recordPayment(past.buyer, {
      agreementId: past.agreementId,
      direction: 'paid',
      payment: { amount: '1040', paid_on: '2026-11-24', method: 'check' },
      confirmed: true,
    });
    await answerPayment(past.seller, { paymentId, answer: 'confirmed' });
    await seal(past);
    const next = await moneyWorld(record, {
      parties: { seller: past.seller.caller, buyer: past.buyer.caller },
    });
    const {
      documents: [document],
    } = await bringForward(past.seller, {
      agreementId: next.agreementId,
      ofAgreementId: past.agreementId,
    });
    expect(document).toMatchObject({ kind: 'credit-note', payable: '-40.00' });
    const { closing, ageing } = await statement(past.buyer, past.seller.caller.partyId);
    expect([closing, ageing.onAccount]).toEqual(['40.00', '40.00']);
  });

  test('goes on document by document, each due when it was, with lenders and what is on account', async () => {
    const past = await moneyWorld(record, {
      conditions: {
        payment: {
          netDays: '10',
          from: 'invoice',
          invoices: 'day',
          discount: { percent: '2', withinDays: '5' },
        },
        lienHolders: [{ name: 'Fallow Creek Credit' }],
      },
      terms: { feed: 'dry-shelled-corn' },
    });
    const { seller, buyer, agreementId } = past;
    past.on('2026-11-01');
    const [first] = await past.deliver({ T1: '10' }, '2026-10-31');
    await past.invoice();
    past.on('2026-11-20');
    await past.deliver({ T2: '12' }, '2026-11-19');
    const { documents } = await past.invoice();
    await holdAmount(buyer, {
      documentId: (await readMoney(buyer, { locale: 'en-US' })).items[0]?.documentId ?? '',
      loadId: first ?? '',
      figure: '950',
      reason: 'Wet',
    });
    expect(documents).toHaveLength(1);
    await seal(past);
    const next = await moneyWorld(record, { parties: { seller: seller.caller, buyer: buyer.caller } });
    next.on('2026-11-25');
    const brought = (
      await bringForward(next.seller, { agreementId: next.agreementId, ofAgreementId: agreementId })
    ).documents;
    expect(brought.map(({ kind, payable }) => [kind, payable])).toEqual([
      ['debit-note', '1000.00'],
      ['debit-note', '1200.00'],
    ]);
    const now = await statement(next.buyer, seller.caller.partyId);
    expect(now.open.map(({ dueOn, open, held, daysLate }) => [dueOn, open, held, daysLate])).toEqual([
      ['2026-11-11', '-1000.00', '-50.00', 14],
      ['2026-11-30', '-1200.00', '0.00', 0],
    ]);
    expect(now.held.map(({ reason }) => reason)).toEqual([
      expect.stringMatching(/^Held already under agreement M-\d+, load T1: Wet$/),
    ]);
    // The lender has on it what it had, once, until all of it is paid; so has the feed its own name.
    const [one] = brought;
    const { document } = await readDocument(next.buyer, { documentId: one?.id ?? '' });
    expect(document).toMatchObject({
      jointPayees: ['Fallow Creek Credit'],
      feed: expect.stringContaining('shelled'),
    });
    expect(now.liens).toEqual([
      {
        agreement: expect.stringMatching(/^M-/),
        lender: 'Fallow Creek Credit',
        conditions: expect.stringMatching(/^with what was brought forward from agreement M-/),
      },
    ]);
    const pay = async (amount: string, more: Record<string, string> = {}) =>
      await recordPayment(next.seller, {
        agreementId: next.agreementId,
        direction: 'received',
        payment: { amount, paid_on: '2026-11-25', method: 'check', ...more },
        confirmed: true,
      });
    expect(await refused(pay('2150'))).toBe('bad-input');
    await pay('2150', { made_out_to: 'jointly' });
    expect((await statement(next.buyer, seller.caller.partyId)).liens).toHaveLength(1);
    const client = await record.superuser();
    const { rows } = await client.query<{ id: string }>('SELECT id FROM hold WHERE agreement_id = $1', [
      next.agreementId,
    ]);
    await client.end();
    await releaseHold(next.buyer, { holdId: rows[0]?.id ?? '' });
    await pay('50', { made_out_to: 'jointly' });
    const after = await statement(next.buyer, seller.caller.partyId);
    expect([after.closing, after.open, after.liens]).toEqual(['0.00', [], []]);
  });

  test('bears interest from the day on which it is brought forward, and interest bears none', async () => {
    const interest = { percentPerYear: '36.5', dayCount: 'actual/365' };
    const conditions = { payment: { netDays: '5', from: 'invoice', interest } };
    const past = await moneyWorld(record, { conditions });
    past.on('2026-11-01');
    await past.deliver({ T1: '10' }, '2026-10-31');
    await past.invoice();
    past.on('2026-11-16');
    // 1,000.00 late for 10 days at a thousandth a day.
    await chargeInterest(past.seller, { agreementId: past.agreementId, through: '2026-11-16' });
    await seal(past);
    const next = await moneyWorld(record, {
      conditions,
      parties: { seller: past.seller.caller, buyer: past.buyer.caller },
    });
    next.on('2026-11-20');
    const { documents } = await bringForward(next.seller, {
      agreementId: next.agreementId,
      ofAgreementId: past.agreementId,
    });
    expect(documents.map(({ kind, payable }) => [kind, payable])).toEqual([
      ['debit-note', '1000.00'],
      ['interest', '10.00'],
    ]);
    next.on('2026-11-30');
    const { document } = await chargeInterest(next.seller, {
      agreementId: next.agreementId,
      through: '2026-11-30',
    });
    expect(document?.payable).toBe('10.00');
    expect((await statement(next.seller, next.buyer.caller.partyId)).closing).toBe('1020.00');
  });

  test('that two agreements take up at once is brought forward by one', async () => {
    const { past, next } = await twoSeasons();
    const third = await moneyWorld(record, {
      parties: { seller: past.seller.caller, buyer: past.buyer.caller },
    });
    const tried = await Promise.allSettled(
      [next, third, next].map(({ agreementId }) =>
        bringForward(past.seller, { agreementId, ofAgreementId: past.agreementId }),
      ),
    );
    expect(tried.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect((await statement(past.seller, past.buyer.caller.partyId)).closing).toBe('1500.00');
  });

  test('of nothing, or of a season that is open, is not brought forward', async () => {
    const { past, next } = await twoSeasons({ seals: false });
    const of = { agreementId: next.agreementId, ofAgreementId: past.agreementId };
    expect(await refused(bringForward(past.seller, of))).toBe('not-ready');
    await recordPayment(past.seller, {
      agreementId: past.agreementId,
      direction: 'received',
      payment: { amount: '1500', paid_on: '2026-11-24', method: 'check' },
      confirmed: true,
    });
    await seal(past);
    expect(await refused(bringForward(past.seller, of))).toBe('not-ready');
  });
});

describe('what comes after the seal', () => {
  test('is money of the next agreement once both agree to it', async () => {
    const { past, next } = await twoSeasons();
    const { seller, buyer } = past;
    const put = {
      agreementId: next.agreementId,
      ofAgreementId: past.agreementId,
      ticket: 'T2',
      amount: '-85.50',
      reason: 'The second scale weighed 855 lb less',
    };
    expect(await refused(proposePastSeason(buyer, { ...put, ticket: 'T9' }))).toBe('bad-input');
    expect(await refused(proposePastSeason(buyer, { ...put, amount: '0' }))).toBe('bad-input');
    expect(await refused(proposePastSeason(buyer, { ...put, amount: '1.005' }))).toBe('bad-input');
    expect(await refused(proposePastSeason(buyer, { ...put, reason: ' ' }))).toBe('bad-input');
    expect(await refused(proposePastSeason(buyer, { ...put, agreementId: past.agreementId }))).toBe(
      'not-found',
    );
    const { noteId } = await proposePastSeason(buyer, put);
    expect(await refused(answerSeasonNote(buyer, { noteId, answer: 'confirmed' }))).toBe('not-yours');
    expect(await refused(answerSeasonNote(seller, { noteId, answer: 'refused' }))).toBe('bad-input');
    expect((await statement(seller, buyer.caller.partyId)).closing).toBe('1500.00');
    const { documentId } = await answerSeasonNote(seller, { noteId, answer: 'confirmed' });
    expect(await refused(answerSeasonNote(seller, { noteId, answer: 'confirmed' }))).toBe('ended-already');
    expect((await statement(seller, buyer.caller.partyId)).closing).toBe('1414.50');
    const { seasons } = await readPastSeasons(buyer, { agreementId: next.agreementId });
    expect(seasons).toMatchObject([
      {
        agreementId: past.agreementId,
        balance: '1500.00',
        broughtInto: undefined,
        notes: [{ ticket: 'T2', amount: '-85.50', standing: 'confirmed', documentId, isOurs: true }],
      },
    ]);
  });

  test('lowers the balance that was brought forward, and prints on paper and as XML', async () => {
    const { past, next } = await twoSeasons();
    const { seller, buyer } = past;
    const of = { agreementId: next.agreementId, ofAgreementId: past.agreementId };
    const [document] = (await bringForward(seller, of)).documents;
    if (!document) throw new Error('nothing was brought forward');
    const { noteId } = await proposePastSeason(seller, {
      ...of,
      amount: '-85.50',
      reason: 'Tare of truck 9',
    });
    const { documentId } = await answerSeasonNote(buyer, { noteId, answer: 'confirmed' });
    const { open, ageing } = await statement(seller, buyer.caller.partyId);
    expect(open.map(({ name, amount, open }) => [name, amount, open])).toEqual([
      [`Debit note ${document.number}`, '1500.00', '1414.50'],
    ]);
    expect(ageing.onAccount).toBe('0.00');
    const fonts = await readFonts();
    for (const [id, sum] of [
      [document.id, 'Balance brought forward'],
      [documentId ?? '', 'For a sealed season'],
    ] as const) {
      const { document: printed } = await readDocument(buyer, { documentId: id });
      expect(printed.season && SEASON_SUM_NAMES[printed.season]).toBe(sum);
      const countries = { seller: 'US', buyer: 'US' };
      const { text } = await writeDocumentXml(buyer, { documentId: id, countries });
      expect(text).toContain(id === documentId ? '85.50' : '1500.00');
      expect((await printDocument(buyer, { documentId: id, fonts })).bytes.length).toBeGreaterThan(1000);
    }
  });

  test('is refused with a reason, or taken back, and then is no money', async () => {
    const { past, next } = await twoSeasons();
    const put = {
      agreementId: next.agreementId,
      ofAgreementId: past.agreementId,
      amount: '10',
      reason: 'Hauling of one load was left out',
    };
    const first = await proposePastSeason(past.seller, put);
    await answerSeasonNote(past.buyer, { ...first, answer: 'refused', reason: 'It was our own truck' });
    const second = await proposePastSeason(past.seller, put);
    await answerSeasonNote(past.seller, { ...second, answer: 'withdrawn' });
    const { seasons } = await readPastSeasons(past.buyer, { agreementId: next.agreementId });
    expect(seasons[0]?.notes.map(({ standing, answerReason }) => [standing, answerReason])).toEqual([
      ['refused', 'It was our own truck'],
      ['withdrawn', null],
    ]);
    expect((await statement(past.seller, past.buyer.caller.partyId)).closing).toBe('1500.00');
  });

  test('is nobody else’s, and needs one who may put things right', async () => {
    const { past, next } = await twoSeasons();
    const stranger: Context = { ...past.seller, caller: await newParty(record.tools, 'Fernway Orchards') };
    const put = { agreementId: next.agreementId, ofAgreementId: past.agreementId, amount: '10', reason: 'x' };
    expect(await refused(proposePastSeason(stranger, put))).toBe('not-found');
    expect(await refused(readPastSeasons(stranger, { agreementId: next.agreementId }))).toBe('not-found');
    const driver: Context = { ...past.seller, caller: { ...past.seller.caller, role: 'scale-operator' } };
    expect(await refused(proposePastSeason(driver, put))).toBe('not-allowed');
    // Of another pair's season.
    const others = await twoSeasons();
    expect(
      await refused(proposePastSeason(past.seller, { ...put, ofAgreementId: others.past.agreementId })),
    ).toBe('not-found');
  });

  test('a load that was carried over unpriced waits for nobody any more', async () => {
    const { past, next } = await twoSeasons({ seals: false });
    const { seller, buyer, agreementId } = past;
    await recordLoads(seller, {
      agreementId,
      confirmed: true,
      loads: [
        {
          ticket: 'T3',
          delivered_at: '2026-11-21T09:00:00-07:00',
          gross: '50000',
          tare: '30000',
          unit: 'lb',
        },
      ],
    });
    expect(await readWaiting(seller)).toHaveLength(1);
    await seal(past);
    expect(await readWaiting(seller)).toEqual([]);
    const [all] = await readStatements(seller, { partnerId: buyer.caller.partyId });
    expect(all?.notInvoiced).toEqual([]);
    const { seasons } = await readPastSeasons(seller, { agreementId: next.agreementId });
    expect(seasons[0]?.carried).toEqual([
      { kind: 'unsettled', count: 1, amount: null },
      { kind: 'balance', count: 1, amount: '1500.00' },
    ]);
    const { noteId } = await proposePastSeason(seller, {
      agreementId: next.agreementId,
      ofAgreementId: agreementId,
      ticket: 'T3',
      amount: '1000',
      reason: 'Priced after the seal',
    });
    await answerSeasonNote(buyer, { noteId, answer: 'confirmed' });
    expect((await statement(seller, buyer.caller.partyId)).closing).toBe('2500.00');
  });
});

function turned(amount: string): string {
  if (amount.startsWith('-')) return amount.slice(1);
  return /[1-9]/.test(amount) ? `-${amount}` : amount;
}
