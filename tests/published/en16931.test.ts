/**
 * The arithmetic of EN 16931 (rules BR-CO-10 to 17, BR-O-*; schematron of ConnectingEurope/eInvoicing-EN16931, read):
 * first the checker itself against published totals, then what we write of them, then any document that the format
 * allows; and that the checker sees it when one amount is changed.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { writeEInvoice } from '../../src/documents/e-invoice/write-e-invoice.ts';
import type { DocumentLine, MoneyDocument } from '../../src/domain/money/money-document.ts';
import { brokenRules } from '../documents/e-invoice/en16931-rules.ts';
import { anyDocument, INVOICE } from '../documents/e-invoice/money-documents.ts';
import { readXml, texts } from '../documents/xml-reader.ts';

const countries = { seller: 'US', buyer: 'US' };
const written = (document: MoneyDocument) => writeEInvoice({ document, countries });

/** Only the figures of an invoice: nets of lines, one charge, tax at 25 % and the totals. */
interface Published {
  readonly nets: readonly string[];
  readonly charge: string;
  readonly lines: string;
  readonly exclusive: string;
  readonly tax: string;
  readonly inclusive: string;
  readonly prepaid?: string;
  readonly rounding?: string;
  readonly payable: string;
}

function figuresAsXml({
  nets,
  charge,
  lines,
  exclusive,
  tax,
  inclusive,
  prepaid,
  rounding,
  payable,
}: Published) {
  const amount = (name: string, value?: string) =>
    value ? `<cbc:${name} currencyID="EUR">${value}</cbc:${name}>` : '';
  const standard = '<cbc:ID>S</cbc:ID><cbc:Percent>25</cbc:Percent>';
  return `<Invoice xmlns:cac="a" xmlns:cbc="b"><cbc:DocumentCurrencyCode>EUR</cbc:DocumentCurrencyCode>
    <cac:AllowanceCharge><cbc:ChargeIndicator>true</cbc:ChargeIndicator>${amount('Amount', charge)}</cac:AllowanceCharge>
    <cac:TaxTotal>${amount('TaxAmount', tax)}<cac:TaxSubtotal>${amount('TaxableAmount', exclusive)}${amount('TaxAmount', tax)}
      <cac:TaxCategory>${standard}</cac:TaxCategory></cac:TaxSubtotal></cac:TaxTotal>
    <cac:LegalMonetaryTotal>${amount('LineExtensionAmount', lines)}${amount('TaxExclusiveAmount', exclusive)}
      ${amount('TaxInclusiveAmount', inclusive)}${amount('ChargeTotalAmount', charge)}${amount('PrepaidAmount', prepaid)}
      ${amount('PayableRoundingAmount', rounding)}${amount('PayableAmount', payable)}</cac:LegalMonetaryTotal>
    ${nets.map((net) => `<cac:InvoiceLine>${amount('LineExtensionAmount', net)}</cac:InvoiceLine>`).join('')}</Invoice>`;
}

/** Of the arithmetic alone: these are figures and no whole invoices. */
const brokenSums = (xml: string) => brokenRules(readXml(xml)).filter((rule) => rule.startsWith('BR-CO-1'));

/** Peppol BIS Billing 3, base example (figures read): 7 × 400 − 3 × 500 = 1,300; + 25; 25 % tax 331.25. */
const BASE: Published = {
  ...{ nets: ['2800', '-1500.00'], charge: '25', lines: '1300', exclusive: '1325' },
  ...{ tax: '331.25', inclusive: '1656.25', payable: '1656.25' },
};

describe('the checker takes the published totals', () => {
  test('of the Peppol BIS Billing 3 base example', () => {
    expect(brokenSums(figuresAsXml(BASE))).toEqual([]);
  });

  test('with what is prepaid, and a rounding of 0.30 to a payable 729 as in the OASIS UBL 2.1 example', () => {
    // That example's other amounts are not at hand: here 1,656.25 less 927.55 is 728.70.
    const paid = { ...BASE, prepaid: '927.55', rounding: '0.30', payable: '729.00' };
    expect(brokenSums(figuresAsXml(paid))).toEqual([]);
    expect(brokenSums(figuresAsXml({ ...paid, rounding: '0.31' }))).toEqual(['BR-CO-16']);
  });

  test.each<[Partial<Published>, string[]]>([
    [{ nets: ['2800', '-1500.01'] }, ['BR-CO-10']],
    [{ charge: '25.01' }, ['BR-CO-13']],
    [{ lines: '1300.01' }, ['BR-CO-10', 'BR-CO-13']],
    [{ exclusive: '1324.99' }, ['BR-CO-13', 'BR-CO-15']],
    [{ tax: '331.26' }, ['BR-CO-15', 'BR-CO-17']],
    [{ inclusive: '1656.24' }, ['BR-CO-15', 'BR-CO-16']],
    [{ payable: '1656.00' }, ['BR-CO-16']],
  ])('and none with %o', (change, broken) => {
    expect(brokenSums(figuresAsXml({ ...BASE, ...change }))).toEqual(broken);
  });

  test('whose tax is rounded as XPath rounds: ties go up', () => {
    // 25 % of 0.06 is 0.015, of −0.06 is −0.015.
    const small = (sum: string, tax: string, payable: string) =>
      brokenSums(
        figuresAsXml({
          ...{ nets: [sum], charge: '0', lines: sum, exclusive: sum, tax, inclusive: payable, payable },
        }),
      );
    expect(small('0.06', '0.02', '0.08')).toEqual([]);
    expect(small('-0.06', '-0.01', '-0.07')).toEqual([]);
    expect(small('-0.06', '-0.02', '-0.08')).toEqual(['BR-CO-17']);
  });
});

