/**
 * How the closing of a season stands: what is open still, the statement as it would be or as it was drawn up, who signed, and
 * the seal.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import { mayBeCarried, type OpenPoint } from '../../domain/season-close/open-points.ts';
import { sealMark } from '../../journal/seal-mark.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readSeal, readSeasonClose } from '../../store/rows/season-close-rows.ts';
import { type FoundAgreement, findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { drawUp } from './draw-up.ts';

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
  const { partyId } = context.caller;
  await lockAgreement(tx, found.row.id);
  const { dayOf } = moneyOfAgreement(found);
  const { statement, points, journal } = await drawUp(tx, context, found);
  const close = await readSeasonClose(tx, found.row.id);
  const seal = await readSeal(tx, found.row.id);
  const isStale = close !== undefined && close.root !== journal.root;
  const { sellerId, sellerName, buyerName } = found.row;
  return {
    statement: close && (seal || !isStale) ? (JSON.parse(close.statement) as ClosingStatement) : statement,
    drawn: close && {
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
      isStale: isStale && !seal,
    },
    points: seal ? [] : points,
    inTheWay: seal ? [] : points.filter((point) => !mayBeCarried(point)),
    seal: seal &&
      close && {
        root: seal.root,
        on: dayOf(seal.sealedAt),
        sealedAt: seal.sealedAt,
        mark: sealMark({
          statement: close.fingerprint,
          root: seal.root,
          entries: String(seal.entryCount),
          sealedAt: seal.sealedAt,
          signatures: close.signatures.map(({ partyId: signer, name, signedAt }) => ({
            party: signer === sellerId ? sellerName : buyerName,
            name,
            signedAt,
          })),
        }),
      },
  };
}
