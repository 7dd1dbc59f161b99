/**
 * A document about money as an e-invoice: UBL 2.1 (ISO/IEC 19845) within the rules of EN 16931. The same document gives
 * the same text.
 */
import { documentName, type MoneyDocument } from '../../domain/money/money-document.ts';
import { jointName } from '../joint-name.ts';
import { branch, leaf, printXml, type XmlElement } from '../xml/xml-text.ts';
import { eInvoiceFigures } from './e-invoice-figures.ts';
import {
  allowanceElements,
  lineElements,
  periodElement,
  taxElement,
  totalsElement,
} from './e-invoice-lines.ts';
import { typeCode } from './type-codes.ts';

export interface EInvoiceOrder {
  readonly document: MoneyDocument;
  /** ISO 3166-1 alpha-2: "US". EN 16931 asks for both (BR-09, BR-11), and no document of ours says them. */
  readonly countries: { readonly seller: string; readonly buyer: string };
  /** By what the buyer knows the seller (BT-29, asked for by BR-CO-26); the seller's name where not given. */
  readonly sellerId?: string;
}

/** The specification that is kept to (BT-24): EN 16931 itself, no country's or network's rules beside it. */
export const EN_16931 = 'urn:cen.eu:en16931:2017';

const UBL = 'urn:oasis:names:specification:ubl:schema:xsd:';

/**
 * An Invoice, or a CreditNote with its amounts turned positive for a credit note and for what comes to less than nothing.
 * Throws a RangeError on a country that is no two capital letters, an unknown currency, and totals that do not add up.
 *
 * EN 16931 allows no amount more than two decimals. A document in a currency that has more (KWD) is written whole and as
 * UBL, and does not say that it keeps to EN 16931.
 */
export function writeEInvoice({ document, countries, sellerId }: EInvoiceOrder): string {
  const figures = eInvoiceFigures(document);
  const { credit, decimals } = figures;
  const money = { currency: document.currency, decimals };
  const name = credit ? 'CreditNote' : 'Invoice';
  const seller = { name: document.seller, country: countries.seller, id: sellerId ?? document.seller };
  const buyer = { name: document.buyer, country: countries.buyer, id: null };
  const root = branch(
    name,
    [
      decimals <= 2 ? leaf('cbc:CustomizationID', EN_16931) : null,
      leaf('cbc:ID', document.number),
      leaf('cbc:IssueDate', document.issuedOn),
      credit ? null : leaf('cbc:DueDate', document.dueOn),
      leaf(`cbc:${name}TypeCode`, typeCode(document)),
      leaf('cbc:Note', noteOf(document)),
      leaf('cbc:DocumentCurrencyCode', document.currency),
      document.period ? periodElement(document.period.from, document.period.to) : null,
      ...billingReferences(document),
      branch('cac:ContractDocumentReference', [leaf('cbc:ID', document.agreement.number)]),
      branch('cac:AccountingSupplierParty', [partyElement(seller)]),
      branch('cac:AccountingCustomerParty', [partyElement(buyer)]),
      credit ? null : payeeElement(document),
      credit ? dueElement(document) : null,
      termsElement(document, credit),
      ...allowanceElements(figures, money),
      taxElement(figures, money),
      totalsElement(figures, money),
      ...lineElements(figures, { feed: document.feed, money }),
    ],
    {
      xmlns: `${UBL}${name}-2`,
      'xmlns:cac': `${UBL}CommonAggregateComponents-2`,
      'xmlns:cbc': `${UBL}CommonBasicComponents-2`,
    },
  );
  return printXml(root);
}

function noteOf(document: MoneyDocument): string {
  const { number, version, fingerprint } = document.agreement;
  const under = `${documentName(document)} under agreement ${number}, version ${version}, fingerprint ${fingerprint}.`;
  return document.reason === null ? under : `${under} ${document.reason}`;
}

/** What it puts right or is for, and the advances that it takes off: each document once. */
function billingReferences({ corrects, advances }: MoneyDocument): XmlElement[] {
  const named = new Map([...corrects, ...advances].map(({ number, issuedOn }) => [number, issuedOn]));
  return [...named].map(([number, issuedOn]) =>
    branch('cac:BillingReference', [
      branch('cac:InvoiceDocumentReference', [leaf('cbc:ID', number), leaf('cbc:IssueDate', issuedOn)]),
    ]),
  );
}

interface Party {
  readonly name: string;
  readonly country: string;
  readonly id: string | null;
}

function partyElement({ name, country, id }: Party): XmlElement {
  if (!/^[A-Z]{2}$/.test(country)) throw new RangeError(`Not an ISO 3166-1 alpha-2 code: ${country}`);
  return branch('cac:Party', [
    id === null ? null : branch('cac:PartyIdentification', [leaf('cbc:ID', id)]),
    branch('cac:PostalAddress', [branch('cac:Country', [leaf('cbc:IdentificationCode', country)])]),
    branch('cac:PartyLegalEntity', [leaf('cbc:RegistrationName', name)]),
  ]);
}

/** Who is paid, where that is not the seller alone. */
function payeeElement({ seller, jointPayees }: MoneyDocument): XmlElement | null {
  if (jointPayees.length === 0) return null;
  return branch('cac:PayeeParty', [
    branch('cac:PartyName', [leaf('cbc:Name', jointName(seller, jointPayees))]),
  ]);
}

/** A UBL credit note has its due date here; 1 is "instrument not defined" (UNTDID 4461). */
function dueElement({ dueOn }: MoneyDocument): XmlElement {
  return branch('cac:PaymentMeans', [leaf('cbc:PaymentMeansCode', '1'), leaf('cbc:PaymentDueDate', dueOn)]);
}

/** The terms in words; a credit note says its due date in them too, since BR-CO-25 looks for it nowhere else. */
function termsElement({ terms, dueOn }: MoneyDocument, credit: boolean): XmlElement | null {
  const sentences = credit ? [`Due on ${dueOn}.`, ...terms] : terms;
  if (sentences.length === 0) return null;
  return branch('cac:PaymentTerms', [leaf('cbc:Note', sentences.join(' '))]);
}
