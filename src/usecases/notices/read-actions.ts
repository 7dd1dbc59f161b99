/**
 * What waits for the caller's party to act: offers and proposals whose turn is theirs, lots whose time is over with
 * offers on them, drafts from an adviser, payments to confirm, debts past their day, and closing statements to sign. Oldest
 * first, in sentences.
 */

import { figuresFor } from '../../documents/figures.ts';
import { isTimeZone, zoneCalendar } from '../../domain/dates/instant.ts';
import { type ActionOffer, lotOverInWords, offerActionInWords } from '../../domain/notices/action.ts';
import { offerState } from '../../domain/offers/offer.ts';
import { questionedName } from '../../domain/words/retest-course-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAllAdvice } from '../../store/rows/advice-rows.ts';
import { type AgreementRow, readAgreements } from '../../store/rows/agreement-rows.ts';
import { readOpenProposals } from '../../store/rows/correction-rows.ts';
import { readChainHead } from '../../store/rows/journal-rows.ts';
import { readLots } from '../../store/rows/lot-rows.ts';
import { readUnseen } from '../../store/rows/notice-rows.ts';
import { type OfferRow, readOffers, readOfferVersions } from '../../store/rows/offer-rows.ts';
import { readSeasonClose } from '../../store/rows/season-close-rows.ts';
import { readSeasonNotes } from '../../store/rows/season-note-rows.ts';
import { adviceInWords } from '../advice/find-advice.ts';
import { findAgreement, sideOf, withVersions } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { lotOf } from '../lots/find-lot.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { answersWaiting, balancesWaiting, overdueWaiting } from '../money/money-waits.ts';
import { readPartnerMoney } from '../money/partner-money.ts';
import { turnOf } from '../offers/read-offer.ts';
import { waitingOf } from '../retests/read-retest-list.ts';
import { readCases } from '../retests/retest-frame.ts';

export interface ActionView {
  readonly kind: 'offer' | 'lot' | 'draft' | 'correction' | 'retest' | 'season' | 'money';
  readonly words: string;
  /** The page on which it is done. */
  readonly path: string;
  /** Since when it waits: ISO 8601, UTC. */
  readonly since: string;
}

/** Refuses `not-allowed`. */
export async function readActions(
  context: Context,
  { locale }: { readonly locale: string },
): Promise<readonly ActionView[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const offers = await readOffers(tx);
    const agreements = await readAgreements(tx);
    const actions = [
      ...(await offerActions(tx, context, offers)),
      ...(await lotActions(tx, context, offers)),
      ...(await draftActions(tx)),
      ...(await correctionActions(tx, context, agreements)),
      ...(await retestActions(tx, context, agreements)),
      ...(await seasonNoteActions(tx, context, agreements)),
      ...(await closeActions(tx, context, agreements)),
      ...(await moneyActions(tx, context, locale)),
    ];
    return actions.sort((a, b) => (a.since < b.since ? -1 : 1));
  });
}

async function offerActions(
  tx: Transaction,
  context: Context,
  offers: readonly OfferRow[],
): Promise<ActionView[]> {
  const actions: ActionView[] = [];
  for (const offer of offers) {
    if (turnOf(offer, context) !== 'yours') continue;
    const timeZone = await timeZoneOf(tx, offer);
    const { dateAt } = zoneCalendar(timeZone);
    const { partyId } = context.caller;
    const isSeller = offer.sellerId === partyId;
    const of = offer.agreementId === null ? undefined : await findAgreement(tx, offer.agreementId);
    const said: ActionOffer = {
      purpose: offer.purpose,
      other: isSeller ? offer.buyerName : offer.sellerName,
      isFirst: offer.version === 1,
      lotNumber: offer.lotNumber,
      agreementNumber: of?.row.number ?? null,
      isLapsed: offerState(offer, context.now()) === 'lapsed',
      isSignedByOther: offer.signedBy.some((id) => id !== partyId),
      until: dateAt(offer.validUntil),
      today: dateAt(context.now()),
    };
    actions.push({
      kind: 'offer',
      words: offerActionInWords(said),
      path: `/offers/${offer.id}`,
      since: offer.sentAt,
    });
  }
  return actions;
}

/** The zone in which days of an offer are told: its own document's, else its agreement's. */
async function timeZoneOf(tx: Transaction, { id, agreementId }: OfferRow): Promise<string> {
  const document = JSON.parse((await readOfferVersions(tx, id)).at(-1)?.document ?? '{}') as {
    readonly timeZone?: unknown;
  };
  const { timeZone } = document;
  if (typeof timeZone === 'string' && isTimeZone(timeZone)) return timeZone;
  return agreementId === null ? 'UTC' : (await findAgreement(tx, agreementId)).agreement.timeZone;
}

async function lotActions(
  tx: Transaction,
  context: Context,
  offers: readonly OfferRow[],
): Promise<ActionView[]> {
  const { partyId } = context.caller;
  return (await readLots(tx)).flatMap((lot): ActionView[] => {
    if (lot.sellerId !== partyId || lot.state !== 'posted') return [];
    if (lot.openUntil === null || lot.openUntil > context.now()) return [];
    const open = offers.filter(({ lotId, ending }) => lotId === lot.id && ending === null).length;
    if (open === 0) return [];
    const { until, timeZone } = lotOf(lot.document);
    const today = zoneCalendar(timeZone).dateAt(context.now());
    return [
      {
        kind: 'lot',
        words: lotOverInWords({ number: lot.number, until, today, open }),
        path: `/lots/${lot.id}`,
        since: new Date(lot.openUntil).toISOString(),
      },
    ];
  });
}

