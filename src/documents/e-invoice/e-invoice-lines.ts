/**
 * What of an e-invoice is figures, as UBL elements: lines, allowances and charges, the tax and the totals.
 */
import { printUnits } from '../../domain/numbers/printing.ts';
import { branch, leaf, type XmlElement } from '../xml/xml-text.ts';
import { type EInvoiceFigures, type FiguredLine, inWords } from './e-invoice-figures.ts';
import { unitCode, unitInWords } from './unit-codes.ts';

/** Elements that hold amounts of one document's currency. */
export interface MoneyElements {
  readonly currency: string;
  readonly decimals: number;
}

function amount(name: string, units: bigint, { currency, decimals }: MoneyElements): XmlElement {
  return leaf(name, printUnits(units, decimals), { currencyID: currency });
}

const VAT = branch('cac:TaxScheme', [leaf('cbc:ID', 'VAT')]);

/**
 * Category O, outside the scope of VAT, which has neither a rate (BR-O-05 to 07) nor another category beside it: sales of
 * feed between farms of the United States bear no such tax. Why is said in the breakdown alone (BR-O-10).
 */
function taxCategory(name: string): XmlElement {
  return branch(name, [leaf('cbc:ID', 'O'), VAT]);
}

/** AllowanceCharge of the document: what is taken off, and what is put on. */
export function allowanceElements({ allowances }: EInvoiceFigures, money: MoneyElements): XmlElement[] {
  return allowances.map(({ isCharge, reason, amount: units }) =>
    branch('cac:AllowanceCharge', [
      leaf('cbc:ChargeIndicator', String(isCharge)),
      leaf('cbc:AllowanceChargeReason', reason),
      amount('cbc:Amount', units, money),
      taxCategory('cac:TaxCategory'),
    ]),
  );
}

/** TaxTotal with its one breakdown: everything, and no tax on it. */
export function taxElement({ payable }: EInvoiceFigures, money: MoneyElements): XmlElement {
  const none = amount('cbc:TaxAmount', 0n, money);
  const category = branch('cac:TaxCategory', [
    leaf('cbc:ID', 'O'),
    leaf('cbc:TaxExemptionReasonCode', 'VATEX-EU-O'),
    leaf('cbc:TaxExemptionReason', 'Not subject to VAT'),
    VAT,
  ]);
  return branch('cac:TaxTotal', [
    none,
    branch('cac:TaxSubtotal', [amount('cbc:TaxableAmount', payable, money), none, category]),
  ]);
}

/** LegalMonetaryTotal; the sums of allowances and charges where there are any. */
export function totalsElement(figures: EInvoiceFigures, money: MoneyElements): XmlElement {
  const { allowances, lineTotal, allowanceTotal, chargeTotal, payable } = figures;
  const some = (isCharge: boolean) => allowances.some((one) => one.isCharge === isCharge);
  return branch('cac:LegalMonetaryTotal', [
    amount('cbc:LineExtensionAmount', lineTotal, money),
    amount('cbc:TaxExclusiveAmount', payable, money),
    amount('cbc:TaxInclusiveAmount', payable, money),
    some(false) ? amount('cbc:AllowanceTotalAmount', allowanceTotal, money) : null,
    some(true) ? amount('cbc:ChargeTotalAmount', chargeTotal, money) : null,
    amount('cbc:PayableAmount', payable, money),
  ]);
}

/** InvoiceLine or CreditNoteLine, numbered from 1. */
export function lineElements(
  { credit, lines }: EInvoiceFigures,
  { feed, money }: { readonly feed: string; readonly money: MoneyElements },
): XmlElement[] {
  return lines.map((line, index) => {
    const code = { unitCode: unitCode(line.unit) };
    return branch(credit ? 'cac:CreditNoteLine' : 'cac:InvoiceLine', [
      leaf('cbc:ID', String(index + 1)),
      line.note ? leaf('cbc:Note', line.note) : null,
      leaf(credit ? 'cbc:CreditedQuantity' : 'cbc:InvoicedQuantity', line.quantity, code),
      amount('cbc:LineExtensionAmount', line.net, money),
      line.load ? periodElement(line.load.deliveredOn, line.load.deliveredOn) : null,
      branch('cac:Item', [
        leaf('cbc:Description', description(line, feed)),
        leaf('cbc:Name', line.name),
        taxCategory('cac:ClassifiedTaxCategory'),
      ]),
      branch('cac:Price', [
        leaf('cbc:PriceAmount', line.price, { currencyID: money.currency }),
        leaf('cbc:BaseQuantity', '1', code),
      ]),
    ]);
  });
}

function description({ load, unit }: FiguredLine, feed: string): string {
  return [feed, load ? inWords(load) : null, unitInWords(unit)].filter((part) => part !== null).join('; ');
}

/** InvoicePeriod, both days within it. */
export function periodElement(from: string, to: string): XmlElement {
  return branch('cac:InvoicePeriod', [leaf('cbc:StartDate', from), leaf('cbc:EndDate', to)]);
}
