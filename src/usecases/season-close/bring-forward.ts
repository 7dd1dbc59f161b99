/**
 * Brings the balance of a sealed season forward into another agreement of the same two parties, once and as both signed it: a note
 * for each document that was open, due when that was due, and a credit for money on account. What was held there is held here,
 * for the same side, and lenders who were joint payees there are joint payees here.
 */
import { FEEDS } from '../../domain/agreement/measures.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { documentName } from '../../domain/money/money-document.ts';
import type { StandingDocument } from '../../domain/money/standing.ts';
import type { HoldFact } from '../../journal/money-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterHolds } from '../money/hold-amount.ts';
import { refuseOtherIssuer } from '../money/issue-invoices.ts';
import { frameOf, jointPayeesOf, type MoneyFrame, moneyFrame, refreshed } from '../money/money-frame.ts';
import { liveHolds } from '../money/money-rows.ts';
import { type DocumentDraft, type WrittenDocument, writeDocuments } from '../money/write-documents.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { findSealedSeason, type SealedSeason } from './find-sealed-season.ts';

export interface SeasonToBringForward {
  /** The agreement that takes it up. */
  readonly agreementId: string;
  readonly ofAgreementId: string;
  readonly key?: string;
}

/**
 * Issues the notes. Refuses `not-allowed`, `not-found`, `not-yours` for the side that does not issue, `season-closed` where this
 * season is sealed too, `not-ready` where the other is not or nothing was owed, and `ended-already` where its balance was brought
 * forward before.
 */
export async function bringForward(
  context: Context,
  { agreementId, ofAgreementId, key }: SeasonToBringForward,
): Promise<{ readonly documents: readonly WrittenDocument[] }> {
  permit(context, 'issue-invoice');
  const asked = { verb: 'bring-forward', subject: agreementId, key, input: { ofAgreementId } };
  return await doOnce(context, asked, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    refuseOtherIssuer(frame);
    const season = await findSealedSeason(tx, frame, ofAgreementId);
    // Another agreement might take it up at the same instant.
    await lockAgreement(tx, season.found.row.id);
    const left = await frameOf(tx, context, season.found);
    const [gone] = left.rows.broughtForward;
    if (gone) {
      throw new Refusal(
        'ended-already',
        `The balance of that season was brought forward into agreement ${gone.into}.`,
      );
    }
    const parts = partsOf(left, frame.today);
    if (parts.length === 0) {
      throw new Refusal('not-ready', 'Nothing was owed any more when that season was sealed.');
    }
    const drafts = parts.map((part) => draftOf(part, { frame, season, left }));
    const documents = await writeDocuments(tx, context, { frame, drafts });
    await holdOn(tx, context, { frame: await refreshed(tx, frame), documents, parts, left });
    await tellPartner(tx, context, { found: frame.found, kind: 'balance-brought' });
    return { documents };
  });
}

/** Something of the balance: what is open of a document, or money on account. */
interface Part {
  /** Null for money on account. */
  readonly document: StandingDocument | null;
  readonly name: string;
  /** In minor units; above zero the buyer owes it. */
  readonly payable: bigint;
  readonly dueOn: LocalDate;
}

/** By due date, money on account last; together they are the balance. */
function partsOf({ standing }: MoneyFrame, today: LocalDate): readonly Part[] {
  const open = standing.documents
    .filter((document) => document.open !== 0n)
    .map((document): Part => {
      const { kind, serial, dueOn } = document;
      return {
        document,
        name: documentName({ kind, number: String(serial) }),
        payable: document.open,
        dueOn,
      };
    })
    .toSorted((a, b) => (a.dueOn < b.dueOn ? -1 : Number(a.dueOn > b.dueOn)));
  if (standing.onAccount === 0n) return open;
  const onAccount = {
    document: null,
    name: 'Money on account',
    payable: -standing.onAccount,
    dueOn: today,
  };
  return [...open, onAccount];
}

interface DraftGround {
  readonly frame: MoneyFrame;
  readonly season: SealedSeason;
  readonly left: MoneyFrame;
}

function draftOf(
  { document, name, payable, dueOn }: Part,
  { frame, season: { found, sealedOn }, left }: DraftGround,
): DocumentDraft {
  const { print } = frame;
  const { number } = found.row;
  return {
    kind: kindOf({ document, payable }),
    season: { rule: 'brought-forward', ofAgreement: found.row.id },
    of: {
      feed: FEEDS[found.agreement.feed],
      jointPayees: jointPayeesOf(left.conditions, left.rows),
    },
    dueOn,
    period: null,
    named: [],
    correctsId: null,
    reason: `${name} of agreement ${number}, as far as it was open when both sides sealed that season on ${sealedOn}.`,
    lines: [
      {
        load: null,
        label: `${name} of agreement ${number}`,
        quantity: '1',
        unit: 'document',
        rate: print(payable),
        amount: print(payable),
        how: document
          ? `${print(document.payable)} issued on ${document.issuedOn}, ${print(payable)} open`
          : `paid or credited, and used for no document: ${print(-payable)}`,
      },
    ],
    deductions: [],
    advances: [],
    loads: [],
    payable,
  };
}

/** Interest stays interest, which bears none itself. */
function kindOf({ document, payable }: Pick<Part, 'document' | 'payable'>): DocumentDraft['kind'] {
  if (payable < 0n) return 'credit-note';
  return document?.kind === 'interest' ? 'interest' : 'debit-note';
}

interface HoldGround {
  readonly frame: MoneyFrame;
  /** One for each part. */
  readonly documents: readonly WrittenDocument[];
  readonly parts: readonly Part[];
  readonly left: MoneyFrame;
}

/** Holds on each note what was held of the document that it carries, as far as it is open. */
async function holdOn(
  tx: Transaction,
  context: Context,
  { frame, documents, parts, left }: HoldGround,
): Promise<void> {
  const holds = liveHolds(left.rows);
  if (holds.length === 0) return;
  const loads = await readLoads(
    tx,
    left.agreementId,
    holds.flatMap(({ fact }) => fact.load ?? []),
  );
  const tickets = new Map(loads.map(({ id, ticket }) => [id, ticket]));
  const facts = parts.flatMap(({ document, payable }, index): HoldFact[] => {
    const note = documents[index];
    if (!document || !note) return [];
    let open = payable;
    return holds
      .filter(({ fact }) => fact.document === document.id)
      .flatMap(({ id, fact }): HoldFact[] => {
        let held = minorUnits(fact.amount, frame.money);
        if (held > open) held = open;
        if (held <= 0n) return [];
        open -= held;
        const load = fact.load === null ? '' : `, load ${tickets.get(fact.load) ?? ''}`;
        return [
          {
            document: note.id,
            load: null,
            amount: frame.print(held),
            reason: `Held already under agreement ${left.found.row.number}${load}: ${fact.reason}`,
            party: fact.party,
            correction: null,
            carriedFrom: id,
          },
        ];
      });
  });
  if (facts.length > 0) await enterHolds(tx, context, { frame, facts });
}
