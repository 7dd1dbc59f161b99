/**
 * One payment, an account and a bank as elements of ISO 20022 messages.
 */
import { plainIban } from '../../domain/money/account-numbers.ts';
import type { InstructedPayment, PayeeAccount } from '../../domain/money/payment-instruction.ts';
import { jointName } from '../joint-name.ts';
import { branch, leaf, type XmlElement } from '../xml/xml-text.ts';

/** CashAccount38. */
export function accountElement(name: string, { kind, number }: PayeeAccount): XmlElement {
  const id = kind === 'iban' ? leaf('IBAN', plainIban(number)) : branch('Othr', [leaf('Id', number)]);
  return branch(name, [branch('Id', [id])]);
}

/** BranchAndFinancialInstitutionIdentification6: BIC or routing number; null where only the IBAN says it. */
export function bankElement(name: string, { bankKind, bank }: PayeeAccount): XmlElement | null {
  if (bankKind === null || bank === null) return null;
  const id =
    bankKind === 'bic'
      ? leaf('BICFI', bank)
      : branch('ClrSysMmbId', [branch('ClrSysId', [leaf('Cd', 'USABA')]), leaf('MmbId', bank)]);
  return branch(name, [branch('FinInstnId', [id])]);
}

/** CreditTransferTransaction34; of a check the same without bank and account. */
export function paymentElement(payment: InstructedPayment): XmlElement {
  const { reference, payee, jointPayees, account, amount, currency } = payment;
  // The bank compares the name with its own; a name that a lender must be in goes before that.
  const named = jointPayees.length === 0 && account ? account.holder : jointName(payee, jointPayees);
  return branch('CdtTrfTxInf', [
    branch('PmtId', [leaf('EndToEndId', reference)]),
    branch('Amt', [leaf('InstdAmt', amount, { Ccy: currency })]),
    account ? bankElement('CdtrAgt', account) : null,
    branch('Cdtr', [leaf('Nm', named)]),
    account ? accountElement('CdtrAcct', account) : null,
    jointPayees.length === 0 && named !== payee ? branch('UltmtCdtr', [leaf('Nm', payee)]) : null,
    payment.invoices.length > 0
      ? branch(
          'RmtInf',
          payment.invoices.map((one) => remittance(one, currency)),
        )
      : null,
  ]);
}

/** StructuredRemittanceInformation16: CINV and what is remitted, or CREN and what a credit note takes off. */
function remittance(
  { number, issuedOn, amount }: InstructedPayment['invoices'][number],
  currency: string,
): XmlElement {
  const isCredit = amount.startsWith('-');
  return branch('Strd', [
    branch('RfrdDocInf', [
      branch('Tp', [branch('CdOrPrtry', [leaf('Cd', isCredit ? 'CREN' : 'CINV')])]),
      leaf('Nb', number),
      leaf('RltdDt', issuedOn),
    ]),
    branch('RfrdDocAmt', [
      isCredit
        ? leaf('CdtNoteAmt', amount.slice(1), { Ccy: currency })
        : leaf('RmtdAmt', amount, { Ccy: currency }),
    ]),
  ]);
}
