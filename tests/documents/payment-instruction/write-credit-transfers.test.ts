/**
 * Payment instructions as pain.001.001.09, read back with libxml2: who is paid how and for what, counts and sums, order,
 * number and length of elements; and every fault that a bank would turn back.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { writeCreditTransfers } from '../../../src/documents/payment-instruction/write-credit-transfers.ts';
import type { InstructedPayment, PaymentInstruction } from '../../../src/domain/money/payment-instruction.ts';
import { orderFaults } from '../element-order.ts';
import { all, everyElement, type ReadElement, readXml, texts } from '../xml-reader.ts';
import { anyInstruction, BY_IBAN, BY_ROUTING, INSTRUCTION } from './instructions.ts';
import { PAIN_TABLE, PAIN_TEXTS } from './pain-table.ts';

function write(instruction: PaymentInstruction): string {
  const written = writeCreditTransfers(instruction);
  if (!written.ok) throw new Error(written.problems.map(({ message }) => message).join('\n'));
  return written.text;
}
const message = (instruction: PaymentInstruction) => all(readXml(write(instruction)), 'CstmrCdtTrfInitn')[0];

const [TRANSFER, , CHECK] = INSTRUCTION.payments;
if (!TRANSFER || !CHECK) throw new Error('the instruction lacks payments');
const only = (payment: InstructedPayment): PaymentInstruction => ({ ...INSTRUCTION, payments: [payment] });
const paymentOf = (payment: InstructedPayment): ReadElement => {
  const found = all(readXml(write(only(payment))), 'CstmrCdtTrfInitn', 'PmtInf', 'CdtTrfTxInf')[0];
  if (!found) throw new Error('no payment was written');
  return found;
};

describe('the message', () => {
  const root = message(INSTRUCTION);
  if (!root) throw new Error('no message was written');

  test('says who sends it, how many payments it has and what they come to', () => {
    expect(root.namespace).toBe('urn:iso:std:iso:20022:tech:xsd:pain.001.001.09');
    const header = (name: string) => texts(root, 'GrpHdr', name)[0];
    expect([header('MsgId'), header('CreDtTm')]).toEqual(['TH-2026-0007', '2026-10-05T09:30:00-06:00']);
    // 1880.59 + 0.10 + 0.20, which binary floats make 1880.8899999999999.
    expect([header('NbOfTxs'), header('CtrlSum')]).toEqual(['3', '1880.89']);
    expect(texts(root, 'GrpHdr', 'InitgPty', 'Nm')).toEqual(['Tarn Hollow Dairy']);
  });

  test('has a block for transfers and one for checks, each with its own count', () => {
    const blocks = all(root, 'PmtInf').map((block) =>
      ['PmtInfId', 'PmtMtd', 'NbOfTxs', 'CtrlSum'].map((name) => texts(block, name)[0]).join(' '),
    );
    expect(blocks).toEqual(['TH-2026-0007-TRF TRF 2 1880.69', 'TH-2026-0007-CHK CHK 1 0.20']);
    expect(texts(root, 'PmtInf', 'ReqdExctnDt', 'Dt')).toEqual(['2026-10-06', '2026-10-06']);
    expect(texts(root, 'PmtInf', 'DbtrAcct', 'Id', 'Othr', 'Id')).toEqual(['99-1000', '99-1000']);
    expect(texts(root, 'PmtInf', 'DbtrAgt', 'FinInstnId', 'ClrSysMmbId', 'MmbId')[0]).toBe('123456780');
    expect(all(message(only(CHECK)) ?? root, 'PmtInf')).toHaveLength(1);
  });
});

describe('a payment', () => {
  test('goes to an IBAN at a BIC, in the name of the account’s holder, for whom it is meant', () => {
    const payment = paymentOf(TRANSFER);
    expect(texts(payment, 'PmtId', 'EndToEndId')).toEqual(['TH-7-1']);
    expect(all(payment, 'Amt', 'InstdAmt')[0]).toMatchObject({ text: '1880.59', attributes: { Ccy: 'USD' } });
    expect(texts(payment, 'CdtrAgt', 'FinInstnId', 'BICFI')).toEqual(['QUILGB22']);
    expect(texts(payment, 'CdtrAcct', 'Id', 'IBAN')).toEqual(['GB82WEST12345698765432']);
    expect(texts(payment, 'Cdtr', 'Nm')).toEqual(['Quillback Acres LLC']);
    expect(texts(payment, 'UltmtCdtr', 'Nm')).toEqual(['Quillback Acres']);
  });

  test('goes to any other account by its bank’s routing number', () => {
    const payment = paymentOf({ ...TRANSFER, payee: BY_ROUTING.holder, account: BY_ROUTING });
    expect(texts(payment, 'CdtrAgt', 'FinInstnId', 'ClrSysMmbId', 'ClrSysId', 'Cd')).toEqual(['USABA']);
    expect(texts(payment, 'CdtrAcct', 'Id', 'Othr', 'Id')).toEqual(['0004711']);
    expect(all(payment, 'UltmtCdtr')).toEqual([]);
  });

  test('is a check to all that it is made out to where there is no account', () => {
    const payment = paymentOf(CHECK);
    expect(texts(payment, 'Cdtr', 'Nm')).toEqual(['Quillback Acres and Sallowfen Savings Bank, jointly']);
    expect([all(payment, 'CdtrAcct'), all(payment, 'CdtrAgt'), all(payment, 'UltmtCdtr')]).toEqual([
      [],
      [],
      [],
    ]);
    const lenders = ['Sallowfen Savings Bank', 'Ochre Fen Savings'];
    expect(texts(paymentOf({ ...TRANSFER, jointPayees: lenders }), 'Cdtr', 'Nm')).toEqual([
      'Quillback Acres, Sallowfen Savings Bank and Ochre Fen Savings, jointly',
    ]);
  });

  test('says what it pays, and which credit note was taken off', () => {
    const strd = all(paymentOf(TRANSFER), 'RmtInf', 'Strd');
    expect(strd.map((one) => texts(one, 'RfrdDocInf', 'Tp', 'CdOrPrtry', 'Cd')[0])).toEqual(['CINV', 'CREN']);
    expect(strd.map((one) => texts(one, 'RfrdDocInf', 'Nb')[0])).toEqual(['17', '18']);
    expect(strd.map((one) => texts(one, 'RfrdDocInf', 'RltdDt')[0])).toEqual(['2026-09-21', '2026-09-21']);
    expect(strd.map((one) => all(one, 'RfrdDocAmt')[0]?.children)).toMatchObject([
      [{ name: 'RmtdAmt', text: '1961.18', attributes: { Ccy: 'USD' } }],
      [{ name: 'CdtNoteAmt', text: '80.59', attributes: { Ccy: 'USD' } }],
    ]);
    expect(all(paymentOf({ ...TRANSFER, invoices: [] }), 'RmtInf')).toEqual([]);
  });
});

describe('any instruction', () => {
  test('keeps the order, number and lengths of the standard, counts right, and is the same each time', () => {
    fc.assert(
      fc.property(anyInstruction, (instruction) => {
        const text = write(instruction);
        const root = readXml(text);
        expect(orderFaults(root, PAIN_TABLE)).toEqual([]);
        for (const { name, text: content, children } of everyElement(root)) {
          const expected = children.length === 0 ? PAIN_TEXTS[name] : undefined;
          if (expected) expect(content, name).toMatch(expected);
        }
        expect(write(structuredClone(instruction))).toBe(text);
        // Amounts have at most 3 decimals: thousandths are whole.
        const thousandths = (decimal: string) => {
          const [whole = '', fraction = ''] = decimal.split('.');
          return BigInt(whole + fraction.padEnd(3, '0'));
        };
        const sum = (amounts: readonly string[]) => amounts.reduce((all, one) => all + thousandths(one), 0n);
        const blocks = all(root, 'CstmrCdtTrfInitn', 'PmtInf');
        for (const block of blocks) {
          const amounts = texts(block, 'CdtTrfTxInf', 'Amt', 'InstdAmt');
          expect(texts(block, 'NbOfTxs')).toEqual([String(amounts.length)]);
          expect(thousandths(texts(block, 'CtrlSum')[0] ?? '')).toBe(sum(amounts));
        }
        const [header] = texts(root, 'CstmrCdtTrfInitn', 'GrpHdr', 'CtrlSum');
        expect(thousandths(header ?? '')).toBe(sum(instruction.payments.map(({ amount }) => amount)));
      }),
      { numRuns: 200 },
    );
  });

  test('would be found out of order or too long', () => {
    const text = write(INSTRUCTION);
    const moved = text.replace(/( +<PmtMtd>.*\n)( +<NbOfTxs>.*\n)/, '$2$1');
    expect(orderFaults(readXml(moved), PAIN_TABLE)).toHaveLength(1);
    expect(orderFaults(readXml(text.replaceAll('DbtrAgt', 'DbtrBank')), PAIN_TABLE)).not.toEqual([]);
    expect('x'.repeat(36)).not.toMatch(PAIN_TEXTS['MsgId'] ?? /^/);
    expect('1234567890123.123456').not.toMatch(PAIN_TEXTS['InstdAmt'] ?? /^/);
    expect('12345678901234567890').not.toMatch(PAIN_TEXTS['InstdAmt'] ?? /^/);
  });
});

describe('what a bank would turn back is a problem with its place', () => {
  const long = 'Widows of Upper Sallowfen Cooperative Ear Corn and Silage Farm';
  const payment = (change: Partial<InstructedPayment>) => only({ ...TRANSFER, ...change });
  const account = (change: Partial<typeof BY_IBAN>) => payment({ account: { ...BY_IBAN, ...change } });
  const cases: [string, PaymentInstruction, place: string, message: RegExp][] = [
    [
      'a name of 157 characters',
      payment({ payee: long, jointPayees: [long, 'Ochre Fen Savings'] }),
      'payments[0].payee',
      /^This is 157 characters long, a bank takes at most 140: Widows/,
    ],
    ['a reference of 36', payment({ reference: 'x'.repeat(36) }), 'payments[0].reference', /36 characters/],
    ['an empty reference', payment({ reference: ' ' }), 'payments[0].reference', /empty/],
    [
      'a reference used twice',
      { ...INSTRUCTION, payments: [TRANSFER, TRANSFER] },
      'payments[1].reference',
      /same reference/,
    ],
    ['an id of 36', { ...INSTRUCTION, id: 'x'.repeat(36) }, 'id', /36 characters/],
    ['a wrong IBAN', account({ number: 'GB83WEST12345698765432' }), 'payments[0].account.number', /no IBAN/],
    ['a wrong BIC', account({ bank: 'QUIL' }), 'payments[0].account.bank', /no BIC/],
    [
      'a wrong routing number',
      payment({ account: { ...BY_ROUTING, bank: '123456781' } }),
      'payments[0].account.bank',
      /no routing number/,
    ],
    [
      'no bank',
      payment({ account: { ...BY_ROUTING, bankKind: null, bank: null } }),
      'payments[0].account.bank',
      /has to be named/,
    ],
    [
      'an account number of 35',
      payment({ account: { ...BY_ROUTING, number: '1'.repeat(35) } }),
      'payments[0].account.number',
      /at most 34/,
    ],
    ['nothing', payment({ amount: '0.00' }), 'payments[0].amount', /above zero/],
    ['less than nothing', payment({ amount: '-1.00' }), 'payments[0].amount', /above zero/],
    ['a third decimal', payment({ amount: '1.001' }), 'payments[0].amount', /USD has 2 decimals/],
    ['19 digits', payment({ amount: '12345678901234567.89' }), 'payments[0].amount', /18 digits/],
    ['no figure', payment({ amount: '1,000' }), 'payments[0].amount', /No amount/],
    ['no currency', payment({ currency: 'usd' }), 'payments[0].currency', /Not a currency/],
    ['no account to pay from', { ...INSTRUCTION, payerAccount: null }, 'payerAccount', /not known/],
    ['no payments', { ...INSTRUCTION, payments: [] }, 'payments', /nothing to pay/],
    ['no time', { ...INSTRUCTION, createdAt: '2026-10-05' }, 'createdAt', /No time with an offset/],
    ['no date', { ...INSTRUCTION, payOn: 'soon' }, 'payOn', /No date/],
    ['a character without a place', payment({ payee: 'Quill\u0000back' }), 'payments[0].payee', /XML/],
    [
      'an invoice’s number of 36',
      payment({ invoices: [{ name: '', number: 'x'.repeat(36), issuedOn: '2026-09-21', amount: '1.00' }] }),
      'payments[0].invoices[0].number',
      /36 characters/,
    ],
  ];
  test.each(cases)('%s', (_, instruction, place, expected) => {
    const written = writeCreditTransfers(instruction);
    if (written.ok) throw new Error('it was written');
    expect(written.problems.map((problem) => problem.place)).toEqual([place]);
    expect(written.problems[0]?.message).toMatch(expected);
  });

  test('all of them at once', () => {
    const written = writeCreditTransfers({ ...payment({ amount: '0', reference: '' }), payer: '' });
    expect(written).toMatchObject({ ok: false, problems: { length: 3 } });
  });
});
