/**
 * The rules of EN 16931 that a document of ours can break, on the XML alone: arithmetic (BR-CO-10 to 17), decimals, what
 * has to be there, and category O. Read in the schematron of ConnectingEurope/eInvoicing-EN16931. It shares no code with
 * the product: amounts are whole numbers of 10^-12.
 */
import { all, everyElement, type ReadElement, texts } from '../xml-reader.ts';

const UNIT = 10n ** 12n;

/** "-12.5" counted in units of 10^-12; undefined for what is no xsd:decimal of at most 12 decimals. */
function exactly(text: string | undefined): bigint | undefined {
  const match = /^(-?)(\d+)(?:\.(\d{1,12}))?$/.exec(text ?? '');
  if (match === null) return undefined;
  const size = BigInt((match[2] ?? '') + (match[3] ?? '').padEnd(12, '0'));
  return match[1] === '-' ? -size : size;
}

/** XPath's round to two decimals: ties go up, towards plus infinity. */
function toHundredths(value: bigint): bigint {
  const step = UNIT / 100n;
  const raised = value + step / 2n;
  const floor = raised / step - (raised < 0n && raised % step !== 0n ? 1n : 0n);
  return floor * step;
}

function sumOf(amounts: readonly string[]): bigint {
  return amounts.reduce((sum, text) => sum + (exactly(text) ?? 0n), 0n);
}

/** Names of the rules that a document breaks, each once; empty where it keeps them all. */
export function brokenRules(root: ReadElement): string[] {
  const broken = [...arithmetic(root), ...categoryO(root), ...presence(root), ...decimals(root)];
  return [...new Set(broken.filter(([, holds]) => !holds).map(([rule]) => rule))];
}

type Check = readonly [rule: string, holds: boolean];

const linesOf = (root: ReadElement) => [...all(root, 'cac:InvoiceLine'), ...all(root, 'cac:CreditNoteLine')];
const allowancesOf = (root: ReadElement, indicator: 'true' | 'false') =>
  all(root, 'cac:AllowanceCharge').filter((one) => texts(one, 'cbc:ChargeIndicator')[0] === indicator);
const amountsOf = (elements: readonly ReadElement[]) => elements.flatMap((one) => texts(one, 'cbc:Amount'));

function arithmetic(root: ReadElement): Check[] {
  const total = (name: string) => exactly(texts(root, 'cac:LegalMonetaryTotal', `cbc:${name}`)[0]);
  const lines = total('LineExtensionAmount') ?? 0n;
  const exclusive = total('TaxExclusiveAmount') ?? 0n;
  const inclusive = total('TaxInclusiveAmount') ?? 0n;
  const allowances = total('AllowanceTotalAmount');
  const charges = total('ChargeTotalAmount');
  const tax = sumOf(texts(root, 'cac:TaxTotal', 'cbc:TaxAmount'));
  return [
    ['BR-CO-10', lines === sumOf(linesOf(root).flatMap((line) => texts(line, 'cbc:LineExtensionAmount')))],
    // The schematron lets a missing sum pass; we ask for it where there is something to add up.
    ['BR-CO-11', (allowances ?? 0n) === sumOf(amountsOf(allowancesOf(root, 'false')))],
    ['BR-CO-12', (charges ?? 0n) === sumOf(amountsOf(allowancesOf(root, 'true')))],
    ['BR-CO-13', exclusive === lines - (allowances ?? 0n) + (charges ?? 0n)],
    ['BR-CO-14', tax === sumOf(texts(root, 'cac:TaxTotal', 'cac:TaxSubtotal', 'cbc:TaxAmount'))],
    ['BR-CO-15', inclusive === exclusive + tax],
    [
      'BR-CO-16',
      total('PayableAmount') ===
        inclusive - (total('PrepaidAmount') ?? 0n) + (total('PayableRoundingAmount') ?? 0n),
    ],
    ...all(root, 'cac:TaxTotal', 'cac:TaxSubtotal').map((subtotal): Check => {
      const base = exactly(texts(subtotal, 'cbc:TaxableAmount')[0]) ?? 0n;
      const percent = exactly(texts(subtotal, 'cac:TaxCategory', 'cbc:Percent')[0]) ?? 0n;
      const due = toHundredths((base * percent) / (100n * UNIT));
      return ['BR-CO-17', exactly(texts(subtotal, 'cbc:TaxAmount')[0]) === due];
    }),
  ];
}

