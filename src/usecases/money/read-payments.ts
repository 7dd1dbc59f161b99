/**
 * The payments, set-offs and liens of one agreement as a page shows them, and what is open to be paid.
 */
import { daysLate } from '../../domain/money/ageing.ts';
import { documentName } from '../../domain/money/money-document.ts';
import { type Context, permit } from '../context.ts';
import { jointPayeesOf } from './money-frame.ts';
import { liveLiens } from './money-rows.ts';
import { readPartnerMoney } from './partner-money.ts';
import { paymentName } from './payment-name.ts';
import { nameOf } from './statement-entries.ts';

export interface PaymentView {
  readonly paymentId: string;
  readonly name: string;
  readonly amount: string;
  readonly paidOn: string;
  /** Whether the caller's party is the payer. */
  readonly isPaidByUs: boolean;
  readonly isRecordedByUs: boolean;
  readonly madeOutTo: 'seller' | 'jointly';
  readonly pastLien: string | null;
  /** "recorded" waits for the payee. */
  readonly state: 'recorded' | 'confirmed' | 'contested' | 'withdrawn' | 'returned';
  /** Why it was contested or came back. */
  readonly reason: string | null;
  readonly settles: readonly { readonly name: string; readonly amount: string; readonly discount: string }[];
}

export interface SetOffView {
  readonly setOffId: string;
  readonly amount: string;
  readonly reason: string;
  readonly isOurs: boolean;
  readonly state: 'open' | 'confirmed' | 'refused' | 'withdrawn';
}

export interface LienView {
  readonly lienId: string;
  readonly lender: string;
  readonly debtor: string;
  readonly cropYear: string;
  readonly county: string;
  readonly conditions: string;
  readonly receivedOn: string;
  /** Null while it stands. */
  readonly endedOn: string | null;
}

export interface PayableDocument {
  readonly documentId: string;
  readonly name: string;
  readonly dueOn: string;
  readonly daysLate: number;
  /** Open and not held. */
  readonly due: string;
  readonly held: string;
}

export interface AgreementPayments {
  readonly agreementId: string;
  readonly agreement: string;
  readonly partner: string;
  readonly partnerId: string;
  readonly side: 'seller' | 'buyer';
  readonly currency: string;
  readonly today: string;
  /** Newest first. */
  readonly payments: readonly PaymentView[];
  readonly setOffs: readonly SetOffView[];
  readonly liens: readonly LienView[];
  /** Lenders whom a payment must name. */
  readonly jointPayees: readonly string[];
  /** Oldest due date first. */
  readonly payable: readonly PayableDocument[];
  /** All that is due, and what the buyer has on account. */
  readonly due: string;
  readonly onAccount: string;
  readonly isOnAccount: boolean;
  readonly isInterestAgreed: boolean;
  readonly isAdvanceAgreed: boolean;
  /** Whether the caller's side issues the invoices. */
  readonly isIssuer: boolean;
}

/** Refuses `not-allowed`, `not-found`. */
export async function readPayments(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<AgreementPayments> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const [one] = await readPartnerMoney(tx, context, { agreementId });
    if (!one) throw new Error('Reading an agreement that is not there was not refused');
    const { frame, partner } = one;
    const { rows, standing, print, conditions, side } = frame;
    const names = new Map(rows.documents.map(({ id, fact }) => [id, nameOf(fact)]));
    const answers = new Map(rows.answers.map((answer) => [answer.fact.payment, answer.fact]));
    const reversals = new Map(rows.reversals.map((reversal) => [reversal.fact.payment, reversal.fact]));
    const setOffAnswers = new Map(rows.setOffAnswers.map(({ fact }) => [fact.setOff, fact.answer]));
    const ends = new Map(rows.lienEnds.map(({ fact }) => [fact.lien, fact.endedOn]));
    const payable = standing.documents
      .filter(({ open, held }) => open - held > 0n)
      .sort((a, b) => (a.dueOn < b.dueOn ? -1 : a.dueOn > b.dueOn ? 1 : a.serial - b.serial));
    return {
      agreementId: frame.agreementId,
      agreement: frame.found.row.number,
      partner: partner.name,
      partnerId: partner.id,
      side,
      currency: frame.money.currency,
      today: frame.today,
      payments: rows.payments.toReversed().map(({ id, fact }): PaymentView => {
        const answer = answers.get(id);
        const back = reversals.get(id);
        return {
          paymentId: id,
          name: paymentName(fact),
          amount: fact.amount,
          paidOn: fact.paidOn,
          isPaidByUs: fact.payer === partyId,
          isRecordedByUs: fact.party === partyId,
          madeOutTo: fact.madeOutTo === 'jointly' ? 'jointly' : 'seller',
          pastLien: fact.pastLien,
          state: back ? 'returned' : ((answer?.answer as PaymentView['state'] | undefined) ?? 'recorded'),
          reason: back?.reason ?? answer?.reason ?? null,
          settles: (answer?.allocated ?? []).map(({ document, amount, discount }) => ({
            name: names.get(document) ?? '',
            amount,
            discount,
          })),
        };
      }),
      setOffs: rows.setOffs.toReversed().map(({ id, fact }) => ({
        setOffId: id,
        amount: fact.amount,
        reason: fact.reason,
        isOurs: fact.party === partyId,
        state: (setOffAnswers.get(id) as SetOffView['state'] | undefined) ?? 'open',
      })),
      liens: rows.liens.map(({ id, fact }) => {
        const { lender, debtor, cropYear, county, receivedOn } = fact;
        return {
          ...{ lienId: id, lender, debtor, cropYear, county, receivedOn },
          conditions: fact.conditions,
          endedOn: ends.get(id) ?? null,
        };
      }),
      jointPayees: jointPayeesOf(conditions, { liens: liveLiens(rows), lienEnds: [] }),
      payable: payable.map((document) => ({
        documentId: document.id,
        name: documentName({ kind: document.kind, number: String(document.serial) }),
        dueOn: document.dueOn,
        daysLate: daysLate(document, frame.today),
        due: print(document.open - document.held),
        held: document.held > 0n ? print(document.held) : '',
      })),
      due: print(payable.reduce((sum, { open, held }) => sum + open - held, 0n)),
      onAccount: print(standing.onAccount),
      isOnAccount: standing.onAccount > 0n,
      isInterestAgreed: conditions.payment?.interest !== undefined,
      isAdvanceAgreed: conditions.advance !== undefined,
      isIssuer: (conditions.payment?.issuedBy ?? 'seller') === side,
    };
  });
}
