/**
 * Invented payment instructions: one with a transfer by IBAN, one by routing number, a check; and any that can be written.
 */
import fc from 'fast-check';
import type {
  InstructedPayment,
  PayeeAccount,
  PaymentInstruction,
} from '../../../src/domain/money/payment-instruction.ts';
import { money } from '../e-invoice/money-documents.ts';

/** The IBANs are the examples of their registry, of no real account (memory); the routing number is made up. */
export const BY_IBAN: PayeeAccount = {
  ...{ holder: 'Quillback Acres LLC', kind: 'iban', number: 'GB82 WEST 1234 5698 7654 32' },
  ...{ bankKind: 'bic', bank: 'QUILGB22' },
};
export const BY_ROUTING: PayeeAccount = {
  ...{ holder: 'Sallowfen Freight', kind: 'other', number: '0004711', bankKind: 'aba', bank: '123456780' },
};
export const PAYER: PayeeAccount = {
  ...{ holder: 'Tarn Hollow Dairy', kind: 'other', number: '99-1000', bankKind: 'aba', bank: '123456780' },
};

const invoice = (number: string, amount: string) => ({
  ...{ name: `Invoice ${number}`, number, issuedOn: '2026-09-21', amount },
});

export const INSTRUCTION: PaymentInstruction = {
  id: 'TH-2026-0007',
  createdAt: '2026-10-05T09:30:00-06:00',
  payOn: '2026-10-06',
  payer: 'Tarn Hollow Dairy',
  payerAccount: PAYER,
  payments: [
    {
      ...{ reference: 'TH-7-1', payee: 'Quillback Acres', jointPayees: [], account: BY_IBAN },
      ...{ amount: '1880.59', currency: 'USD' },
      invoices: [invoice('17', '1961.18'), invoice('18', '-80.59')],
    },
    {
      ...{ reference: 'TH-7-2', payee: 'Sallowfen Freight', jointPayees: [], account: BY_ROUTING },
      ...{ amount: '0.10', currency: 'USD', invoices: [invoice('3', '0.10')] },
    },
    {
      ...{
        reference: 'TH-7-3',
        payee: 'Quillback Acres',
        jointPayees: ['Sallowfen Savings Bank'],
        account: null,
      },
      ...{ amount: '0.20', currency: 'USD', invoices: [invoice('19', '0.20')] },
    },
  ],
};

const name = fc.oneof(
  fc.constantFrom('Quillback & Acres', 'Łódź <Farm>'),
  fc.string({ minLength: 1, maxLength: 40 }),
);
const solid = name.filter((text) => text.trim() !== '');
const account = fc
  .tuple(fc.constantFrom(BY_IBAN, BY_ROUTING, { ...BY_IBAN, bankKind: null, bank: null }), solid)
  .map(([one, holder]): PayeeAccount => ({ ...one, holder }));
const CURRENCIES = [
  { code: 'USD', decimals: 2 },
  { code: 'JPY', decimals: 0 },
  { code: 'KWD', decimals: 3 },
] as const;

const anyPayment = fc.constantFrom(...CURRENCIES).chain(({ code, decimals }) => {
  const amount = (min: bigint) => fc.bigInt({ min, max: 10n ** 15n }).map((units) => money(units, decimals));
  return fc.record({
    payee: solid,
    jointPayees: fc.array(solid, { maxLength: 1 }),
    account: fc.option(account),
    amount: amount(1n),
    currency: fc.constant(code),
    invoices: fc.array(
      amount(-(10n ** 9n)).map((part) => invoice('17', part)),
      { maxLength: 3 },
    ),
  });
});

/** Any instruction without a fault; references count up. */
export const anyInstruction: fc.Arbitrary<PaymentInstruction> = fc
  .tuple(fc.array(anyPayment, { minLength: 1, maxLength: 6 }), account, solid)
  .map(([payments, payerAccount, payer]) => ({
    ...INSTRUCTION,
    ...{ payer, payerAccount },
    payments: payments.map((payment, index): InstructedPayment => ({ ...payment, reference: `R-${index}` })),
  }));
