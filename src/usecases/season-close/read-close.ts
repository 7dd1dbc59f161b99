/**
 * How the closing of a season stands: what is open still, the statement as it would be or as it was drawn up, who signed, and
 * the seal.
 */

import type { LocalDate } from '../../domain/dates/local-date.ts';
import { isSamePair } from '../../domain/parties/same-pair.ts';
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import { mayBeCarried, type OpenPoint } from '../../domain/season-close/open-points.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement, readAgreements } from '../../store/rows/agreement-rows.ts';
import { readSeal, readSeasonClose, type SeasonCloseRow } from '../../store/rows/season-close-rows.ts';
import { type FoundAgreement, findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { drawUp } from './draw-up.ts';
import { type SeasonNoteView, seasonNotesOf } from './season-notes.ts';
import { sealOf } from './season-seal.ts';

export interface CloseView {
  readonly statement: ClosingStatement;
  /** Of the statement that was drawn up; undefined where none stands. */
  readonly drawn:
    | {
        readonly id: string;
        readonly fingerprint: string;
        readonly signatures: readonly {
          readonly party: string;
          readonly side: 'seller' | 'buyer';
          readonly isOurs: boolean;
          readonly name: string;
          readonly on: LocalDate;
        }[];
        readonly isOurs: boolean;
        /** Something was recorded since, so that it can no longer be signed. */
        readonly isStale: boolean;
      }
    | undefined;
  readonly points: readonly OpenPoint[];
  /** Of those, what has to be answered first. */
  readonly inTheWay: readonly OpenPoint[];
  /** Differences of the two sides' books, the first noted first. */
  readonly differences: readonly SeasonNoteView[];
  /** Of a sealed season: other agreements of the two that can take up what it left over. */
  readonly later: readonly { readonly id: string; readonly number: string }[];
  readonly seal:
    | {
        readonly root: string;
        readonly mark: string;
        readonly on: LocalDate;
        /** ISO 8601, UTC. */
        readonly sealedAt: string;
      }
    | undefined;
}

/** Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readClose(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<CloseView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) =>
    closeViewOf(tx, context, await findOwnAgreement(tx, context.caller, agreementId)),
  );
}

/** The same within a transaction, of an agreement that is the caller's party's own. */
export async function closeViewOf(
  tx: Transaction,
  context: Context,
  found: FoundAgreement,
): Promise<CloseView> {
  await lockAgreement(tx, found.row.id);
  const { dayOf } = moneyOfAgreement(found);
  const close = await readSeasonClose(tx, found.row.id);
  const seal = await readSeal(tx, found.row.id);
  if (seal && close) {
    // Nothing can have changed since, so nothing is worked out again.
    const { sealedAt, root, mark } = sealOf(found, close, seal).seal;
    return {
      statement: statementOf(close),
      drawn: drawnOf(context, found, { close, isStale: false }),
      points: [],
      inTheWay: [],
      differences: await differencesOf(tx, context, found),
      later: await laterOf(tx, found),
      seal: { root, mark, on: dayOf(sealedAt), sealedAt },
    };
  }
  const { statement, points, journal } = await drawUp(tx, context, found);
  const isStale = close !== undefined && close.root !== journal.root;
  return {
    statement: close && !isStale ? statementOf(close) : statement,
    drawn: close && drawnOf(context, found, { close, isStale }),
    points,
    inTheWay: points.filter((point) => !mayBeCarried(point)),
    differences: await differencesOf(tx, context, found),
    later: [],
    seal: undefined,
  };
}

async function differencesOf(
  tx: Transaction,
  { caller }: Context,
  found: FoundAgreement,
): Promise<readonly SeasonNoteView[]> {
  return (await seasonNotesOf(tx, found, caller)).filter(({ kind }) => kind === 'difference');
}

async function laterOf(tx: Transaction, { row }: FoundAgreement): Promise<CloseView['later']> {
  return (await readAgreements(tx))
    .filter((other) => isSamePair(other, row) && !other.isSealed)
    .map(({ id, number }) => ({ id, number }));
}

function statementOf({ statement }: SeasonCloseRow): ClosingStatement {
  return JSON.parse(statement) as ClosingStatement;
}

function drawnOf(
  { caller: { partyId } }: Context,
  found: FoundAgreement,
  { close, isStale }: { readonly close: SeasonCloseRow; readonly isStale: boolean },
): CloseView['drawn'] {
  const { dayOf } = moneyOfAgreement(found);
  const { sellerId, sellerName, buyerName } = found.row;
  return {
    id: close.id,
    fingerprint: close.fingerprint,
    signatures: close.signatures.map((signature) => ({
      party: signature.partyId === sellerId ? sellerName : buyerName,
      side: signature.partyId === sellerId ? 'seller' : 'buyer',
      isOurs: signature.partyId === partyId,
      name: signature.name,
      on: dayOf(signature.signedAt),
    })),
    isOurs: close.byPartyId === partyId,
    isStale,
  };
}
