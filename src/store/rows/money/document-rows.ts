/**
 * Invoices, notes and advances as they were issued.
 */
import type { DocumentFact, DocumentLoadFact } from '../../../journal/money-facts.ts';
import type { Transaction } from '../../open-store.ts';
import { insertRows } from '../insert-rows.ts';
import type { Recorded } from '../result-rows.ts';
import { insertAllocations } from './allocation-rows.ts';
import { allocatedBy, OF_AGREEMENTS, STAMP, type Stamped } from './row-stamp.ts';

export type DocumentRow = Stamped<DocumentFact>;

/** The number that a seller's next document has. Whoever else would number one waits until this transaction ends. */
export async function nextSerial(tx: Transaction, sellerId: string): Promise<number> {
  const [row] = await tx.$queryRawUnsafe<{ serial: number }[]>(
    'SELECT next_document_serial($1::uuid) AS serial',
    sellerId,
  );
  if (!row) throw new Error('A function gave no number');
  return row.serial;
}

export interface NewDocument {
  readonly id: string;
  readonly fact: DocumentFact;
  /** Canonical JSON. */
  readonly document: string;
}

/** Writes documents of one agreement in order of number, with their loads and what they lower. */
export async function insertDocuments(
  tx: Transaction,
  documents: readonly NewDocument[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  const column = (pick: (fact: DocumentFact) => string | null) => documents.map(({ fact }) => pick(fact));
  await insertRows(tx, 'money_document', {
    agreement_id: ['uuid', documents.map(() => agreementId)],
    id: ['uuid', documents.map(({ id }) => id)],
    seller_id: ['uuid', column(({ seller }) => seller)],
    serial: ['int', column(({ serial }) => serial)],
    kind: ['text', column(({ kind }) => kind)],
    issued_on: ['date', column(({ issuedOn }) => issuedOn)],
    due_on: ['date', column(({ dueOn }) => dueOn)],
    currency: ['text', column(({ currency }) => currency)],
    payable: ['numeric', column(({ payable }) => payable)],
    corrects_id: ['uuid', column(({ corrects }) => corrects)],
    season_rule: ['text', column(({ seasonRule }) => seasonRule ?? null)],
    of_agreement_id: ['uuid', column(({ ofAgreement }) => ofAgreement ?? null)],
    document: ['text', documents.map(({ document }) => document)],
    fingerprint: ['text', column(({ fingerprint }) => fingerprint)],
    recorded_at: ['timestamptz', documents.map(() => recordedAt)],
    recorded_by: ['uuid', documents.map(() => recordedBy)],
  });
  const loads = documents.flatMap(({ id, fact }) =>
    fact.loads.map((load, place) => ({ id, place, ...load })),
  );
  await insertRows(tx, 'document_load', {
    agreement_id: ['uuid', loads.map(() => agreementId)],
    document_id: ['uuid', loads.map(({ id }) => id)],
    place: ['int', loads.map(({ place }) => place)],
    load_id: ['uuid', loads.map(({ load }) => load)],
    settlement_id: ['uuid', loads.map(({ settlement }) => settlement)],
    goods: ['numeric', loads.map(({ goods }) => goods)],
    deductions: ['numeric', loads.map(({ deductions }) => deductions)],
    advance: ['numeric', loads.map(({ advance }) => advance)],
  });
  await insertAllocations(
    tx,
    agreementId,
    documents.map(({ id, fact }) => ({ sourceId: id, allocated: fact.allocated })),
  );
}

/** The documents of some agreements, in order of number. */
export async function readDocuments(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly DocumentRow[]> {
  return await tx.$queryRawUnsafe<DocumentRow[]>(
    `SELECT ${STAMP}, jsonb_build_object('seller', t.seller_id, 'serial', t.serial::text, 'kind', t.kind,
       'issuedOn', t.issued_on::text, 'dueOn', t.due_on::text, 'currency', t.currency, 'payable', t.payable::text,
       'corrects', t.corrects_id, 'fingerprint', t.fingerprint,
       'loads', coalesce((
         SELECT json_agg(json_build_object('load', l.load_id, 'settlement', l.settlement_id, 'goods', l.goods::text,
           'deductions', l.deductions::text, 'advance', l.advance::text) ORDER BY l.place)
         FROM document_load l WHERE l.agreement_id = t.agreement_id AND l.document_id = t.id), '[]'),
       'allocated', ${allocatedBy('t.id')})
       || CASE WHEN t.season_rule IS NULL THEN '{}'::jsonb ELSE jsonb_build_object('seasonRule', t.season_rule) END
       || CASE WHEN t.of_agreement_id IS NULL THEN '{}'::jsonb ELSE jsonb_build_object('ofAgreement', t.of_agreement_id) END
       AS fact
     FROM money_document t WHERE ${OF_AGREEMENTS} ORDER BY t.seller_id, t.serial`,
    agreementIds,
  );
}

export interface PrintedDocument {
  readonly id: string;
  readonly agreementId: string;
  readonly document: string;
}

/** All that is printed on one document, or undefined where there is none that the transaction may see. */
export async function findDocument(tx: Transaction, id: string): Promise<PrintedDocument | undefined> {
  const [row] = await tx.$queryRawUnsafe<PrintedDocument[]>(
    'SELECT id, agreement_id AS "agreementId", document FROM money_document WHERE id = $1::uuid',
    id,
  );
  return row;
}

/** What was invoiced for a load so far. */
export interface InvoicedLoad extends DocumentLoadFact {
  readonly documentId: string;
}

/** What stands of each load on the documents of an agreement, in order of number. */
export async function readInvoicedLoads(
  tx: Transaction,
  agreementId: string,
): Promise<readonly InvoicedLoad[]> {
  return await tx.$queryRawUnsafe<InvoicedLoad[]>(
    `SELECT l.document_id AS "documentId", l.load_id AS load, l.settlement_id AS settlement, l.goods::text,
       l.deductions::text, l.advance::text
     FROM document_load l JOIN money_document d ON d.agreement_id = l.agreement_id AND d.id = l.document_id
     WHERE l.agreement_id = $1::uuid ORDER BY d.serial, l.place`,
    agreementId,
  );
}

/** All that is printed on the documents of an agreement, in order of number. */
export async function readPrintedDocuments(
  tx: Transaction,
  agreementId: string,
): Promise<readonly PrintedDocument[]> {
  return await tx.$queryRawUnsafe<PrintedDocument[]>(
    `SELECT id, agreement_id AS "agreementId", document FROM money_document
     WHERE agreement_id = $1::uuid ORDER BY serial`,
    agreementId,
  );
}
