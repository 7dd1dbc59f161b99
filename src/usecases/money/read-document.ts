/**
 * One document about money as a page shows it: what is printed on it, what was paid of it, and what is held.
 */
import { daysLate } from '../../domain/money/ageing.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { documentName, type MoneyDocument } from '../../domain/money/money-document.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { findDocument } from '../../store/rows/money/document-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import type { MoneyFrame } from './money-frame.ts';
import { allocatedOf, countedPayments, liveHolds } from './money-rows.ts';
import { readPartnerMoney } from './partner-money.ts';
import { paymentName } from './payment-name.ts';
import { nameOf } from './statement-entries.ts';

/** Something that settled a part of the document. */
export interface SettledPart {
  readonly name: string;
  readonly on: string;
  readonly amount: string;
  readonly discount: string | null;
}

export interface HoldView {
  readonly holdId: string;
  readonly ticket: string | null;
  readonly amount: string;
  readonly reason: string;
  readonly since: string;
  /** By name. */
  readonly by: string;
  readonly isOurs: boolean;
  /** A correction decides it. */
  readonly waitsForCorrection: boolean;
  /** The question that decides it, if one. */
  readonly retestId: string | undefined;
}

export interface DocumentView {
  readonly id: string;
  readonly agreementId: string;
  readonly name: string;
  /** As it was issued; figures as decimal strings. */
  readonly document: MoneyDocument;
  readonly side: 'seller' | 'buyer';
  /** Both have signed its season shut: it is neither paid nor held any more. */
  readonly isSealed: boolean;
  readonly open: string;
  readonly held: string;
  /** Open and not held. */
  readonly due: string;
  readonly daysLate: number;
  readonly settledBy: readonly SettledPart[];
  readonly holds: readonly HoldView[];
  /** The loads on it, each with what it brings, for a question about one. */
  readonly loads: readonly { readonly loadId: string; readonly ticket: string; readonly amount: string }[];
  /** Later notes that correct it. */
  readonly correctedBy: readonly { readonly id: string; readonly name: string }[];
  readonly corrects: { readonly id: string; readonly name: string } | null;
}

/** Refuses `not-allowed`, and `not-found` for a document of others. */
export async function readDocument(
  context: Context,
  { documentId }: { readonly documentId: string },
): Promise<DocumentView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const printed = isId(documentId) ? await findDocument(tx, documentId) : undefined;
    if (!printed) throw new Refusal('not-found', 'There is no such document.');
    const [money] = await readPartnerMoney(tx, context, { agreementId: printed.agreementId });
    if (!money) throw new Refusal('not-found', 'There is no such document.');
    return await viewOf(tx, context, { frame: money.frame, id: documentId, text: printed.document });
  });
}

async function viewOf(
  tx: Transaction,
  { caller }: Context,
  { frame, id, text }: { readonly frame: MoneyFrame; readonly id: string; readonly text: string },
): Promise<DocumentView> {
  const { rows, standing, print, money, found } = frame;
  const now = standing.documents.find((document) => document.id === id);
  const row = rows.documents.find((document) => document.id === id);
  if (!now || !row) throw new Error('A document that was found does not stand');
  const held = liveHolds(rows).filter(({ fact }) => fact.document === id);
  const loads = await readLoads(
    tx,
    frame.agreementId,
    row.fact.loads.map(({ load }) => load),
  );
  const tickets = new Map(loads.map(({ id: loadId, ticket }) => [loadId, ticket]));
  const named = (other: (typeof rows.documents)[number]) => ({ id: other.id, name: nameOf(other.fact) });
  const corrected = rows.documents.find((other) => other.id === row.fact.corrects);
  return {
    id,
    agreementId: frame.agreementId,
    name: documentName({ kind: now.kind, number: String(now.serial) }),
    document: JSON.parse(text) as MoneyDocument,
    side: frame.side,
    isSealed: found.row.isSealed,
    open: print(now.open),
    held: print(now.held),
    due: print(now.open - now.held),
    daysLate: now.open > 0n ? daysLate(now, frame.today) : 0,
    settledBy: settledBy(frame, id),
    holds: held.map((hold) => ({
      holdId: hold.id,
      ticket: hold.fact.load === null ? null : (tickets.get(hold.fact.load) ?? null),
      amount: hold.fact.amount,
      reason: hold.fact.reason,
      since: frame.dayOf(hold.recordedAt),
      by: hold.fact.party === found.row.sellerId ? found.row.sellerName : found.row.buyerName,
      isOurs: hold.fact.party === caller.partyId,
      waitsForCorrection: hold.fact.correction !== null,
      retestId: hold.fact.retest,
    })),
    loads: row.fact.loads.map(({ load, goods, deductions, advance }) => ({
      loadId: load,
      ticket: tickets.get(load) ?? '',
      amount: print(minorUnits(goods, money) - minorUnits(deductions, money) - minorUnits(advance, money)),
    })),
    correctedBy: rows.documents.filter(({ fact }) => fact.corrects === id).map(named),
    corrects: corrected ? named(corrected) : null,
  };
}

function settledBy({ rows, money, print, dayOf }: MoneyFrame, id: string): readonly SettledPart[] {
  const part = (name: string, on: string, facts: Parameters<typeof allocatedOf>[0]): SettledPart[] =>
    allocatedOf(facts, money)
      .filter(({ documentId }) => documentId === id)
      .map(({ amount, discount }) => ({
        name,
        on,
        amount: print(amount),
        discount: discount > 0n ? print(discount) : null,
      }));
  return [
    ...countedPayments(rows).flatMap(({ payment, answer }) =>
      part(paymentName(payment.fact), payment.fact.paidOn, answer.fact.allocated),
    ),
    ...rows.setOffAnswers.flatMap(({ fact, recordedAt }) =>
      part('From what was on account', dayOf(recordedAt), fact.allocated),
    ),
    ...rows.documents.flatMap(({ fact }) => part(nameOf(fact), fact.issuedOn, fact.allocated)),
  ];
}
