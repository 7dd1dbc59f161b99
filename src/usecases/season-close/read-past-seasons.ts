/**
 * The sealed seasons of the two parties of an agreement, in its currency: what each carried over, where its balance went, and
 * what was put since. So nothing that was carried is forgotten.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { type DocumentKind, documentName } from '../../domain/money/money-document.ts';
import type { OpenPoint } from '../../domain/season-close/open-points.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readUnsettledLoads } from '../../store/rows/load-rows.ts';
import { type BroughtForwardRow, readBroughtForward } from '../../store/rows/money/brought-forward-rows.ts';
import { type FoundAgreement, findOwnAgreement, withVersions } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { advancesLeft } from '../money/advances-left.ts';
import { frameOf, type MoneyFrame } from '../money/money-frame.ts';
import { isOfTheSame, type SealedSeason, sealedSeason } from './find-sealed-season.ts';
import { type SeasonNoteView, seasonNotesOf } from './season-notes.ts';

export interface PastSeason {
  readonly agreementId: string;
  readonly number: string;
  readonly sealedOn: LocalDate;
  /** Decimal string, above zero where the buyer owed. */
  readonly balance: string;
  /** What both sides carried over. */
  readonly carried: readonly OpenPoint[];
  /** Loads that had not settled, each with the advance on it that is in the balance, a decimal string; null where there is none. */
  readonly unsettled: readonly { readonly ticket: string; readonly advance: string | null }[];
  readonly broughtInto:
    | {
        readonly agreementId: string;
        readonly number: string;
        readonly documents: readonly { readonly id: string; readonly name: string }[];
      }
    | undefined;
  /** Of the agreement that is read; the first put first. */
  readonly notes: readonly SeasonNoteView[];
}

export interface PastSeasons {
  readonly seller: string;
  readonly buyer: string;
  readonly currency: string;
  /** Who issues the notes, by name. */
  readonly issuer: string;
  readonly isIssuer: boolean;
  /** This one's own season is sealed: it takes nothing up any more. */
  readonly isSealed: boolean;
  /** The last sealed first. */
  readonly seasons: readonly PastSeason[];
}

/** Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readPastSeasons(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<PastSeasons> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const frame = await frameOf(tx, context, found);
    const sealed: SealedSeason[] = [];
    for (const row of await readAgreements(tx)) {
      const other = row.isSealed ? await withVersions(tx, row) : undefined;
      const season = other && isOfTheSame(frame, other) ? await sealedSeason(tx, other) : undefined;
      if (season) sealed.push(season);
    }
    const brought = await broughtBy(
      tx,
      sealed.map((season) => season.found),
    );
    const notes = await seasonNotesOf(tx, found, context.caller);
    const unsettled = new Map<string, PastSeason['unsettled']>();
    for (const season of sealed) {
      unsettled.set(season.found.row.id, await unsettledIn(tx, await frameOf(tx, context, season.found)));
    }
    const { sellerName, buyerName } = found.row;
    return {
      seller: sellerName,
      buyer: buyerName,
      currency: frame.money.currency,
      issuer: frame.issuer === 'seller' ? sellerName : buyerName,
      isIssuer: frame.issuer === frame.side,
      isSealed: found.row.isSealed,
      seasons: sealed
        .map(({ found: { row }, statement, sealedOn }): PastSeason => {
          const into = brought.get(row.id);
          return {
            agreementId: row.id,
            number: row.number,
            sealedOn,
            balance: statement.money.balance,
            carried: statement.carried.map(({ kind, count, amount }) => ({
              kind,
              count: Number(count),
              amount,
            })),
            unsettled: unsettled.get(row.id) ?? [],
            broughtInto: into && {
              agreementId: into.intoId,
              number: into.into,
              documents: into.documents.map(({ id, kind, serial }) => ({
                id,
                name: documentName({ kind: kind as DocumentKind, number: serial }),
              })),
            },
            notes: notes.filter((note) => note.ofAgreementId === row.id),
          };
        })
        .sort((a, b) => (a.sealedOn < b.sealedOn ? 1 : -1)),
    };
  });
}

async function broughtBy(
  tx: Transaction,
  seasons: readonly FoundAgreement[],
): Promise<ReadonlyMap<string, BroughtForwardRow>> {
  const rows = await readBroughtForward(
    tx,
    seasons.map(({ row }) => row.id),
  );
  return new Map(rows.map((row) => [row.agreementId, row]));
}

async function unsettledIn(tx: Transaction, frame: MoneyFrame): Promise<PastSeason['unsettled']> {
  const advances = advancesLeft(frame);
  return (await readUnsettledLoads(tx, frame.agreementId)).map(({ id, ticket }) => {
    const advance = advances.get(id);
    return { ticket, advance: advance === undefined ? null : frame.print(advance) };
  });
}
