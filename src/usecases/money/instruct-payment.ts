/**
 * What the buyer tells its bank to pay: everything due by a day to one seller or all, as CSV or as ISO 20022. It records
 * nothing; the payment itself is recorded once it is made.
 */
import { instructionCsv } from '../../documents/payment-instruction/instruction-csv.ts';
import {
  type InstructionProblem,
  instructionProblems,
} from '../../documents/payment-instruction/instruction-problems.ts';
import { writeCreditTransfers } from '../../documents/payment-instruction/write-credit-transfers.ts';
import { type LocalDate, parseLocalDate } from '../../domain/dates/local-date.ts';
import { documentName } from '../../domain/money/money-document.ts';
import type {
  InstructedPayment,
  PayeeAccount,
  PaymentInstruction,
} from '../../domain/money/payment-instruction.ts';
import type { StandingDocument } from '../../domain/money/standing.ts';
import { add, decimal, ZERO } from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type Context, permit, stamp } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { partyName } from '../people/party-name.ts';
import { badInput } from '../read-input-rows.ts';
import { newestAccount } from './keep-account.ts';
import { jointPayeesOf } from './money-frame.ts';
import { type PartnerMoney, readPartnerMoney } from './partner-money.ts';
import { paymentName } from './payment-name.ts';
import type { WrittenFile } from './print-money.ts';

export interface InstructionWanted {
  /** One agreement; without it, all under which the caller's party buys. */
  readonly agreementId?: string | undefined;
  /** Everything due by this day, `YYYY-MM-DD`. */
  readonly dueBy: string;
  /** The day on which the bank is to pay. */
  readonly payOn: string;
}

/** Refuses `not-allowed`, `not-found`, and `bad-input` where a day is none or nothing is due. */
export async function readInstruction(
  context: Context,
  wanted: InstructionWanted,
): Promise<PaymentInstruction> {
  permit(context, 'record-payment');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const money = await readPartnerMoney(tx, context, { agreementId: wanted.agreementId });
    const [dueBy, payOn] = [day('due_by', wanted.dueBy), day('pay_on', wanted.payOn)];
    const payments: InstructedPayment[] = [];
    for (const one of money) {
      const payment = one.frame.side === 'buyer' ? await paymentOf(tx, one, dueBy) : undefined;
      if (payment) payments.push(payment);
    }
    if (payments.length === 0) {
      throw badInput([{ column: 'due_by', message: `finds nothing that is due by ${dueBy}` }]);
    }
    const createdAt = stamp(context);
    return {
      id: `HL-${createdAt.replace(/\D/g, '')}`,
      createdAt,
      payOn,
      payer: await partyName(tx, context.caller.partyId),
      payerAccount: plain(await newestAccount(tx, context.caller.partyId)),
      payments,
    };
  });
}

function day(column: string, text: string): LocalDate {
  const read = parseLocalDate(text.trim());
  if (!read) throw badInput([{ column, message: 'must be a date on the calendar, like 2026-09-14' }]);
  return read;
}

async function paymentOf(
  tx: Transaction,
  { partner, frame }: PartnerMoney,
  dueBy: LocalDate,
): Promise<InstructedPayment | undefined> {
  const due = (document: StandingDocument) => document.open - document.held;
  const documents = frame.standing.documents.filter(
    (document) => due(document) > 0n && document.dueOn <= dueBy,
  );
  const last = documents.at(-1);
  if (!last) return undefined;
  const jointPayees = jointPayeesOf(frame.conditions, frame.rows);
  return {
    reference: `${frame.found.row.number} ${last.serial}`.slice(0, 35),
    payee: partner.name,
    jointPayees,
    // A transfer reaches one account alone: two payees are paid by a check made out to both.
    account: jointPayees.length > 0 ? null : plain(await newestAccount(tx, partner.id)),
    amount: frame.print(documents.reduce((sum, document) => sum + due(document), 0n)),
    currency: frame.money.currency,
    invoices: documents.map((document) => ({
      name: documentName({ kind: document.kind, number: String(document.serial) }),
      number: String(document.serial),
      issuedOn: document.issuedOn,
      amount: frame.print(due(document)),
    })),
  };
}

