/**
 * What elements of UBL 2.1 hold, as far as a document of ours may have them. Order and number were read: of Invoice in
 * the schema of UBL 2.1 (a public copy of its 2010 draft) and in a published binding of the standard; of CreditNote up
 * to its references in the structure that Peppol BIS Billing 3 publishes, after that from the published credit note
 * example of EN 16931 and memory; of the parts in the examples that the rules of EN 16931 are published with.
 * Numbers are EN 16931's where it is stricter.
 */
import type { ElementTable } from '../element-order.ts';

const HEAD = 'cbc:CustomizationID? cbc:ID cbc:IssueDate';
const REFERENCES = 'cac:BillingReference* cac:ContractDocumentReference?';
const PARTIES = 'cac:AccountingSupplierParty cac:AccountingCustomerParty cac:PayeeParty?';
const MONEY = 'cac:PaymentMeans* cac:PaymentTerms? cac:AllowanceCharge* cac:TaxTotal cac:LegalMonetaryTotal';
const line = (quantity: string) =>
  `cbc:ID cbc:Note? ${quantity} cbc:LineExtensionAmount cac:InvoicePeriod? cac:Item cac:Price`;

export const UBL_TABLE: ElementTable = {
  Invoice: `${HEAD} cbc:DueDate? cbc:InvoiceTypeCode cbc:Note* cbc:DocumentCurrencyCode cac:InvoicePeriod? ${REFERENCES} ${PARTIES} ${MONEY} cac:InvoiceLine+`,
  CreditNote: `${HEAD} cbc:CreditNoteTypeCode cbc:Note* cbc:DocumentCurrencyCode cac:InvoicePeriod? ${REFERENCES} ${PARTIES} ${MONEY} cac:CreditNoteLine+`,
  'cac:InvoicePeriod': 'cbc:StartDate? cbc:EndDate?',
  'cac:BillingReference': 'cac:InvoiceDocumentReference',
  'cac:InvoiceDocumentReference': 'cbc:ID cbc:IssueDate?',
  'cac:ContractDocumentReference': 'cbc:ID',
  'cac:AccountingSupplierParty': 'cac:Party',
  'cac:AccountingCustomerParty': 'cac:Party',
  'cac:Party': 'cac:PartyIdentification* cac:PartyName? cac:PostalAddress cac:PartyLegalEntity',
  'cac:PayeeParty': 'cac:PartyIdentification? cac:PartyName cac:PartyLegalEntity?',
  'cac:PartyIdentification': 'cbc:ID',
  'cac:PartyName': 'cbc:Name',
  'cac:PartyLegalEntity': 'cbc:RegistrationName cbc:CompanyID?',
  'cac:PostalAddress': 'cbc:StreetName? cbc:CityName? cac:Country',
  'cac:Country': 'cbc:IdentificationCode',
  'cac:PaymentMeans': 'cbc:PaymentMeansCode cbc:PaymentDueDate?',
  'cac:PaymentTerms': 'cbc:Note',
  'cac:AllowanceCharge':
    'cbc:ChargeIndicator cbc:AllowanceChargeReasonCode? cbc:AllowanceChargeReason? cbc:Amount cac:TaxCategory',
  'cac:TaxTotal': 'cbc:TaxAmount cac:TaxSubtotal+',
  'cac:TaxSubtotal': 'cbc:TaxableAmount cbc:TaxAmount cac:TaxCategory',
  'cac:TaxCategory': 'cbc:ID cbc:Percent? cbc:TaxExemptionReasonCode? cbc:TaxExemptionReason? cac:TaxScheme',
  'cac:ClassifiedTaxCategory': 'cbc:ID cbc:Percent? cac:TaxScheme',
  'cac:TaxScheme': 'cbc:ID',
  'cac:LegalMonetaryTotal':
    'cbc:LineExtensionAmount cbc:TaxExclusiveAmount cbc:TaxInclusiveAmount cbc:AllowanceTotalAmount? cbc:ChargeTotalAmount? cbc:PrepaidAmount? cbc:PayableRoundingAmount? cbc:PayableAmount',
  'cac:InvoiceLine': line('cbc:InvoicedQuantity'),
  'cac:CreditNoteLine': line('cbc:CreditedQuantity'),
  'cac:Item': 'cbc:Description? cbc:Name cac:ClassifiedTaxCategory',
  'cac:Price': 'cbc:PriceAmount cbc:BaseQuantity?',
};
