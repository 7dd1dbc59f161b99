/**
 * E-invoices read back with libxml2: what stands where for an invoice, a credit note and the other kinds; order and
 * number of elements by the table of UBL; names with characters that XML has to hide.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { eInvoiceFigures } from '../../../src/documents/e-invoice/e-invoice-figures.ts';
import { unitCode } from '../../../src/documents/e-invoice/unit-codes.ts';
import { writeEInvoice } from '../../../src/documents/e-invoice/write-e-invoice.ts';
import type { DocumentKind, MoneyDocument } from '../../../src/domain/money/money-document.ts';
import { orderFaults } from '../element-order.ts';
import { all, readXml, texts } from '../xml-reader.ts';
import { anyDocument, INVOICE } from './money-documents.ts';
import { UBL_TABLE } from './ubl-table.ts';

const countries = { seller: 'US', buyer: 'US' };
const write = (document: MoneyDocument) => writeEInvoice({ document, countries });
const read = (document: MoneyDocument) => readXml(write(document));

/** Takes back 1,000 lb of the first line, and 5.00 of the deduction. */
const CREDIT: MoneyDocument = {
  ...INVOICE,
  ...{ kind: 'credit-note', number: '18', issuedBy: 'seller', reason: 'The gross weight was read wrong.' },
  corrects: [{ kind: 'invoice', number: '17', issuedOn: '2026-09-21' }],
  lines: INVOICE.lines.slice(0, 1).map((line) => ({ ...line, quantity: '-1000', amount: '-85.59' })),
  deductions: INVOICE.deductions.map((line) => ({ ...line, rate: '-5', amount: '-5.00' })),
  advances: [],
  totals: { goods: '-85.59', deductions: '-5.00', advances: '0.00', payable: '-80.59' },
};