function plain(account: PayeeAccount | null): PayeeAccount | null {
  if (!account) return null;
  const { holder, kind, number, bankKind, bank } = account;
  return { holder, kind, number, bankKind, bank };
}

/** An instruction as a page shows it. */
export interface CheckedInstruction {
  readonly instruction: PaymentInstruction;
  /** One for each currency. */
  readonly totals: readonly { readonly currency: string; readonly amount: string }[];
  /** What a bank's computer would turn back. */
  readonly problems: readonly InstructionProblem[];
  /** What was paid already and nobody has confirmed: it is not taken off. */
  readonly unconfirmed: readonly UnconfirmedPayment[];
  /** Whether an agreement in it gives a discount for paying early, which is not taken off either. */
  readonly isDiscountAgreed: boolean;
}

export interface UnconfirmedPayment {
  readonly payee: string;
  /** "Check 1043". */
  readonly name: string;
  readonly amount: string;
  readonly currency: string;
  readonly paidOn: string;
}

/** Refuses as `readInstruction`. */
export async function checkInstruction(
  context: Context,
  wanted: InstructionWanted,
): Promise<CheckedInstruction> {
  const instruction = await readInstruction(context, wanted);
  const buying = await context.store.forParty(context.caller.partyId, async (tx) =>
    (await readPartnerMoney(tx, context, { agreementId: wanted.agreementId })).filter(
      ({ frame }) => frame.side === 'buyer',
    ),
  );
  const byCurrency = groupRows(instruction.payments, ({ currency }) => currency);
  return {
    instruction,
    totals: [...byCurrency].map(([currency, payments]) => ({ currency, amount: sumOf(payments) })),
    problems: instructionProblems(instruction),
    unconfirmed: buying.flatMap(unconfirmedOf),
    isDiscountAgreed: buying.some(({ frame }) => frame.conditions.payment?.discount !== undefined),
  };
}

function unconfirmedOf({ partner, frame: { rows, buyerId } }: PartnerMoney): readonly UnconfirmedPayment[] {
  const answered = new Set(rows.answers.map(({ fact }) => fact.payment));
  return rows.payments
    .filter(({ id, fact }) => fact.payer === buyerId && !answered.has(id))
    .map(({ fact }) => ({
      payee: partner.name,
      name: paymentName(fact),
      ...{ amount: fact.amount, currency: fact.currency, paidOn: fact.paidOn },
    }));
}

function sumOf(payments: readonly InstructedPayment[]): string {
  const sum = payments.reduce((total, { amount }) => add(total, decimal(amount)), ZERO);
  return printFixed(sum, payments[0]?.amount.split('.')[1]?.length ?? 0);
}

/** An agreement under which the caller's party buys. */
export interface Buying {
  readonly agreementId: string;
  readonly number: string;
  readonly partner: string;
  /** The local day there. */
  readonly today: LocalDate;
}

/** By number. Refuses `not-allowed`. */
export async function readBuying(context: Context): Promise<readonly Buying[]> {
  permit(context, 'record-payment');
  return await context.store.forParty(context.caller.partyId, async (tx) =>
    (await readPartnerMoney(tx, context))
      .filter(({ frame }) => frame.side === 'buyer')
      .map(({ partner, frame: { agreementId, found, today } }) => ({
        ...{ agreementId, today },
        number: found.row.number,
        partner: partner.name,
      })),
  );
}

/** The instruction as a file. Refuses as `readInstruction`, and `bad-input` for what a bank would turn back. */
export async function writeInstruction(
  context: Context,
  { form, ...wanted }: InstructionWanted & { readonly form: 'csv' | 'pain.001' },
): Promise<WrittenFile> {
  const instruction = await readInstruction(context, wanted);
  if (form === 'csv') return { text: instructionCsv(instruction), name: `${instruction.id}.csv` };
  const written = writeCreditTransfers(instruction);
  if (!written.ok) {
    throw badInput(written.problems.map(({ place, message }) => ({ message: `${place}: ${message}` })));
  }
  return { text: written.text, name: `${instruction.id}.xml` };
}