describe('the base example’s figures as a document of ours, which knows no tax', () => {
  const line = (quantity: string, rate: string, amount: string): DocumentLine => ({
    ...{ load: null, label: 'Ear corn', unit: 'load', how: '' },
    ...{ quantity, rate, amount },
  });
  const document: MoneyDocument = {
    ...INVOICE,
    lines: [line('7', '400', '2800.00'), line('3', '-500', '-1500.00')],
    deductions: [{ ...line('1', '-25', '-25.00'), label: 'Freight', payee: null }],
    advances: [],
    totals: { goods: '1300.00', deductions: '-25.00', advances: '0.00', payable: '1325.00' },
  };
  const root = readXml(written(document));

  test('7 × 400 − 3 × 500 = 1,300; + 25 = 1,325', () => {
    const total = (name: string) => texts(root, 'cac:LegalMonetaryTotal', `cbc:${name}`)[0];
    expect(texts(root, 'cac:InvoiceLine', 'cbc:InvoicedQuantity')).toEqual(['7', '-3']);
    expect(texts(root, 'cac:InvoiceLine', 'cac:Price', 'cbc:PriceAmount')).toEqual(['400', '500']);
    expect(
      ['LineExtensionAmount', 'ChargeTotalAmount', 'TaxExclusiveAmount', 'PayableAmount'].map(total),
    ).toEqual([...['1300.00', '25.00', '1325.00', '1325.00']]);
    expect(brokenRules(root)).toEqual([]);
  });
});

/** KWD has more decimals than EN 16931 has room for, and such a document does not say that it keeps to it. */
const outside = ({ currency }: MoneyDocument) => (currency === 'KWD' ? ['BR-01', 'UBL-DT-01'] : []);

describe('any document of ours', () => {
  test('keeps every rule', () => {
    fc.assert(
      fc.property(anyDocument, (document) => {
        expect(brokenRules(readXml(written(document)))).toEqual(outside(document));
      }),
      { numRuns: 300 },
    );
  });

  test('breaks a rule as soon as any one of its amounts is another', () => {
    const amounts = /(<cbc:(?!PriceAmount)\w*Amount currencyID="\w+">)(-?)([\d.]+)(<)/g;
    fc.assert(
      fc.property(anyDocument, fc.constantFrom('1', '70000'), (document, more) => {
        const text = written(document);
        const known = outside(document);
        const places = [...text.matchAll(amounts)].map(({ index }) => index);
        expect(places.length).toBeGreaterThan(7);
        for (const place of places) {
          const changed = text.replace(amounts, (...found: (string | number)[]) =>
            // One digit before the amount makes it another in any currency.
            found[5] === place ? `${found[1]}${found[2]}${more}${found[3]}${found[4]}` : String(found[0]),
          );
          expect(brokenRules(readXml(changed)).filter((rule) => !known.includes(rule))).not.toEqual([]);
        }
      }),
      { numRuns: 60 },
    );
  });

  test.each([
    ['BR-CL-01', /(<cbc:InvoiceTypeCode>)380/, '$1381'],
    ['BR-16', /<cac:InvoiceLine>[\s\S]*<\/cac:InvoiceLine>/, ''],
    ['BR-25', /(<cbc:Name>)Hauling/, '$1'],
    ['BR-27', /(<cbc:PriceAmount currencyID="USD">)4.25/, '$1-4.25'],
    ['BR-29', /(<cbc:EndDate>)2026-09-14/, '$12026-09-13'],
    ['BR-CO-25', /<cbc:DueDate>[\s\S]*?<\/cbc:DueDate>|<cac:PaymentTerms>[\s\S]*?<\/cac:PaymentTerms>/g, ''],
    ['BR-CO-26', /<cac:PartyIdentification>[\s\S]*?<\/cac:PartyIdentification>/, ''],
    ['BR-O-05', /(<cac:ClassifiedTaxCategory>\s*<cbc:ID>O<\/cbc:ID>)/, '$1<cbc:Percent>0</cbc:Percent>'],
    ['BR-O-06', /(<cac:TaxCategory>\s*<cbc:ID>O<\/cbc:ID>)/, '$1<cbc:Percent>0</cbc:Percent>'],
    ['BR-O-10', /<cbc:TaxExemptionReason>.*<\/cbc:TaxExemptionReason>/, ''],
    ['BR-O-12', /(<cac:ClassifiedTaxCategory>\s*<cbc:ID>)O/, '$1S'],
    ['BR-O-13', /(<cac:TaxCategory>\s*<cbc:ID>)O/, '$1E'],
    ['UBL-DT-01', /(<cbc:PayableAmount currencyID="USD">)1461.85/, '$11461.850'],
    ['one currency', /(<cbc:PayableAmount currencyID=")USD/, '$1EUR'],
  ])('would be found to break %s', (rule, pattern, change) => {
    const text = written(INVOICE);
    expect(brokenRules(readXml(text))).toEqual([]);
    expect(brokenRules(readXml(text.replace(pattern, change)))).toContain(rule);
  });
});