/** A draft waits until somebody has marked its notice. */
async function draftActions(tx: Transaction): Promise<ActionView[]> {
  const told = new Map(
    (await readUnseen(tx)).flatMap(({ kind, subjectId, at }) =>
      kind === 'advice-draft' ? [[subjectId, at] as const] : [],
    ),
  );
  return (await readAllAdvice(tx)).flatMap((advice): ActionView[] => {
    const since = told.get(advice.id);
    if (since === undefined || advice.endedAt !== null) return [];
    const words = `${advice.adviserName} drafted terms for ${adviceInWords(advice)}. Look at them, and use them or leave them.`;
    return [{ kind: 'draft', words, path: `/advice/${advice.id}`, since }];
  });
}

/** Corrections and allowances that the other side of an agreement proposed. */
async function correctionActions(
  tx: Transaction,
  context: Context,
  agreements: readonly AgreementRow[],
): Promise<ActionView[]> {
  const byId = new Map(agreements.map((row) => [row.id, row]));
  return (await readOpenProposals(tx)).flatMap((proposal): ActionView[] => {
    const row = byId.get(proposal.agreementId);
    const side = row && sideOf(row, context.caller);
    if (!row || side === 'adviser' || proposal.byPartyId === context.caller.partyId) return [];
    const other = side === 'seller' ? row.buyerName : row.sellerName;
    const isAllowance = proposal.subject === 'allowance';
    const what = isAllowance ? 'an allowance for a load' : 'to put right what was recorded';
    return [
      {
        kind: 'correction',
        words: `${other} proposes ${what} under agreement ${row.number}. It waits for your answer.`,
        path: isAllowance ? `/loads/${proposal.subjectId}` : '/corrections',
        since: proposal.recordedAt,
      },
    ];
  });
}

/** Questions in which the caller's side has to do something next. */
async function retestActions(
  tx: Transaction,
  context: Context,
  agreements: readonly AgreementRow[],
): Promise<ActionView[]> {
  const actions: ActionView[] = [];
  for (const row of agreements) {
    const side = sideOf(row, context.caller);
    if (row.isSealed || side === 'adviser') continue;
    const found = await withVersions(tx, row);
    const today = moneyOfAgreement(found).dayOf(stamp(context));
    for (const asked of await readCases(tx, found)) {
      const { forYou, dueOn } = waitingOf(asked, { found, side, today });
      if (forYou === undefined) continue;
      const what =
        asked.row.sample === null ? `load ${asked.row.ticket ?? ''}` : `sample ${asked.row.sample}`;
      actions.push({
        kind: 'retest',
        words: `${questionedName(asked.about)} of ${what} is questioned, agreement ${row.number}. ${forYou}${dueOn === undefined ? '' : ` By ${dueOn}.`}`,
        path: `/retests/${asked.id}`,
        since: asked.row.recordedAt,
      });
    }
  }
  return actions;
}

/** What the other side put about a season, open or sealed, and this side has not answered. */
async function seasonNoteActions(
  tx: Transaction,
  context: Context,
  agreements: readonly AgreementRow[],
): Promise<ActionView[]> {
  const byId = new Map(agreements.map((row) => [row.id, row]));
  const { notes, answers } = await readSeasonNotes(tx, [...byId.keys()]);
  const answered = new Set(answers.map(({ fact }) => fact.note));
  return notes.flatMap(({ id, agreementId, fact, recordedAt }): ActionView[] => {
    const row = byId.get(agreementId);
    if (!row || row.isSealed || answered.has(id) || fact.party === context.caller.partyId) return [];
    const other = fact.party === row.sellerId ? row.sellerName : row.buyerName;
    const [what, page] =
      fact.kind === 'difference'
        ? ['to leave a difference of your books standing', 'season-close']
        : ['money for a season that is sealed', 'past-seasons'];
    return [
      {
        kind: 'season',
        words: `${other} proposes ${what}, agreement ${row.number}. It waits for your answer.`,
        path: `/agreements/${agreementId}/${page}`,
        since: recordedAt,
      },
    ];
  });
}

/** Closing statements that the other side signed, that can still be signed, and that this side has not. */
async function closeActions(
  tx: Transaction,
  { caller }: Context,
  agreements: readonly AgreementRow[],
): Promise<ActionView[]> {
  const actions: ActionView[] = [];
  for (const row of agreements) {
    const side = sideOf(row, caller);
    if (row.isSealed || side === 'adviser') continue;
    const close = await readSeasonClose(tx, row.id);
    if (!close || close.signatures.some(({ partyId }) => partyId === caller.partyId)) continue;
    // Entries are added and never changed: their number alone says whether it can still be signed.
    if (close.entryCount !== (await readChainHead(tx, row.id)).sequence) continue;
    const other = side === 'seller' ? row.buyerName : row.sellerName;
    actions.push({
      kind: 'season',
      words: `${other} has drawn up and signed the closing statement of agreement ${row.number}. Read it, and sign it or say what is missing.`,
      path: `/agreements/${row.id}/season-close`,
      since: close.recordedAt,
    });
  }
  return actions;
}

/** Payments and set-offs to answer, and what is past its due date. */
async function moneyActions(tx: Transaction, context: Context, locale: string): Promise<ActionView[]> {
  const { show } = figuresFor(locale);
  const money = await readPartnerMoney(tx, context);
  const ofEach = money.flatMap((one) => [
    ...answersWaiting(one, { caller: context.caller, show }),
    ...overdueWaiting(one, show),
  ]);
  return [...ofEach, ...balancesWaiting(money, show)].map(({ words, path, since }) => ({
    kind: 'money',
    words,
    path,
    since,
  }));
}