describe('an invoice', () => {
  const root = read(INVOICE);

  test('is a UBL Invoice that says what it keeps to, its number, dates, kind and currency', () => {
    expect(root.namespace).toBe('urn:oasis:names:specification:ubl:schema:xsd:Invoice-2');
    const of = (name: string) => texts(root, `cbc:${name}`);
    expect(of('CustomizationID')).toEqual(['urn:cen.eu:en16931:2017']);
    expect([of('ID'), of('IssueDate'), of('DueDate')]).toEqual([['17'], ['2026-09-21'], ['2026-10-06']]);
    expect([of('InvoiceTypeCode'), of('DocumentCurrencyCode')]).toEqual([['380'], ['USD']]);
    expect(of('Note')).toEqual(['Invoice 17 under agreement A-26-014, version 2, fingerprint 9f2c7d1e.']);
    expect(texts(root, 'cac:ContractDocumentReference', 'cbc:ID')).toEqual(['A-26-014']);
    expect(texts(root, 'cac:PaymentTerms', 'cbc:Note')).toEqual([INVOICE.terms.join(' ')]);
    expect(texts(root, 'cac:InvoicePeriod', 'cbc:EndDate')).toEqual(['2026-09-14']);
    expect(texts(root, 'cac:BillingReference', 'cac:InvoiceDocumentReference', 'cbc:ID')).toEqual(['12']);
  });

  test('names both parties, and by what the buyer knows the seller', () => {
    const party = (side: string, ...path: string[]) =>
      texts(root, `cac:Accounting${side}Party`, 'cac:Party', ...path);
    expect(party('Supplier', 'cac:PartyLegalEntity', 'cbc:RegistrationName')).toEqual(['Quillback Acres']);
    expect(party('Customer', 'cac:PartyLegalEntity', 'cbc:RegistrationName')).toEqual(['Tarn Hollow Dairy']);
    expect(party('Supplier', 'cac:PartyIdentification', 'cbc:ID')).toEqual(['Quillback Acres']);
    expect(party('Customer', 'cac:PostalAddress', 'cac:Country', 'cbc:IdentificationCode')).toEqual(['US']);
    const known = readXml(writeEInvoice({ document: INVOICE, countries, sellerId: '4711' }));
    const id = ['cac:AccountingSupplierParty', 'cac:Party', 'cac:PartyIdentification', 'cbc:ID'];
    expect(texts(known, ...id)).toEqual(['4711']);
  });

  test('has the sign of a line on its quantity, and an advance as a line taken back', () => {
    const row = (line: (typeof lines)[number]) =>
      ['cbc:InvoicedQuantity', 'cac:Price/cbc:PriceAmount', 'cbc:LineExtensionAmount', 'cac:Item/cbc:Name']
        .map((path) => texts(line, ...path.split('/'))[0])
        .join(' ');
    const lines = all(root, 'cac:InvoiceLine');
    expect(lines.map(row)).toEqual([
      '21215.945915 0.0855875 1815.82 Grain, by its starch',
      '6679.094085 0.0513525 342.99 Cob, husk and other fibre',
      '-13.94752 5.15 -71.83 Fibre above range',
      '-23.56 4.25 -100.13 Hauling',
      '-1 500.00 -500.00 Less Advance invoice 12 of 2026-09-15',
    ]);
    expect(lines.map((line) => all(line, 'cbc:InvoicedQuantity')[0]?.attributes['unitCode'])).toEqual([
      'LBR',
      'LBR',
      'STN',
      'STN',
      'C62',
    ]);
    expect(texts(root, 'cac:InvoiceLine', 'cac:Price', 'cbc:BaseQuantity')).toEqual([
      '1',
      '1',
      '1',
      '1',
      '1',
    ]);
    expect(texts(root, 'cac:InvoiceLine', 'cac:Item', 'cbc:Description')[0]).toBe(
      'whole-ear corn: ground grain, cob and husk; load T1 of 2026-09-14',
    );
  });

  test('takes a deduction off as an allowance that says to whom it goes', () => {
    expect(texts(root, 'cac:AllowanceCharge', 'cbc:ChargeIndicator')).toEqual(['false']);
    expect(texts(root, 'cac:AllowanceCharge', 'cbc:Amount')).toEqual(['25.00']);
    expect(texts(root, 'cac:AllowanceCharge', 'cbc:AllowanceChargeReason')).toEqual([
      'Checkoff; load T1 of 2026-09-14; paid on to Sallowfen Growers Board',
    ]);
    const back = INVOICE.deductions.map((line) => ({ ...line, rate: '-25', amount: '-25.00' }));
    const charged = read({ ...INVOICE, deductions: back, totals: { ...INVOICE.totals, payable: '1511.85' } });
    expect(texts(charged, 'cac:AllowanceCharge', 'cbc:ChargeIndicator')).toEqual(['true']);
    expect(texts(charged, 'cac:LegalMonetaryTotal', 'cbc:ChargeTotalAmount')).toEqual(['25.00']);
  });

  test('is paid to the seller alone, or with the lenders that it names', () => {
    expect(all(root, 'cac:PayeeParty')).toEqual([]);
    const jointly = read({ ...INVOICE, jointPayees: ['Sallowfen Savings Bank'] });
    expect(texts(jointly, 'cac:PayeeParty', 'cac:PartyName', 'cbc:Name')).toEqual([
      'Quillback Acres and Sallowfen Savings Bank, jointly',
    ]);
  });
});