/** BR-O-01 and 05 to 14, where something is outside the scope of VAT. */
function categoryO(root: ReadElement): Check[] {
  const onLines = linesOf(root).flatMap((line) => all(line, 'cac:Item', 'cac:ClassifiedTaxCategory'));
  const onAllowances = all(root, 'cac:AllowanceCharge', 'cac:TaxCategory');
  const breakdown = all(root, 'cac:TaxTotal', 'cac:TaxSubtotal');
  const inBreakdown = breakdown.flatMap((one) => all(one, 'cac:TaxCategory'));
  const isO = (category: ReadElement) => texts(category, 'cbc:ID')[0] === 'O';
  if (![...onLines, ...onAllowances, ...inBreakdown].some(isO)) return [];
  const base = sumOf([
    ...linesOf(root).flatMap((line) => texts(line, 'cbc:LineExtensionAmount')),
    ...amountsOf(allowancesOf(root, 'true')),
  ]);
  const taxable = base - sumOf(amountsOf(allowancesOf(root, 'false')));
  return [
    ['BR-O-01', inBreakdown.filter(isO).length === 1],
    ['BR-O-02', everyElement(root).every(({ name }) => name !== 'cac:PartyTaxScheme')],
    ['BR-O-05', onLines.every((category) => all(category, 'cbc:Percent').length === 0)],
    ['BR-O-06', onAllowances.every((category) => all(category, 'cbc:Percent').length === 0)],
    ['BR-O-08', sumOf(breakdown.flatMap((one) => texts(one, 'cbc:TaxableAmount'))) === taxable],
    ['BR-O-09', sumOf(breakdown.flatMap((one) => texts(one, 'cbc:TaxAmount'))) === 0n],
    ['BR-O-10', inBreakdown.every((one) => texts(one, 'cbc:TaxExemptionReason')[0] === 'Not subject to VAT')],
    ['BR-O-11', breakdown.length === 1],
    ['BR-O-12', onLines.every(isO)],
    ['BR-O-13', onAllowances.every(isO)],
  ];
}

/** Codes of UNTDID 1001 that rule BR-CL-01 takes, of those that documents of ours may have. */
const INVOICE_CODES = ['80', '82', '84', '380', '383', '384', '386', '389', '527'];
const CREDIT_CODES = ['81', '83', '261', '381'];

function presence(root: ReadElement): Check[] {
  const party = (side: string) => (path: string) =>
    texts(root, `cac:Accounting${side}Party`, 'cac:Party', ...path.split(' ')).every((text) => text !== '') &&
    all(root, `cac:Accounting${side}Party`, 'cac:Party', ...path.split(' ')).length === 1;
  const [supplier, customer] = [party('Supplier'), party('Customer')];
  const codes = root.name === 'Invoice' ? INVOICE_CODES : CREDIT_CODES;
  const payable = exactly(texts(root, 'cac:LegalMonetaryTotal', 'cbc:PayableAmount')[0]) ?? 0n;
  const due = [...all(root, 'cbc:DueDate'), ...all(root, 'cac:PaymentTerms', 'cbc:Note')];
  const lines = linesOf(root);
  const price = (line: ReadElement) => exactly(texts(line, 'cac:Price', 'cbc:PriceAmount')[0]) ?? -1n;
  const period = (one: ReadElement) =>
    (texts(one, 'cbc:StartDate')[0] ?? '') <= (texts(one, 'cbc:EndDate')[0] ?? '');
  return [
    ['BR-01', texts(root, 'cbc:CustomizationID')[0] === 'urn:cen.eu:en16931:2017'],
    ['BR-CL-01', codes.includes(texts(root, `cbc:${root.name}TypeCode`)[0] ?? '')],
    ['BR-06', supplier('cac:PartyLegalEntity cbc:RegistrationName')],
    ['BR-07', customer('cac:PartyLegalEntity cbc:RegistrationName')],
    ['BR-09', supplier('cac:PostalAddress cac:Country cbc:IdentificationCode')],
    ['BR-11', customer('cac:PostalAddress cac:Country cbc:IdentificationCode')],
    ['BR-CO-26', supplier('cac:PartyIdentification cbc:ID')],
    ['BR-16', lines.length > 0],
    ['BR-25', lines.every((line) => (texts(line, 'cac:Item', 'cbc:Name')[0] ?? '') !== '')],
    ['BR-27', lines.every((line) => price(line) >= 0n)],
    [
      'BR-29',
      everyElement(root)
        .filter(({ name }) => name === 'cac:InvoicePeriod')
        .every(period),
    ],
    [
      'BR-33',
      all(root, 'cac:AllowanceCharge').every((one) => texts(one, 'cbc:AllowanceChargeReason')[0] !== ''),
    ],
    ['BR-CO-25', payable <= 0n || due.length > 0],
    // Not a rule: an allowance or charge below zero is the other of the two.
    [
      'no allowance below zero',
      amountsOf(all(root, 'cac:AllowanceCharge')).every((text) => !text.startsWith('-')),
    ],
  ];
}

/** UBL-DT-01: amounts but prices have at most two decimals; and all are of the document's currency. */
function decimals(root: ReadElement): Check[] {
  const amounts = everyElement(root).filter(({ attributes }) => 'currencyID' in attributes);
  const currency = texts(root, 'cbc:DocumentCurrencyCode')[0];
  return [
    [
      'UBL-DT-01',
      amounts
        .filter(({ name }) => name !== 'cbc:PriceAmount')
        .every(({ text }) => /^-?\d+(\.\d{1,2})?$/.test(text)),
    ],
    ['one currency', amounts.every(({ attributes }) => attributes['currencyID'] === currency)],
  ];
}
