/**
 * What the pages of payments, accounts and instructions are told, each figure worked by hand.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { answerPayment } from '../../src/usecases/money/answer-payment.ts';
import { readChart } from '../../src/usecases/money/export-journal.ts';
import { checkInstruction, readBuying } from '../../src/usecases/money/instruct-payment.ts';
import { keepAccount } from '../../src/usecases/money/keep-account.ts';
import { readOwnAccount, readPartnerAccounts } from '../../src/usecases/money/read-accounts.ts';
import { readPayments } from '../../src/usecases/money/read-payments.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const TERMS = {
  payment: {
    netDays: '10',
    from: 'invoice',
    invoices: 'day',
    discount: { percent: '2', withinDays: '10' },
    returnedPaymentFee: '25',
  },
};

/** 1,000.00 and 1,100.00, issued on 25 November and due on 5 December. */
async function twoInvoices() {
  const world = await moneyWorld(record, { conditions: TERMS });
  await world.deliver({ T1: '10' }, '2026-11-23');
  await world.deliver({ T2: '11' }, '2026-11-24');
  await world.invoice();
  return world;
}

const PAID = { paid_on: '2026-11-25', method: 'check', reference: '1043' };

test('what is due is told with the discount that a payment in full earns, and until when', async () => {
  const { buyer, agreementId } = await twoInvoices();
  const money = await readPayments(buyer, { agreementId });
  expect(money.payable).toMatchObject([
    {
      name: expect.stringMatching(/^Invoice/),
      due: '1000.00',
      discount: '20.00',
      discountUntil: '2026-12-05',
    },
    {
      name: expect.stringMatching(/^Invoice/),
      due: '1100.00',
      discount: '22.00',
      dueOn: '2026-12-05',
      held: '',
    },
  ]);
  expect(money).toMatchObject({ due: '2100.00', returnedPaymentFee: '25.00', agreedLenders: [] });
});

test('amounts that are named for single documents are not passed over', async () => {
  const { buyer, seller, agreementId } = await twoInvoices();
  const [first] = (await readPayments(buyer, { agreementId })).payable;
  const parts = [{ documentId: first?.documentId ?? '', amount: '300' }];
  const payment = { ...PAID, amount: '300' };
  const paid = { agreementId, direction: 'paid', payment, parts } as const;
  expect(await refused(recordPayment(buyer, paid))).toBe('bad-input');
  const named = { ...paid, payment: { ...payment, spread: 'as-said' } };
  const { paymentId } = await recordPayment(buyer, named);
  const told = async () => (await readPayments(seller, { agreementId })).payments[0];
  expect(await told()).toMatchObject({
    state: 'recorded',
    isPaidByUs: false,
    wanted: { kind: 'as-said', parts: [{ name: first?.name, amount: '300.00' }] },
    settles: [],
  });
  await answerPayment(seller, { paymentId, answer: 'confirmed' });
  expect(await told()).toMatchObject({
    state: 'confirmed',
    settles: [{ name: first?.name, amount: '300.00', discount: '0.00' }],
    toAccount: '',
  });
});

test('an instruction tells what is paid already and not confirmed, and takes it off once it is', async () => {
  const { buyer, seller, agreementId } = await twoInvoices();
  const wanted = { agreementId, dueBy: '2026-12-31', payOn: '2026-11-26' };
  const payment = { ...PAID, amount: '600' };
  const { paymentId } = await recordPayment(buyer, { agreementId, direction: 'paid', payment });
  const before = await checkInstruction(buyer, wanted);
  expect(before.totals).toEqual([{ currency: 'USD', amount: '2100.00' }]);
  expect(before.unconfirmed).toMatchObject([{ name: 'Check 1043', amount: '600.00', paidOn: '2026-11-25' }]);
  expect(before.problems).toMatchObject([{ place: 'payerAccount' }]);
  expect(before.isDiscountAgreed).toBe(true);
  await answerPayment(seller, { paymentId, answer: 'confirmed' });
  const after = await checkInstruction(buyer, wanted);
  expect([after.totals, after.unconfirmed]).toEqual([[{ currency: 'USD', amount: '1500.00' }], []]);
  expect(await readBuying(buyer)).toMatchObject([{ agreementId, today: '2026-11-25' }]);
  expect(await readBuying(seller)).toEqual([]);
});

test('a number is whole for whoever pays, and its end alone for the others', async () => {
  const { buyer, seller } = await twoInvoices();
  const account = { holder: 'Quillback Acres', kind: 'other', number: '55501234567', bank_kind: 'aba' };
  await keepAccount(seller, { account: { ...account, bank: '123456780' } });
  const viewer = { ...buyer, caller: { ...buyer.caller, role: 'viewer' as const } };
  const seen = async (context: typeof buyer) => (await readPartnerAccounts(context))[0];
  expect(await seen(buyer)).toMatchObject({
    isPaidByUs: true,
    account: { number: '55501234567', isMasked: false, version: 1 },
  });
  expect(await seen(viewer)).toMatchObject({ account: { number: '…4567', isMasked: true } });
  const program = { id: viewer.caller.personId, scopes: [] };
  const operator = { ...seller, caller: { ...seller.caller, role: 'scale-operator' as const } };
  expect(await readOwnAccount(operator)).toMatchObject({ number: '…4567' });
  const asking = { ...seller, caller: { ...seller.caller, token: program } };
  expect(await refused(readOwnAccount(asking))).toBe('not-allowed');
  expect(await readOwnAccount(buyer)).toBeNull();
});

test('the end of a short number is not told: it would be all of it', async () => {
  const { buyer, seller } = await twoInvoices();
  const account = { holder: 'Quillback Acres', kind: 'other', number: '4711', bank_kind: 'aba' };
  await keepAccount(seller, { account: { ...account, bank: '123456780' } });
  const viewer = { ...buyer, caller: { ...buyer.caller, role: 'viewer' as const } };
  expect(await readPartnerAccounts(viewer)).toMatchObject([{ account: { number: '…' } }]);
});

test('the chart names each account of a side once, by number', async () => {
  const { buyer } = await twoInvoices();
  for (const accounts of Object.values(readChart(buyer))) {
    const codes = accounts.map(({ code }) => code);
    expect(codes).toEqual([...new Set(codes)].toSorted());
    expect(codes.length).toBe(13);
  }
});
