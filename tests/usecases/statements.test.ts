/**
 * Statements, papers and exports of money: both sides read the same figures with the sign turned, a past period never
 * changes, and what was issued prints the same for good.
 */
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Statement } from '../../src/domain/money/statement.ts';
import { readFonts } from '../../src/files/read-fonts.ts';
import { readDocuments } from '../../src/store/rows/money/document-rows.ts';
import { answerCorrection, proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { answerPayment } from '../../src/usecases/money/answer-payment.ts';
import { chargeInterest } from '../../src/usecases/money/charge-interest.ts';
import { exportJournal } from '../../src/usecases/money/export-journal.ts';
import { giveAdvances } from '../../src/usecases/money/give-advances.ts';
import { holdAmount } from '../../src/usecases/money/hold-amount.ts';
import { readInstruction, writeInstruction } from '../../src/usecases/money/instruct-payment.ts';
import { keepAccount } from '../../src/usecases/money/keep-account.ts';
import { recordLien } from '../../src/usecases/money/keep-liens.ts';
import { printDocument, writeDocumentXml, writeStatementCsv } from '../../src/usecases/money/print-money.ts';
import { readDocument } from '../../src/usecases/money/read-document.ts';
import { readMoney } from '../../src/usecases/money/read-money.ts';
import { readStatements } from '../../src/usecases/money/read-statement.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { reversePayment } from '../../src/usecases/money/reverse-payment.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { brokenRules } from '../documents/e-invoice/en16931-rules.ts';
import { readXml } from '../documents/xml-reader.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
/** Lived once, for tests that only read. */
let shared: Awaited<ReturnType<typeof lived>>;
beforeAll(async () => {
  record = await openTestRecord();
  shared = await lived();
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

const PAYMENT = { netDays: '10', from: 'invoice', invoices: 'day', returnedPaymentFee: '25' };

/** One invoice of 1,000.00 paid late and given back, one of 1,200.00 held in part, and a load still to be invoiced. */
async function lived(): Promise<MoneyWorld & { readonly documentId: string }> {
  const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
  const { agreementId } = world;
  world.on('2026-09-20');
  await world.deliver({ T1: '10' }, '2026-09-18');
  const { documents } = await world.invoice();
  world.on('2026-10-05');
  const payment = { amount: '1000', paid_on: '2026-10-04', method: 'check', reference: '7' };
  const { paymentId } = await recordPayment(world.buyer, { agreementId, direction: 'paid', payment });
  await answerPayment(world.seller, { paymentId, answer: 'confirmed' });
  world.on('2026-10-12');
  await reversePayment(world.seller, { paymentId, reversedOn: '2026-10-11', reason: 'no funds' });
  const loads = await world.deliver({ T2: '12' }, '2026-10-10');
  const second = await world.invoice();
  await holdAmount(world.buyer, {
    documentId: second.documents[0]?.id ?? '',
    loadId: loads[0] ?? '',
    figure: '1100',
    reason: 'Wetter than tested',
  });
  world.on('2026-11-20');
  await world.deliver({ T3: '5' }, '2026-11-19');
  return { ...world, documentId: documents[0]?.id ?? '' };
}

async function both(
  world: MoneyWorld,
  days: { from?: string; to?: string } = {},
): Promise<readonly [Statement, Statement]> {
  const { seller, buyer, agreementId } = world;
  const [mine] = await readStatements(seller, { partnerId: buyer.caller.partyId, agreementId, ...days });
  const [theirs] = await readStatements(buyer, { partnerId: seller.caller.partyId, agreementId, ...days });
  if (!mine || !theirs) throw new Error('A statement is missing');
  return [mine, theirs];
}

const turned = (amount: string) =>
  /[1-9]/.test(amount) ? (amount.startsWith('-') ? amount.slice(1) : `-${amount}`) : amount;
/** Every amount of a statement, in order. */
const amountsOf = (statement: Statement) => [
  statement.opening,
  statement.closing,
  ...statement.entries.flatMap(({ amount, balance }) => [amount, balance]),
  ...Object.values(statement.ageing),
  ...statement.open.flatMap(({ amount, open, held }) => [amount, open, held]),
  ...statement.held.map(({ amount }) => amount),
  ...statement.notInvoiced.flatMap(({ settled, provisional, advances }) => [settled, provisional, advances]),
];
const cents = (amount: string) => BigInt(amount.replace('.', ''));

describe('a statement', () => {
  test('tells what happened, what is open and held, and what is on no invoice yet', async () => {
    const [mine] = await both(shared);
    expect(mine.entries.map(({ on, name, amount, balance }) => [on, name, amount, balance])).toEqual([
      ['2026-09-20', 'Invoice 1', '1000.00', '1000.00'],
      ['2026-10-05', 'Check 7', '-1000.00', '0.00'],
      ['2026-10-12', 'Check 7 taken back', '1000.00', '1000.00'],
      ['2026-10-12', 'Fee invoice 2', '25.00', '1025.00'],
      ['2026-10-12', 'Invoice 3', '1200.00', '2225.00'],
    ]);
    expect(mine.closing).toBe('2225.00');
    expect(mine.ageing).toMatchObject({
      days31to60: '1025.00',
      days1to30: '1100.00',
      held: '100.00',
      total: '2225.00',
    });
    expect(mine.held).toMatchObject([
      { document: 'Invoice 3', ticket: 'T2', amount: '100.00', since: '2026-10-12' },
    ]);
    expect(mine.notInvoiced).toMatchObject([{ settledLoads: 1, settled: '500.00', unpricedLoads: 0 }]);
  });

  test('is the other side’s with every sign turned, and closes at the sum of its open items', async () => {
    const [mine, theirs] = await both(shared);
    expect(amountsOf(theirs)).toEqual(amountsOf(mine).map(turned));
    expect(theirs.entries.map(({ name, detail }) => [name, detail])).toEqual(
      mine.entries.map(({ name, detail }) => [name, detail]),
    );
    expect(mine.open.reduce((sum, { open }) => sum + cents(open), 0n)).toBe(cents(mine.closing));
    const { total, ...parts } = mine.ageing;
    expect(Object.values(parts).reduce((sum, part) => sum + cents(part), 0n)).toBe(cents(total));
  });

  test('of a past period opens where the one before closed, and stays as it was', async () => {
    const world = await lived();
    const [september] = await both(world, { to: '2026-09-30' });
    const [october] = await both(world, { from: '2026-10-01', to: '2026-10-31' });
    expect(september).toMatchObject({ opening: '0.00', closing: '1000.00' });
    expect(october).toMatchObject({ opening: '1000.00', closing: '2225.00' });
    expect(september.open).toMatchObject([{ name: 'Invoice 1', open: '1000.00', daysLate: 0 }]);
    await world.invoice();
    expect((await both(world, { to: '2026-09-30' }))[0].entries).toEqual(september.entries);
  });

  test('sums what two parties sell one another, each for its reader', async () => {
    const one = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    const parties = { seller: one.buyer.caller, buyer: one.seller.caller };
    const back = await moneyWorld(record, { conditions: { payment: PAYMENT }, parties });
    await one.deliver({ T1: '10' }, '2026-11-20');
    await back.deliver({ T1: '4' }, '2026-11-20');
    await one.invoice();
    await back.invoice();
    const [statement] = await readStatements(one.seller, { partnerId: one.buyer.caller.partyId });
    expect(statement).toMatchObject({ closing: '600.00' });
    expect(statement?.entries.map(({ amount }) => amount)).toEqual(['1000.00', '-400.00']);
  });

  test('is nobody else’s', async () => {
    const world = shared;
    const stranger = { ...world.seller, caller: await newParty(record.tools, 'Strange Farm') };
    const partnerId = world.buyer.caller.partyId;
    expect(await refused(readStatements(stranger, { partnerId }))).toBe('not-found');
    expect(await refused(readDocument(stranger, { documentId: world.documentId }))).toBe('not-found');
    expect(await refused(exportJournal(stranger, { agreementId: world.agreementId }))).toBe('not-found');
  });
});

describe('advances', () => {
  test('are given once on an estimate, taken off the invoice, and given back where the load is refused', async () => {
    const advance = { sharePercent: '80', rate: '60', per: 'short-ton' };
    const world = await moneyWorld(record, {
      conditions: { payment: PAYMENT, advance },
      terms: {
        price: [{ term: 'flat', label: 'Feed', rate: '100', per: 'short-ton', weight: 'dry-matter' }],
        acceptance: [{ on: 'moisture', above: '50' }],
      },
    });
    const { agreementId, seller, buyer } = world;
    const load = { delivered_at: '2026-11-20T09:00:00-07:00', gross: '50000', tare: '30000', unit: 'lb' };
    await recordLoads(seller, {
      agreementId,
      loads: ['T1', 'T2'].map((ticket) => ({ ...load, ticket, sample: ticket })),
      confirmed: true,
    });
    // 10 short tons × 60.00 × 80 % = 480.00 each.
    const given = await giveAdvances(seller, { agreementId });
    expect(given).toMatchObject({ loads: 2, document: { number: '1', payable: '960.00' } });
    expect(await giveAdvances(seller, { agreementId })).toEqual({ document: null, loads: 0 });
    const [before] = await both(world);
    expect(before.notInvoiced).toMatchObject([
      { unpricedLoads: 2, valuedLoads: 2, provisional: '1200.00', advances: '960.00' },
    ]);
    await recordResults(buyer, {
      agreementId,
      results: [
        { sample: 'T1', basis: 'dry-matter', dry_matter: '60' },
        { sample: 'T2', basis: 'dry-matter', dry_matter: '40' },
      ],
      confirmed: true,
    });
    await recordChoices(buyer, { agreementId, choices: [{ ticket: 'T2', choice: 'refuse' }] });
    await settleLoads(seller, { agreementId });
    // 6 tons of dry matter at 100.00, less the advance; the other load's advance goes back.
    const { documents } = await world.invoice();
    expect(documents.map(({ kind, payable }) => [kind, payable])).toEqual([
      ['invoice', '120.00'],
      ['credit-note', '-480.00'],
    ]);
    const [after] = await both(world);
    expect(after.closing).toBe('600.00');
    expect(after.notInvoiced).toEqual([]);
  });
});

describe('papers', () => {
  test('of a document are the same bytes each time, for both sides, whatever happens later', async () => {
    const world = await lived();
    const fonts = await readFonts();
    const { documentId } = world;
    const first = await printDocument(world.seller, { documentId, fonts });
    world.on('2026-12-24');
    await world.invoice();
    const again = await printDocument(world.buyer, { documentId, fonts });
    expect(Buffer.from(again.bytes).equals(Buffer.from(first.bytes))).toBe(true);
    expect(first.name).toMatch(/^Invoice-1-/);
  });

  test('of a document are an e-invoice too, with countries that are named', async () => {
    const { seller, documentId } = shared;
    const { text } = await writeDocumentXml(seller, { documentId, countries: { seller: 'US', buyer: 'US' } });
    expect(text).toContain('<cbc:PayableAmount currencyID="USD">1000.00</cbc:PayableAmount>');
    const unnamed = { documentId, countries: { seller: 'us', buyer: '' } };
    expect(await refused(writeDocumentXml(seller, unnamed))).toBe('bad-input');
  });

  test('keep to the arithmetic of EN 16931, whatever they are about', async () => {
    const interest = { percentPerYear: '8', dayCount: 'actual/365' };
    const deductions = [{ label: 'Drying', rate: '1.37', per: 'short-ton', weight: 'as-fed' }];
    const world = await moneyWorld(record, { conditions: { payment: { ...PAYMENT, interest }, deductions } });
    const { agreementId, seller, buyer } = world;
    const [loadId = ''] = await world.deliver({ T1: '10.123', T2: '9.5' }, '2026-11-20');
    await world.invoice();
    const figures = {
      ticket: 'T1',
      delivered_at: '2026-11-20T09:00:00-06:00',
      gross: '49999',
      tare: '30000',
      unit: 'lb',
    };
    const proposed = {
      agreementId,
      subject: 'load',
      subjectId: loadId,
      figures,
      reason: 'Misread',
      confirmed: true,
    } as const;
    const { correctionId } = await proposeCorrection(buyer, proposed);
    await answerCorrection(seller, { correctionId, answer: 'confirmed' });
    world.on('2026-12-24');
    await chargeInterest(seller, { agreementId, through: '2026-12-24' });
    const { open } = (await both(world))[0];
    expect(open.map(({ kind }) => kind)).toEqual(['invoice', 'interest']);
    const documents = await record.tools.store.forParty(seller.caller.partyId, (tx) =>
      readDocuments(tx, [agreementId]),
    );
    expect(documents.map(({ fact }) => fact.kind)).toEqual(['invoice', 'credit-note', 'interest']);
    for (const { id } of documents) {
      const { text } = await writeDocumentXml(buyer, {
        documentId: id,
        countries: { seller: 'US', buyer: 'CA' },
      });
      expect(brokenRules(readXml(text))).toEqual([]);
    }
  });

  test('of a statement carry its figures', async () => {
    const { seller, buyer } = shared;
    const { text, name } = await writeStatementCsv(seller, { partnerId: buyer.caller.partyId });
    expect(text).toContain('2225.00');
    expect(name).toMatch(/\.csv$/);
  });
});

test('the journal’s export balances, entry by entry, and is the other side’s with debit and credit changed', async () => {
  const world = shared;
  const rowsOf = async (context: MoneyWorld['seller']) =>
    parse(await exportJournal(context, { agreementId: world.agreementId }), { columns: true }) as Record<
      string,
      string
    >[];
  const [mine, theirs] = [await rowsOf(world.seller), await rowsOf(world.buyer)];
  const sums = new Map<string, bigint>();
  for (const row of mine) {
    const entry = row['entry_number'] ?? '';
    const change = row['debit'] ? cents(row['debit']) : -cents(row['credit'] ?? '');
    sums.set(entry, (sums.get(entry) ?? 0n) + change);
  }
  expect(sums.size).toBeGreaterThan(8);
  expect([...sums.values()].every((sum) => sum === 0n)).toBe(true);
  expect(theirs.map(({ debit, credit }) => [credit, debit])).toEqual(
    mine.map(({ debit, credit }) => [debit, credit]),
  );
});

describe('a payment instruction', () => {
  test('pays what is due and not held, to the account that the payee named', async () => {
    const world = await lived();
    const account = {
      holder: 'Quillback Acres',
      kind: 'other',
      number: '12345',
      bank_kind: 'aba',
      bank: '021000021',
    };
    await keepAccount(world.seller, { account });
    expect(await refused(keepAccount(world.buyer, { account: { ...account, bank: '021000022' } }))).toBe(
      'bad-input',
    );
    await keepAccount(world.buyer, { account: { ...account, holder: 'Tarn Hollow Dairy' } });
    const wanted = { agreementId: world.agreementId, dueBy: '2026-11-20', payOn: '2026-11-23' };
    const { payments } = await readInstruction(world.buyer, wanted);
    expect(payments).toMatchObject([{ amount: '2125.00', account: { number: '12345' }, jointPayees: [] }]);
    const { text } = await writeInstruction(world.buyer, { ...wanted, form: 'pain.001' });
    expect(text).toContain('<CtrlSum>2125.00</CtrlSum>');
    expect(await refused(readInstruction(world.buyer, { ...wanted, dueBy: '2026-09-01' }))).toBe('bad-input');
    expect(await refused(readInstruction(world.seller, wanted))).toBe('bad-input');
  });

  test('names a lender with a lien, and pays both by check', async () => {
    const world = await lived();
    const notice = {
      lender: 'Fallow Creek Credit',
      debtor: 'Quillback Acres',
      crop_year: '2026',
      county: 'Larkspur',
      conditions: 'To both',
      received_on: '2026-11-01',
    };
    await recordLien(world.buyer, { agreementId: world.agreementId, notice });
    const { text } = await writeInstruction(world.buyer, {
      agreementId: world.agreementId,
      dueBy: '2026-11-20',
      payOn: '2026-11-23',
      form: 'csv',
    });
    expect(text).toContain('check');
    expect(text).toContain('Fallow Creek Credit');
    expect((await both(world))[0].liens).toMatchObject([
      { lender: 'Fallow Creek Credit', conditions: 'To both' },
    ]);
  });
});

test('the money place tells each side who owes whom, and what waits', async () => {
  const world = await lived();
  const { agreementId } = world;
  const payment = { amount: '10', paid_on: '2026-11-20', method: 'cash' };
  await recordPayment(world.buyer, { agreementId, direction: 'paid', payment });
  const [sellers, buyers] = await Promise.all(
    [world.seller, world.buyer].map((context) => readMoney(context, { locale: 'en-US', agreementId })),
  );
  expect(sellers?.partners).toMatchObject([
    { direction: 'they-owe', balance: '2,225.00', overdue: '2,125.00', held: '100.00', settledLoads: 1 },
  ]);
  expect(buyers?.partners).toMatchObject([
    { direction: 'you-owe', balance: '2,225.00', overdue: '2,125.00' },
  ]);
  expect(sellers?.waits.map(({ kind }) => kind)).toEqual(['issue', 'payment']);
  expect(buyers?.waits.map(({ kind }) => kind)).toEqual(['pay']);
  expect(sellers?.seasons[0]?.days.at(-1)).toMatchObject({
    delivered: '2700.00',
    invoiced: '2225.00',
    paid: '0.00',
  });
});
