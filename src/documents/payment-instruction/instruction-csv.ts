/**
 * A payment instruction as CSV, a row a payment: for banks that take a file of their own layout, and for people.
 */
import type { InstructedPayment, PaymentInstruction } from '../../domain/money/payment-instruction.ts';
import { type SafeCell, safeCsvTable } from '../csv.ts';
import { jointName } from '../joint-name.ts';
import { methodOf } from './write-credit-transfers.ts';

const COLUMNS = [
  'instruction',
  'pay_on',
  'reference',
  'method',
  'payer',
  'payee',
  'made_out_to',
  'account_holder',
  'account_kind',
  'account',
  'bank_kind',
  'bank',
  'currency',
  'amount',
  'invoices',
];

/**
 * The header and a row a payment, CRLF at the ends. `method` is "transfer" or "check"; `invoices` are numbers, each with
 * what is paid of it: "17: 1200.00; 18: -50.00". Amounts are plain decimals; no cell is run as a formula. Nothing is
 * checked here: `instructionProblems` finds what a bank would turn back.
 */
export function instructionCsv(instruction: PaymentInstruction): string {
  return safeCsvTable(
    COLUMNS,
    instruction.payments.map((payment) => row(payment, instruction)),
  );
}

function row(payment: InstructedPayment, { id, payOn, payer }: PaymentInstruction): readonly SafeCell[] {
  const { account, payee, jointPayees } = payment;
  return [
    id,
    payOn,
    payment.reference,
    methodOf(payment) === 'TRF' ? 'transfer' : 'check',
    payer,
    payee,
    jointName(payee, jointPayees),
    account?.holder ?? '',
    account?.kind ?? '',
    account?.number ?? '',
    account?.bankKind ?? '',
    account?.bank ?? '',
    payment.currency,
    { figure: payment.amount },
    payment.invoices.map(({ number, amount }) => `${number}: ${amount}`).join('; '),
  ];
}
