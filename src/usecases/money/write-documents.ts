/**
 * Numbers documents, writes them as they will print for good, posts them, and lets credit notes lower what they correct.
 */
import { FEEDS } from '../../domain/agreement/measures.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import {
  type AdvanceTaken,
  type DeductionLine,
  DOCUMENT_FORMAT,
  type DocumentKind,
  type DocumentLine,
  type MoneyDocument,
  type NamedDocument,
  type SeasonRule,
} from '../../domain/money/money-document.ts';
import type { Allocated } from '../../domain/money/standing.ts';
import { paymentInWords } from '../../domain/words/payment-words.ts';
import type { Entering } from '../../journal/chain.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import type { DocumentFact, DocumentLoadFact } from '../../journal/money-facts.ts';
import { documentPostings } from '../../journal/money-postings.ts';
import type { Transaction } from '../../store/open-store.ts';
import {
  type DocumentRow,
  insertDocuments,
  type NewDocument,
  nextSerial,
} from '../../store/rows/money/document-rows.ts';
import type { Context } from '../context.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { endHolds } from './end-holds.ts';
import { jointPayeesOf, type MoneyFrame } from './money-frame.ts';
import { allocationFacts, liveHolds } from './money-rows.ts';

/** A document that has yet to be numbered. */
export interface DocumentDraft {
  readonly kind: DocumentKind;
  /** A credit note that gives back costs, not feed or interest. */
  readonly isOfFees?: true;
  /** Of a note about a season as a whole. */
  readonly season?: { readonly rule: SeasonRule; readonly ofAgreement?: string };
  /** Of a sealed season that it takes up: its feed, and lenders who are joint payees of that money. */
  readonly of?: { readonly feed: string; readonly jointPayees: readonly string[] };
  readonly dueOn: LocalDate;
  readonly period: MoneyDocument['period'];
  /** What it corrects or is about, on paper. */
  readonly named: readonly NamedDocument[];
  /** The document that it lowers or raises in the record, if one. */
  readonly correctsId: string | null;
  readonly reason: string | null;
  readonly lines: readonly DocumentLine[];
  readonly deductions: readonly DeductionLine[];
  readonly advances: readonly AdvanceTaken[];
  readonly loads: readonly DocumentLoadFact[];
  /** In minor units. */
  readonly payable: bigint;
}

export interface WrittenDocument {
  readonly id: string;
  readonly number: string;
  readonly kind: DocumentKind;
  readonly payable: string;
}

/** Writes the drafts in order. The agreement must be locked. */
export async function writeDocuments(
  tx: Transaction,
  context: Context,
  { frame, drafts }: { readonly frame: MoneyFrame; readonly drafts: readonly DocumentDraft[] },
): Promise<readonly WrittenDocument[]> {
  if (drafts.length === 0) return [];
  // A note may leave less open than is held, so that what it answers is due or gone before it counts.
  await endHoldsAnswered(tx, context, { frame, drafts });
  const first = await nextSerial(tx, frame.sellerId);
  const open = new Map(frame.standing.documents.map((document) => [document.id, document.open]));
  const written = drafts.map((draft, index) => {
    const document = printed(draft, { frame, number: String(first + index) });
    const text = canonicalText(document);
    const allocated = lowers(draft, open);
    const fact: DocumentFact = {
      seller: frame.sellerId,
      serial: document.number,
      kind: draft.kind,
      issuedOn: document.issuedOn,
      dueOn: document.dueOn,
      currency: document.currency,
      payable: document.totals.payable,
      corrects: draft.correctsId,
      fingerprint: sha256(text),
      loads: draft.loads,
      allocated: allocationFacts(allocated, frame.print),
      ...(draft.season ? { seasonRule: draft.season.rule } : {}),
      ...(draft.season?.ofAgreement === undefined ? {} : { ofAgreement: draft.season.ofAgreement }),
    };
    return { id: context.newId(), fact, document: text, draft, allocated };
  });
  await insertDocuments(tx, written satisfies readonly NewDocument[], frame.recorded);
  await enterFacts(
    tx,
    written.map(({ id, fact, draft, allocated }): Entering => {
      const sum = (pick: (load: DocumentLoadFact) => string) =>
        draft.loads.reduce((total, load) => total + minorUnits(pick(load), frame.money), 0n);
      const sums = {
        kind: draft.isOfFees ? ('fee' as const) : draft.kind,
        seasonRule: draft.season?.rule,
        goods: sum(({ goods }) => goods),
        deductions: sum(({ deductions }) => deductions),
        advances: sum(({ advance }) => advance),
        payable: draft.payable,
        allocated: allocated.reduce((total, { amount }) => total + amount, 0n),
      };
      return { kind: 'document', fact, subjectId: id, postings: documentPostings(sums, frame.money) };
    }),
    frame.recorded,
  );
  return written.map(({ id, fact, draft }) => ({
    id,
    number: fact.serial,
    kind: draft.kind,
    payable: fact.payable,
  }));
}

