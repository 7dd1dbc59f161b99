/**
 * What a bank's computer would turn back in a payment instruction, found before it is written: every fault, with its
 * place in the data.
 */
import { isBic, isIban, isRoutingNumber, plainIban } from '../../domain/money/account-numbers.ts';
import { currencyDecimals } from '../../domain/money/currency.ts';
import type {
  InstructedPayment,
  PayeeAccount,
  PaymentInstruction,
} from '../../domain/money/payment-instruction.ts';
import { compare, parseDecimal, ZERO } from '../../domain/numbers/exact.ts';
import { jointName } from '../joint-name.ts';
import { fitsXml } from '../xml/xml-text.ts';

export interface InstructionProblem {
  /** "payments[2].account.number". */
  readonly place: string;
  readonly message: string;
}

/** Longest texts of ISO 20022: Max35Text, Max140Text, Max34Text. */
const LONGEST_ID = 35;
const LONGEST_NAME = 140;
const LONGEST_ACCOUNT = 34;
/** totalDigits of ActiveOrHistoricCurrencyAndAmount. */
const MOST_DIGITS = 18;

/** Every fault of an instruction for ISO 20022; empty when it can be written. */
export function instructionProblems(instruction: PaymentInstruction): InstructionProblem[] {
  const { id, createdAt, payOn, payer, payerAccount, payments } = instruction;
  return [
    ...textProblems('id', id, LONGEST_ID),
    ...textProblems('payer', payer, LONGEST_NAME),
    ...(isInstant(createdAt)
      ? []
      : [{ place: 'createdAt', message: `No time with an offset: ${createdAt}` }]),
    ...(/^\d{4}-\d{2}-\d{2}$/.test(payOn) ? [] : [{ place: 'payOn', message: `No date: ${payOn}` }]),
    ...(payerAccount === null
      ? [{ place: 'payerAccount', message: 'Which account to pay from is not known.' }]
      : accountProblems('payerAccount', payerAccount)),
    ...(payments.length === 0 ? [{ place: 'payments', message: 'There is nothing to pay.' }] : []),
    ...payments.flatMap((payment, index) => paymentProblems(payment, `payments[${index}]`)),
    ...repeated(payments.map(({ reference }) => reference)).map((index) => ({
      place: `payments[${index}].reference`,
      message: 'Another payment of this instruction has the same reference.',
    })),
  ];
}

function isInstant(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})$/.test(text);
}

function paymentProblems(payment: InstructedPayment, at: string): InstructionProblem[] {
  const { reference, payee, jointPayees, account, invoices } = payment;
  return [
    ...textProblems(`${at}.reference`, reference, LONGEST_ID),
    ...textProblems(`${at}.payee`, jointName(payee, jointPayees), LONGEST_NAME),
    ...amountProblems(payment, at),
    ...(account === null ? [] : accountProblems(`${at}.account`, account)),
    ...invoices.flatMap(({ number, issuedOn, amount }, index) => [
      ...textProblems(`${at}.invoices[${index}].number`, number, LONGEST_ID),
      ...(/^\d{4}-\d{2}-\d{2}$/.test(issuedOn)
        ? []
        : [{ place: `${at}.invoices[${index}].issuedOn`, message: `No date: ${issuedOn}` }]),
      ...(parseDecimal(amount)
        ? []
        : [{ place: `${at}.invoices[${index}].amount`, message: `No amount: ${amount}` }]),
    ]),
  ];
}

function amountProblems({ amount, currency }: InstructedPayment, at: string): InstructionProblem[] {
  const decimals = currencyDecimals(currency);
  if (decimals === undefined) return [{ place: `${at}.currency`, message: `Not a currency: ${currency}` }];
  const value = parseDecimal(amount);
  if (value === undefined) return [{ place: `${at}.amount`, message: `No amount: ${amount}` }];
  const place = `${at}.amount`;
  const [, fraction = ''] = amount.split('.');
  return [
    ...(compare(value, ZERO) > 0 ? [] : [{ place, message: 'What is paid has to be above zero.' }]),
    ...(fraction.length <= decimals
      ? []
      : [{ place, message: `${currency} has ${decimals} decimals: ${amount}` }]),
    ...(amount.replace('.', '').length <= MOST_DIGITS
      ? []
      : [{ place, message: `An amount has at most ${MOST_DIGITS} digits.` }]),
  ];
}

function accountProblems(at: string, account: PayeeAccount): InstructionProblem[] {
  const { holder, kind, number, bankKind, bank } = account;
  return [
    ...textProblems(`${at}.holder`, holder, LONGEST_NAME),
    ...(kind === 'iban'
      ? isIban(plainIban(number))
        ? []
        : [{ place: `${at}.number`, message: `This is no IBAN, its check digits do not fit: ${number}` }]
      : textProblems(`${at}.number`, number, LONGEST_ACCOUNT)),
    ...bankProblems(`${at}.bank`, { kind, bankKind, bank: bank ?? '' }),
  ];
}

function bankProblems(
  place: string,
  { kind, bankKind, bank }: Pick<PayeeAccount, 'kind' | 'bankKind'> & { readonly bank: string },
): InstructionProblem[] {
  if (bankKind === 'bic' && !isBic(bank)) return [{ place, message: `This is no BIC: ${bank}` }];
  if (bankKind === 'aba' && !isRoutingNumber(bank))
    return [{ place, message: `This is no routing number, its check digit does not fit: ${bank}` }];
  if (bankKind === null && kind !== 'iban')
    return [{ place, message: 'The bank has to be named where the account has no IBAN.' }];
  return [];
}

/** Characters are counted as XML Schema counts them: a pair of surrogates is one. */
function textProblems(place: string, text: string, longest: number): InstructionProblem[] {
  if (text.trim() === '') return [{ place, message: 'This is empty.' }];
  if (!fitsXml(text)) return [{ place, message: 'This holds a character that XML has no place for.' }];
  const { length } = [...text];
  if (length <= longest) return [];
  return [{ place, message: `This is ${length} characters long, a bank takes at most ${longest}: ${text}` }];
}

/** Places of the second and later ones of equal texts. */
function repeated(texts: readonly string[]): number[] {
  return texts.flatMap((text, index) => (texts.indexOf(text) < index ? [index] : []));
}