describe('a credit note', () => {
  test('is a UBL CreditNote with its amounts turned positive', () => {
    const root = read(CREDIT);
    expect(root.namespace).toBe('urn:oasis:names:specification:ubl:schema:xsd:CreditNote-2');
    expect(texts(root, 'cbc:CreditNoteTypeCode')).toEqual(['381']);
    expect(texts(root, 'cac:CreditNoteLine', 'cbc:CreditedQuantity')).toEqual(['1000']);
    expect(texts(root, 'cac:CreditNoteLine', 'cbc:LineExtensionAmount')).toEqual(['85.59']);
    // The deduction that was taken back lowers the credit.
    expect(texts(root, 'cac:AllowanceCharge', 'cbc:ChargeIndicator')).toEqual(['false']);
    expect(texts(root, 'cac:LegalMonetaryTotal', 'cbc:PayableAmount')).toEqual(['80.59']);
    expect(texts(root, 'cac:BillingReference', 'cac:InvoiceDocumentReference', 'cbc:IssueDate')).toEqual([
      '2026-09-21',
    ]);
    expect(texts(root, 'cbc:Note')[0]).toMatch(/ The gross weight was read wrong\.$/);
    expect(texts(root, 'cac:PaymentMeans', 'cbc:PaymentDueDate')).toEqual(['2026-10-06']);
  });

  test('is also what an invoice becomes that comes to less than nothing', () => {
    const advances = INVOICE.advances.map((advance) => ({ ...advance, amount: '2500.00' }));
    const totals = { ...INVOICE.totals, advances: '2500.00', payable: '-538.15' };
    const root = read({ ...INVOICE, advances, totals });
    expect(root.name).toBe('CreditNote');
    expect(texts(root, 'cac:LegalMonetaryTotal', 'cbc:PayableAmount')).toEqual(['538.15']);
    expect(texts(root, 'cac:CreditNoteLine', 'cbc:CreditedQuantity')).toEqual([
      ...['-21215.945915', '-6679.094085', '13.94752', '23.56', '1'],
    ]);
    expect(texts(root, 'cac:AllowanceCharge', 'cbc:ChargeIndicator')).toEqual(['true']);
  });
});

describe('codes', () => {
  const codes: [DocumentKind, bySeller: string, byBuyer: string][] = [
    ['invoice', '380', '389'],
    ['advance', '386', '389'],
    ['debit-note', '383', '527'],
    ['interest', '84', '389'],
    ['fee', '380', '389'],
  ];
  test.each(codes)('%s is %s, drawn up by the buyer %s', (kind, bySeller, byBuyer) => {
    expect(texts(read({ ...INVOICE, kind }), 'cbc:InvoiceTypeCode')).toEqual([bySeller]);
    expect(texts(read({ ...INVOICE, kind, issuedBy: 'buyer' }), 'cbc:InvoiceTypeCode')).toEqual([byBuyer]);
    expect(texts(read({ ...CREDIT, kind, issuedBy: 'buyer' }), 'cbc:CreditNoteTypeCode')).toEqual(['261']);
  });

  test('of units are those of UN/ECE Recommendation 20 (names read in public copies of the list)', () => {
    const units = [
      'lb',
      'kg',
      'cwt',
      'short-ton',
      'tonne',
      'mile',
      'km',
      'load',
      'USD',
      'bushel',
      'constructor',
    ];
    expect(units.map(unitCode).join(' ')).toBe('LBR KGM CWA STN TNE SMI KMT C62 C62 C62 C62');
  });

  test('never make a bushel by weight one by volume, and say in words what it is', () => {
    const [first] = INVOICE.lines;
    if (!first) throw new Error('no line');
    const root = read({ ...INVOICE, lines: [{ ...first, unit: 'bushel' }, ...INVOICE.lines.slice(1)] });
    expect(write(INVOICE)).not.toMatch(/BUA|BUI/);
    expect(all(root, 'cac:InvoiceLine', 'cbc:InvoicedQuantity')[0]?.attributes).toEqual({ unitCode: 'C62' });
    expect(texts(root, 'cac:InvoiceLine', 'cac:Item', 'cbc:Description')[0]).toMatch(
      /; quantity in bushels by weight, of the pounds that the note says$/,
    );
  });
});