function printed(
  draft: DocumentDraft,
  { frame, number }: { readonly frame: MoneyFrame; readonly number: string },
): MoneyDocument {
  const { found, conditions, print, money } = frame;
  const { row, agreement } = found;
  const sum = (parts: readonly { readonly amount: string }[]) =>
    parts.reduce((total, { amount }) => total + minorUnits(amount, money), 0n);
  const totals = {
    goods: sum(draft.lines),
    deductions: sum(draft.deductions),
    advances: sum(draft.advances),
  };
  if (totals.goods - totals.deductions - totals.advances !== draft.payable) {
    throw new Error('The lines of a document do not come to its amount');
  }
  return {
    format: DOCUMENT_FORMAT,
    kind: draft.kind,
    ...(draft.season ? { season: draft.season.rule } : {}),
    number,
    agreement: { number: row.number, version: String(row.version), fingerprint: row.fingerprint },
    seller: row.sellerName,
    buyer: row.buyerName,
    issuedBy: frame.issuer,
    feed: draft.of?.feed ?? FEEDS[agreement.feed],
    issuedOn: frame.today,
    dueOn: draft.dueOn,
    period: draft.period,
    currency: money.currency,
    corrects: draft.named,
    reason: draft.reason,
    lines: draft.lines,
    deductions: draft.deductions,
    advances: draft.advances,
    totals: {
      goods: print(totals.goods),
      deductions: print(totals.deductions),
      advances: print(totals.advances),
      payable: print(draft.payable),
    },
    jointPayees: [...new Set([...jointPayeesOf(conditions, frame.rows), ...(draft.of?.jointPayees ?? [])])],
    terms: paymentTerms(frame),
  };
}

function paymentTerms({ conditions, money, found: { row } }: MoneyFrame): readonly string[] {
  const setting = { seller: row.sellerName, buyer: row.buyerName, currency: money.currency };
  return conditions.payment ? paymentInWords(conditions.payment, setting) : [];
}

/** What a credit note lowers: the document that it corrects, as far as that is open. */
function lowers({ correctsId, payable }: DocumentDraft, open: Map<string, bigint>): readonly Allocated[] {
  const left = correctsId === null ? 0n : (open.get(correctsId) ?? 0n);
  if (correctsId === null || payable >= 0n || left <= 0n) return [];
  const amount = -payable < left ? -payable : left;
  open.set(correctsId, left - amount);
  return [{ documentId: correctsId, amount, discount: 0n }];
}

/** Ends the holds on the loads that a note settles anew, and all of a document that keeps less open than they hold. */
async function endHoldsAnswered(
  tx: Transaction,
  context: Context,
  { frame, drafts }: { readonly frame: MoneyFrame; readonly drafts: readonly DocumentDraft[] },
): Promise<void> {
  const holds = liveHolds(frame.rows);
  const answered = new Set<string>();
  for (const { correctsId, payable, loads } of drafts) {
    const about = new Set<string | null>(loads.map(({ load }) => load));
    const on = holds.filter(({ fact }) => fact.document === correctsId);
    for (const { id, fact } of on) if (about.has(fact.load)) answered.add(id);
    const document = frame.standing.documents.find(({ id }) => id === correctsId);
    const left = on.filter(({ id }) => !answered.has(id));
    const held = left.reduce((sum, { fact }) => sum + minorUnits(fact.amount, frame.money), 0n);
    if (document && held > document.open + payable) for (const { id } of left) answered.add(id);
  }
  await endHolds(tx, context, {
    frame,
    holds: holds.filter(({ id }) => answered.has(id)),
    ending: 'decided',
  });
}

/** A document as another one names it. */
export function namedDocument({ fact }: DocumentRow): NamedDocument {
  return { kind: fact.kind as DocumentKind, number: fact.serial, issuedOn: fact.issuedOn };
}
