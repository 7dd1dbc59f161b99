/**
 * One party's lists matched with the other's, while both agree to it: who has agreed, whether each has brought lists, and how their
 * rows end. The record is no part of it, and neither list is taken to be right.
 */
import { countStandings, matchLists, type Outcome, standingsOf } from '../../domain/matching/match-lists.ts';
import type { OwnRow } from '../../domain/matching/own-row.ts';
import { matchPayments, type PaymentOutcome } from '../../domain/matching/payments/match-payments.ts';
import type { OwnPayment } from '../../domain/matching/payments/own-payment.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import type { OwnKind } from '../../domain/tables/wanted-columns.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type ListConsentRow, readListConsents } from '../../store/rows/list-consent-rows.ts';
import { type OwnListRow, readOwnList } from '../../store/rows/own-list-rows.ts';
import { findOwnAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { type MatchingView, STANDINGS } from './read-matching.ts';
import { PAYMENT_STANDINGS, type PaymentMatchingView } from './read-payment-matching.ts';

/** A list as it was brought. */
export type BroughtList = Pick<OwnListRow, 'fileName'> & { readonly broughtAt: string };

/** Two lists of one kind. `fileName`, `broughtAt` and `ownRows` are of mine; `recordRows` are the other side's. */
export interface TwoLists<Counts, Ends>
  extends Pick<MatchingView, 'currency' | 'fileName' | 'broughtAt' | 'ownRows' | 'recordRows'> {
  readonly counts: Counts;
  /** All that does not agree. */
  readonly open: readonly Ends[];
}

/** What each side brought of a kind of list; `matching` where both did. */
export interface BothLists<Counts, Ends> {
  readonly ours?: BroughtList;
  readonly theirs?: BroughtList;
  readonly matching?: TwoLists<Counts, Ends>;
}

export type LoadLists = BothLists<MatchingView['counts'], Outcome>;
export type PaymentLists = BothLists<PaymentMatchingView['counts'], PaymentOutcome>;

/** A party's last word on whether lists are seen. */
export type ListWord = Pick<ListConsentRow, 'word' | 'recordedAt'>;

export interface ListsComparedView {
  readonly partner: string;
  readonly side: 'seller' | 'buyer';
  /** Undefined where a side never said a word. */
  readonly ourWord?: ListWord;
  readonly theirWord?: ListWord;
  /** Undefined unless both agree. */
  readonly lists?: { readonly loads: LoadLists; readonly payments: PaymentLists };
}

/** Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readListsCompared(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<ListsComparedView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { row, agreement } = await findOwnAgreement(tx, context.caller, agreementId);
    const { partyId } = context.caller;
    const isSeller = sideOf(row, context.caller) === 'seller';
    const partnerId = isSeller ? row.buyerId : row.sellerId;
    const words = await readListConsents(tx, agreementId);
    const ourWord = words.find((word) => word.partyId === partyId);
    const theirWord = words.find((word) => word.partyId === partnerId);
    const who = {
      partner: isSeller ? row.buyerName : row.sellerName,
      side: isSeller ? ('seller' as const) : ('buyer' as const),
      ...(ourWord ? { ourWord } : {}),
      ...(theirWord ? { theirWord } : {}),
    };
    if (ourWord?.word !== 'given' || theirWord?.word !== 'given') return who;
    const of = { agreementId, partyId, partnerId, ...moneyOf(agreement) };
    return { ...who, lists: { loads: await loadLists(tx, of), payments: await paymentLists(tx, of) } };
  });
}

interface Between {
  readonly agreementId: string;
  readonly partyId: string;
  readonly partnerId: string;
  readonly currency: string;
  readonly decimals: number;
}

async function loadLists(tx: Transaction, of: Between): Promise<LoadLists> {
  const { ours, theirs } = await listsOf(tx, of, 'own-loads');
  return bothLists<OwnRow, MatchingView['counts'], Outcome>({ ours, theirs }, of, (mine, record) => {
    const outcomes = matchLists({ mine, record }, of);
    return { counts: countStandings(STANDINGS, outcomes), outcomes };
  });
}

async function paymentLists(tx: Transaction, of: Between): Promise<PaymentLists> {
  const { ours, theirs } = await listsOf(tx, of, 'own-payments');
  // Kept lists have the signs of the record, whoever brought them: above zero is what the buyer paid.
  return bothLists<OwnPayment, PaymentMatchingView['counts'], PaymentOutcome>(
    { ours, theirs },
    of,
    (mine, record) => {
      const outcomes = matchPayments({ mine, record }, of);
      return { counts: countStandings(PAYMENT_STANDINGS, outcomes), outcomes };
    },
  );
}

interface Lists {
  readonly ours: OwnListRow | undefined;
  readonly theirs: OwnListRow | undefined;
}

async function listsOf(
  tx: Transaction,
  { agreementId, partyId, partnerId }: Between,
  kind: OwnKind,
): Promise<Lists> {
  return {
    ours: await readOwnList(tx, { agreementId, kind, partyId }),
    theirs: await readOwnList(tx, { agreementId, kind, partyId: partnerId }),
  };
}

function bothLists<Row, Counts, Ends extends Outcome | PaymentOutcome>(
  { ours, theirs }: Lists,
  { currency }: Between,
  match: (
    mine: readonly Row[],
    record: readonly Row[],
  ) => { readonly counts: Counts; readonly outcomes: readonly Ends[] },
): BothLists<Counts, Ends> {
  const brought = {
    ...(ours ? { ours: broughtOf(ours) } : {}),
    ...(theirs ? { theirs: broughtOf(theirs) } : {}),
  };
  if (!ours || !theirs) return brought;
  const mine = JSON.parse(ours.rows) as readonly Row[];
  const record = JSON.parse(theirs.rows) as readonly Row[];
  const { counts, outcomes } = match(mine, record);
  const open = outcomes.filter((outcome) => !standingsOf(outcome).includes('agrees'));
  const sizes = { ownRows: mine.length, recordRows: record.length };
  return { ...brought, matching: { currency, ...broughtOf(ours), ...sizes, counts, open } };
}

function broughtOf({ fileName, recordedAt }: OwnListRow): BroughtList {
  return { fileName, broughtAt: recordedAt };
}
