/**
 * Every document about money of one agreement with how it stands now, newest first.
 */
import { daysLate } from '../../domain/money/ageing.ts';
import { type DocumentKind, documentName } from '../../domain/money/money-document.ts';
import { type Context, permit } from '../context.ts';
import { readPartnerMoney } from './partner-money.ts';
import { nameOf } from './statement-entries.ts';

/** Amounts are decimal strings. */
export interface ListedDocument {
  readonly id: string;
  readonly name: string;
  readonly kind: DocumentKind;
  readonly issuedOn: string;
  readonly dueOn: string;
  /** As issued; below zero on a credit note. */
  readonly payable: string;
  readonly open: string;
  readonly held: string;
  /** Open and not held. */
  readonly due: string;
  /** 0 where nothing is open. */
  readonly daysLate: number;
  /** "open": to be paid still; "held": all that is open is questioned; "over": nothing is open; "note": it changed another. */
  readonly state: 'open' | 'held' | 'over' | 'note';
  /** The document that it corrects. */
  readonly corrects: { readonly id: string; readonly name: string } | null;
}

export interface DocumentList {
  readonly agreementId: string;
  readonly agreement: string;
  readonly partner: string;
  readonly partnerId: string;
  readonly side: 'seller' | 'buyer';
  readonly seller: string;
  readonly buyer: string;
  readonly currency: string;
  /** Newest first. */
  readonly documents: readonly ListedDocument[];
}

/** Refuses `not-allowed`, and `not-found` for an agreement of others or one that is only advised on. */
export async function readDocumentList(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<DocumentList> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const [one] = await readPartnerMoney(tx, context, { agreementId });
    if (!one) throw new Error('Reading an agreement that is not there was not refused');
    const { frame, partner } = one;
    const { rows, standing, print, found } = frame;
    const facts = new Map(rows.documents.map(({ id, fact }) => [id, fact]));
    const documents = standing.documents.map((document): ListedDocument => {
      const { id, kind, serial, issuedOn, dueOn, payable, open, held } = document;
      const correctsId = facts.get(id)?.corrects ?? null;
      const corrected = correctsId === null ? undefined : facts.get(correctsId);
      return {
        ...{ id, kind, issuedOn, dueOn },
        name: documentName({ kind, number: String(serial) }),
        payable: print(payable),
        open: print(open),
        held: print(held),
        due: print(open - held),
        daysLate: open > 0n ? daysLate(document, frame.today) : 0,
        state: payable < 0n ? 'note' : open <= 0n ? 'over' : held >= open ? 'held' : 'open',
        corrects:
          correctsId === null || corrected === undefined ? null : { id: correctsId, name: nameOf(corrected) },
      };
    });
    return {
      agreementId: frame.agreementId,
      agreement: found.row.number,
      partner: partner.name,
      partnerId: partner.id,
      side: frame.side,
      seller: found.row.sellerName,
      buyer: found.row.buyerName,
      currency: frame.money.currency,
      documents: documents.toReversed(),
    };
  });
}
