/**
 * Invented documents about money for the tests of e-invoices: one worked out, and any that the format allows.
 */
import fc from 'fast-check';
import type {
  AdvanceTaken,
  DeductionLine,
  DocumentLine,
  LineLoad,
  MoneyDocument,
} from '../../../src/domain/money/money-document.ts';
import { DOCUMENT_KINDS } from '../../../src/domain/money/money-document.ts';

const LOAD: LineLoad = { ticket: 'T1', deliveredOn: '2026-09-14' };

/** 1,815.82 + 342.99 − 71.83 − 100.13 = 1,986.85; less 25.00 and 500.00 it is 1,461.85. */
export const INVOICE: MoneyDocument = {
  format: 'huskledger-document/1',
  kind: 'invoice',
  number: '17',
  agreement: { number: 'A-26-014', version: '2', fingerprint: '9f2c7d1e' },
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  issuedBy: 'seller',
  feed: 'whole-ear corn: ground grain, cob and husk',
  issuedOn: '2026-09-21',
  dueOn: '2026-10-06',
  period: { from: '2026-09-14', to: '2026-09-14' },
  currency: 'USD',
  corrects: [],
  reason: null,
  lines: [
    {
      ...{ load: LOAD, label: 'Grain, by its starch', unit: 'lb', how: '47,120 lb × 59.2 % × 54 % ÷ 71 %' },
      ...{ quantity: '21215.945915', rate: '0.0855875', amount: '1815.82' },
    },
    {
      ...{ load: LOAD, label: 'Cob, husk and other fibre', unit: 'lb', how: '0.0855875 × 60 %' },
      ...{ quantity: '6679.094085', rate: '0.0513525', amount: '342.99' },
    },
    {
      ...{ load: LOAD, label: 'Fibre above range', unit: 'short-ton', how: 'NDF 31.3 %' },
      ...{ quantity: '13.94752', rate: '-5.15', amount: '-71.83' },
    },
    {
      ...{ load: LOAD, label: 'Hauling', unit: 'short-ton', how: '47,120 lb ÷ 2,000' },
      ...{ quantity: '23.56', rate: '-4.25', amount: '-100.13' },
    },
  ],
  deductions: [
    {
      ...{ load: LOAD, label: 'Checkoff', unit: 'USD', how: '', payee: 'Sallowfen Growers Board' },
      ...{ quantity: '1', rate: '25', amount: '25.00' },
    },
  ],
  advances: [{ load: LOAD, number: '12', issuedOn: '2026-09-15', amount: '500.00' }],
  totals: { goods: '1986.85', deductions: '25.00', advances: '500.00', payable: '1461.85' },
  jointPayees: [],
  terms: ['Due 15 days after the invoice.', 'Late payment bears 6 % a year.'],
};

/** A count of minor units as a decimal string, without the product's printing. */
export function money(units: bigint, decimals: number): string {
  const digits = String(units < 0n ? -units : units).padStart(decimals + 1, '0');
  const whole = digits.slice(0, digits.length - decimals);
  return `${units < 0n ? '-' : ''}${decimals === 0 ? whole : `${whole}.${digits.slice(-decimals)}`}`;
}

const CURRENCIES = [
  { code: 'USD', decimals: 2 },
  { code: 'EUR', decimals: 2 },
  { code: 'JPY', decimals: 0 },
  { code: 'KWD', decimals: 3 },
] as const;
const UNITS = ['lb', 'kg', 'cwt', 'short-ton', 'tonne', 'bushel', 'load', 'mile', 'km', 'USD'];

/** Texts as people write them, and as nobody should. */
const text = fc.oneof(
  fc.constantFrom('Hauling', 'Fibre <30 %', 'R&D "x"', ']]>'),
  fc.string({ minLength: 1 }),
);
const load = fc.option(fc.constantFrom(LOAD, { ticket: '<T&2>', deliveredOn: '2026-09-16' }));

/** quantity × rate rounded half away from zero; quantity and rate have up to 6 decimals, the rate any sign. */
function lineIn(decimals: number): fc.Arbitrary<DocumentLine> {
  const figures = fc.record({
    load,
    label: text,
    unit: fc.constantFrom(...UNITS),
    how: fc.oneof(fc.constant(''), text),
    quantity: fc.bigInt({ min: 0n, max: 60_000_000_000n }),
    rate: fc.bigInt({ min: -9_000_000n, max: 9_000_000n }),
  });
  return figures.map(({ quantity, rate, ...rest }) => {
    const product = quantity * rate * 10n ** BigInt(decimals);
    const size = ((product < 0n ? -product : product) * 2n + 10n ** 12n) / (2n * 10n ** 12n);
    return {
      ...rest,
      quantity: money(quantity, 6),
      rate: money(rate, 6),
      amount: money(product < 0n ? -size : size, decimals),
    };
  });
}

const unitsOf = (amount: string) => BigInt(amount.replace('.', ''));
const total = (amounts: readonly { readonly amount: string }[]) =>
  amounts.reduce((sum, { amount }) => sum + unitsOf(amount), 0n);

/** Any document that the format allows, its totals right. */
export const anyDocument: fc.Arbitrary<MoneyDocument> = fc
  .constantFrom(...CURRENCIES)
  .chain(({ code, decimals }) => {
    const deduction = fc
      .tuple(lineIn(decimals), fc.option(text))
      .map(([line, payee]): DeductionLine => ({ ...line, payee }));
    const advance = fc
      .record({
        number: fc.constantFrom('3', '4', '5'),
        units: fc.bigInt({ min: -9_999n, max: 99_999_999n }),
      })
      .map(
        ({ number, units }): AdvanceTaken => ({
          ...{ load: LOAD, number, issuedOn: '2026-09-15' },
          amount: money(units, decimals),
        }),
      );
    return fc
      .record({
        kind: fc.constantFrom(...DOCUMENT_KINDS),
        issuedBy: fc.constantFrom('seller', 'buyer'),
        seller: text,
        buyer: text,
        reason: fc.option(text),
        period: fc.constantFrom(null, { from: '2026-09-14', to: '2026-09-30' }),
        corrects: fc.constantFrom([], [{ kind: 'invoice', number: '9', issuedOn: '2026-09-01' } as const]),
        lines: fc.array(lineIn(decimals), { maxLength: 6 }),
        deductions: fc.array(deduction, { maxLength: 3 }),
        advances: fc.array(advance, { maxLength: 3 }),
        jointPayees: fc.array(text, { maxLength: 2 }),
        terms: fc.array(text, { maxLength: 2 }),
      })
      .map((parts): MoneyDocument => {
        const [goods, deductions, advances] = [
          total(parts.lines),
          total(parts.deductions),
          total(parts.advances),
        ];
        const totals = { goods, deductions, advances, payable: goods - deductions - advances };
        const printed = Object.entries(totals).map(([name, units]) => [name, money(units, decimals)]);
        return { ...INVOICE, ...parts, currency: code, totals: Object.fromEntries(printed) };
      });
  });