describe('what is written', () => {
  test('prints totals with the decimals of the currency, and keeps to EN 16931 where that has room for them', () => {
    const line = { ...INVOICE.lines[0], load: null, label: 'Price', unit: 'load', how: '', quantity: '1' };
    const of = (currency: string, amount: string) =>
      read({
        ...{ ...INVOICE, currency, deductions: [], advances: [] },
        lines: [{ ...line, rate: '1234.5678', amount }],
        totals: { goods: amount, deductions: '0', advances: '0', payable: amount },
      });
    const printed = (root: ReturnType<typeof of>) => [
      texts(root, 'cac:TaxTotal', 'cbc:TaxAmount')[0],
      texts(root, 'cac:LegalMonetaryTotal', 'cbc:PayableAmount')[0],
      texts(root, 'cbc:CustomizationID').length,
    ];
    expect(printed(of('USD', '1234.57'))).toEqual(['0.00', '1234.57', 1]);
    expect(printed(of('JPY', '1235'))).toEqual(['0', '1235', 1]);
    expect(printed(of('KWD', '1234.568'))).toEqual(['0.000', '1234.568', 0]);
  });

  test('hides what XML would take for itself, and gives every name back', () => {
    const seller = 'Quillback & Sons <"North">';
    const document = { ...INVOICE, seller, feed: 'a ]]> b\u0000', jointPayees: ["Tarn's \uD83C"] };
    const root = read(document);
    const entity = ['cac:Party', 'cac:PartyLegalEntity', 'cbc:RegistrationName'];
    expect(texts(root, 'cac:AccountingSupplierParty', ...entity)).toEqual([seller]);
    expect(texts(root, 'cac:InvoiceLine', 'cac:Item', 'cbc:Description')[0]).toMatch(/^a ]]> b\uFFFD; load/);
    expect(texts(root, 'cac:PayeeParty', 'cac:PartyName', 'cbc:Name')).toEqual([
      `${seller} and Tarn's \uFFFD, jointly`,
    ]);
  });

  test('keeps the order and number of elements of UBL, whatever the document, and is the same each time', () => {
    fc.assert(
      fc.property(anyDocument, (document) => {
        const text = write(document);
        expect(orderFaults(readXml(text), UBL_TABLE)).toEqual([]);
        expect(write(structuredClone(document))).toBe(text);
      }),
    );
  });

  test('would be found out of order', () => {
    const swapped = write(INVOICE).replace(/( <cbc:ID>17.*\n)( <cbc:IssueDate>.*\n)/, '$2$1');
    expect(orderFaults(readXml(swapped), UBL_TABLE)).toHaveLength(1);
    const doubled = write(INVOICE).replace(/( <cbc:DueDate>.*\n)/, '$1$1');
    expect(orderFaults(readXml(doubled), UBL_TABLE)).toHaveLength(1);
    const unknown = write(INVOICE).replaceAll('cbc:DueDate', 'cbc:Due');
    expect(orderFaults(readXml(unknown), UBL_TABLE)).toHaveLength(1);
  });

  test('refuses what is a defect: totals that do not add up, odd decimals, no currency, no country', () => {
    const totals = { ...INVOICE.totals, payable: '1461.86' };
    expect(() => write({ ...INVOICE, totals })).toThrow('Invoice 17 says 1461.86, its lines come to 1461.85');
    expect(() => write({ ...INVOICE, currency: 'JPY' })).toThrow('Not an amount of 0 decimals');
    expect(() => write({ ...INVOICE, currency: 'XXX' })).toThrow('Not a currency: XXX');
    expect(() => writeEInvoice({ document: INVOICE, countries: { seller: 'us', buyer: 'US' } })).toThrow(
      'alpha-2',
    );
  });

  test('has a line where there are only deductions', () => {
    const only = { ...INVOICE, lines: [], advances: [], totals: { ...INVOICE.totals, payable: '-25.00' } };
    expect(eInvoiceFigures(only).lines.map(({ name, net }) => [name, net])).toEqual([['Invoice 17', 0n]]);
    expect(texts(read(only), 'cac:AllowanceCharge', 'cbc:ChargeIndicator')).toEqual(['true']);
  });
});
