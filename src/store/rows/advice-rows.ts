/**
 * Advice with its notes and drafts, as one of its two parties may see them.
 */
import type { Purpose } from '../../domain/offers/offer.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export interface AdviceRow {
  readonly id: string;
  /** Who asked for it. */
  readonly partyId: string;
  readonly partyName: string;
  readonly adviserId: string;
  readonly adviserName: string;
  readonly lotId: string | null;
  readonly offerId: string | null;
  readonly agreementId: string | null;
  /** The lot, or the offer's; null for what the reader no longer sees. */
  readonly lotNumber: number | null;
  readonly agreementNumber: string | null;
  readonly purpose: Purpose | null;
  /** Of what it is about. */
  readonly sellerId: string | null;
  readonly sellerName: string | null;
  /** Of an offer or agreement. */
  readonly buyerName: string | null;
  /** ISO 8601, UTC. */
  readonly since: string;
  readonly endedAt: string | null;
}

const UTC = `AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'`;

const SELECT = `
  SELECT a.id, a.party_id AS "partyId", p.name AS "partyName", a.adviser_id AS "adviserId", d.name AS "adviserName",
    a.lot_id AS "lotId", a.offer_id AS "offerId", a.agreement_id AS "agreementId", l.number AS "lotNumber",
    g.number AS "agreementNumber", o.purpose, s.id AS "sellerId", s.name AS "sellerName", b.name AS "buyerName",
    to_char(a.since ${UTC}) AS since, to_char(a.ended_at ${UTC}) AS "endedAt"
  FROM advice a
  JOIN party p ON p.id = a.party_id
  JOIN party d ON d.id = a.adviser_id
  LEFT JOIN offer o ON o.id = a.offer_id
  LEFT JOIN lot l ON l.id = coalesce(a.lot_id, o.lot_id)
  LEFT JOIN agreement g ON g.id = coalesce(a.agreement_id, o.agreement_id)
  LEFT JOIN party s ON s.id = coalesce(l.seller_id, o.seller_id, g.seller_id)
  LEFT JOIN party b ON b.id = coalesce(o.buyer_id, g.buyer_id)`;

/** All advice that the transaction may see, what runs first, then the newest first. */
export async function readAllAdvice(tx: Transaction): Promise<readonly AdviceRow[]> {
  return await tx.$queryRawUnsafe<AdviceRow[]>(
    `${SELECT} ORDER BY a.ended_at IS NOT NULL, a.since DESC, a.id`,
  );
}

/** One, or undefined where there is none that the transaction may see. */
export async function readAdvice(tx: Transaction, id: string): Promise<AdviceRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<AdviceRow[]>(`${SELECT} WHERE a.id = $1::uuid`, id);
  return row;
}

export interface NoteRow {
  readonly adviceId: string;
  readonly byPartyId: string;
  readonly byName: string;
  readonly text: string;
  readonly writtenAt: string;
}

/** Notes of the advice with these ids, oldest first. */
export async function readNotes(tx: Transaction, adviceIds: readonly string[]): Promise<readonly NoteRow[]> {
  return await tx.$queryRawUnsafe<NoteRow[]>(
    `SELECT advice_id AS "adviceId", by_party_id AS "byPartyId", by_name AS "byName", text,
       to_char(written_at ${UTC}) AS "writtenAt"
     FROM advice_note WHERE advice_id = ANY($1::uuid[]) ORDER BY advice_note.written_at, id`,
    adviceIds,
  );
}

export interface DraftRow {
  readonly adviceId: string;
  readonly id: string;
  readonly byName: string;
  readonly writtenAt: string;
}

/** Drafts of the advice with these ids, oldest first. */
export async function readDrafts(
  tx: Transaction,
  adviceIds: readonly string[],
): Promise<readonly DraftRow[]> {
  return await tx.$queryRawUnsafe<DraftRow[]>(
    `SELECT advice_id AS "adviceId", id, by_name AS "byName", to_char(written_at ${UTC}) AS "writtenAt"
     FROM advice_draft WHERE advice_id = ANY($1::uuid[]) ORDER BY advice_draft.written_at, id`,
    adviceIds,
  );
}

/** One draft with its document (canonical JSON), or undefined. */
export async function readDraft(
  tx: Transaction,
  id: string,
): Promise<(DraftRow & { readonly document: string }) | undefined> {
  const [row] = await tx.$queryRawUnsafe<(DraftRow & { document: string })[]>(
    `SELECT advice_id AS "adviceId", id, by_name AS "byName", to_char(written_at ${UTC}) AS "writtenAt", document
     FROM advice_draft WHERE id = $1::uuid`,
    id,
  );
  return row;
}

interface Written {
  readonly adviceId: string;
  readonly id: string;
  readonly byName: string;
  readonly writtenAt: string;
}

export async function insertNote(
  tx: Transaction,
  note: Written & Pick<NoteRow, 'byPartyId' | 'text'>,
): Promise<void> {
  await insertRows(tx, 'advice_note', {
    advice_id: ['uuid', [note.adviceId]],
    id: ['uuid', [note.id]],
    by_party_id: ['uuid', [note.byPartyId]],
    by_name: ['text', [note.byName]],
    text: ['text', [note.text]],
    written_at: ['timestamptz', [note.writtenAt]],
  });
}

export async function insertDraft(
  tx: Transaction,
  draft: Written & { readonly document: string },
): Promise<void> {
  await insertRows(tx, 'advice_draft', {
    advice_id: ['uuid', [draft.adviceId]],
    id: ['uuid', [draft.id]],
    document: ['text', [draft.document]],
    by_name: ['text', [draft.byName]],
    written_at: ['timestamptz', [draft.writtenAt]],
  });
}

/** Ends advice. */
export async function endAdviceRow(
  tx: Transaction,
  { id, endedAt }: { readonly id: string; readonly endedAt: string },
): Promise<void> {
  await tx.$executeRawUnsafe(
    'UPDATE advice SET ended_at = $2::timestamptz WHERE id = $1::uuid AND ended_at IS NULL',
    id,
    endedAt,
  );
}

/** Whether a party takes part in a lot by itself: sells it, was invited, bids on it, or finds it posted for everyone. */
export async function seesLot(
  tx: Transaction,
  { partyId, lotId }: { readonly partyId: string; readonly lotId: string },
): Promise<boolean> {
  const [row] = await tx.$queryRawUnsafe<{ sees: boolean }[]>(
    'SELECT sees_lot($1::uuid, $2::uuid) AS sees',
    partyId,
    lotId,
  );
  return row?.sees ?? false;
}
