/**
 * A payment instruction for a bank's computer: ISO 20022 CustomerCreditTransferInitiation, pain.001.001.09. What a bank
 * agreed on beyond the standard (service level, who bears charges, how checks are sent) is left to the bank's default.
 */
import type {
  InstructedPayment,
  PayeeAccount,
  PaymentInstruction,
} from '../../domain/money/payment-instruction.ts';
import { add, decimal, ZERO } from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import { branch, leaf, printXml, type XmlElement } from '../xml/xml-text.ts';
import { type InstructionProblem, instructionProblems } from './instruction-problems.ts';
import { accountElement, bankElement, paymentElement } from './payment-elements.ts';

export type CreditTransfers =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly InstructionProblem[] };

/** PaymentMethod3Code: a transfer to an account, a check to a payee without one. */
type Method = 'TRF' | 'CHK';

export function methodOf({ account }: InstructedPayment): Method {
  return account === null ? 'CHK' : 'TRF';
}

/**
 * The message as XML, with one PmtInf for the transfers and one for the checks, or every problem: a name of more than 140
 * characters (with all joint payees), a reference of more than 35 or used twice, an IBAN, routing number or BIC that
 * cannot be one, an amount that is not above zero or has more decimals than its currency, no account to pay from.
 */
export function writeCreditTransfers(instruction: PaymentInstruction): CreditTransfers {
  const problems = instructionProblems(instruction);
  const { id, createdAt, payer, payerAccount, payments } = instruction;
  if (problems.length > 0 || payerAccount === null) return { ok: false, problems };
  const groups = (['TRF', 'CHK'] as const)
    .map((method) => ({ method, payments: payments.filter((payment) => methodOf(payment) === method) }))
    .filter((group) => group.payments.length > 0);
  const header = branch('GrpHdr', [
    leaf('MsgId', id),
    leaf('CreDtTm', createdAt),
    ...countElements(payments),
    branch('InitgPty', [leaf('Nm', payer)]),
  ]);
  const message = branch('CstmrCdtTrfInitn', [
    header,
    ...groups.map((group) => groupElement(group, instruction, payerAccount)),
  ]);
  const xmlns = 'urn:iso:std:iso:20022:tech:xsd:pain.001.001.09';
  return { ok: true, text: printXml(branch('Document', [message], { xmlns })) };
}

/** NbOfTxs and CtrlSum: the sum of the figures, whatever their currencies (so the standard has it). */
function countElements(payments: readonly InstructedPayment[]): XmlElement[] {
  const sum = payments.reduce((total, { amount }) => add(total, decimal(amount)), ZERO);
  const places = Math.max(...payments.map(({ amount }) => amount.split('.')[1]?.length ?? 0));
  return [leaf('NbOfTxs', String(payments.length)), leaf('CtrlSum', printFixed(sum, places))];
}

function groupElement(
  { method, payments }: { readonly method: Method; readonly payments: readonly InstructedPayment[] },
  { id, payOn, payer }: PaymentInstruction,
  account: PayeeAccount,
): XmlElement {
  return branch('PmtInf', [
    // At most 35 characters, and one of each method.
    leaf('PmtInfId', `${[...id].slice(0, 31).join('')}-${method}`),
    leaf('PmtMtd', method),
    ...countElements(payments),
    branch('ReqdExctnDt', [leaf('Dt', payOn)]),
    branch('Dbtr', [leaf('Nm', payer)]),
    accountElement('DbtrAcct', account),
    // The element has to be there; NOTPROVIDED is what the European Payments Council's guidelines put where the IBAN says it.
    bankElement('DbtrAgt', account) ??
      branch('DbtrAgt', [branch('FinInstnId', [branch('Othr', [leaf('Id', 'NOTPROVIDED')])])]),
    ...payments.map(paymentElement),
  ]);
}
