/**
 * Writes down feed for sale: a draft first, which only the seller sees, and each change as a new version.
 */
import type { AgreementProblem } from '../../domain/agreement/problem.ts';
import { printPath } from '../../domain/agreement/problem.ts';
import { checkLot, type LotDocument } from '../../domain/lots/lot-document.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type LotFileRow, readLotFiles } from '../../store/rows/lot-file-rows.ts';
import { insertAddress, insertLot, insertLotVersion } from '../../store/rows/lot-rows.ts';
import { lockLot } from '../../store/rows/offer-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { badInput } from '../read-input-rows.ts';
import { findOwnLot, refuseSold } from './find-lot.ts';
import { refreshListing } from './post-lot.ts';

export interface LotToKeep {
  /** The lot's document, parsed. */
  readonly document: unknown;
  /**
   * Where the feed lies; told to the buyer once both have signed. Undefined leaves it as it was; an empty one takes it
   * away.
   */
  readonly address?: string;
  readonly key?: string;
}

const LONGEST_ADDRESS = 500;

/** Writes a draft. Returns its id. Refuses `not-allowed`, `bad-input` with every fault and its path. */
export async function draftLot(
  context: Context,
  { document, address, key }: LotToKeep,
): Promise<{ readonly lotId: string }> {
  permit(context, 'keep-lot');
  const input = { document, address: address ?? null };
  return await doOnce(context, { verb: 'draft-lot', subject: 'lot', key, input }, async (tx) => {
    const lot = readLotDocument(document, address, []);
    const lotId = context.newId();
    await insertLot(tx, {
      id: lotId,
      sellerId: context.caller.partyId,
      createdAt: stamp(context),
      createdBy: context.caller.personId,
    });
    await writeVersion(tx, context, {
      lotId,
      version: 1,
      lot,
      address: address?.trim() === '' ? undefined : address,
      isShown: false,
    });
    return { lotId };
  });
}

/**
 * Writes a new version of a lot; one that is posted shows it at once. Refuses `not-allowed`, `bad-input`, `not-found`,
 * `not-yours`, `lot-closed` for a lot that is sold.
 */
export async function changeLot(
  context: Context,
  { lotId, document, address, key }: LotToKeep & { readonly lotId: string },
): Promise<{ readonly version: number }> {
  permit(context, 'keep-lot');
  const input = { document, address: address ?? null };
  return await doOnce(context, { verb: 'change-lot', subject: lotId, key, input }, async (tx) => {
    await lockLot(tx, lotId);
    const before = await findOwnLot(tx, context, lotId);
    refuseSold(before);
    const files = await readLotFiles(tx, lotId);
    const lot = readLotDocument(document, address, files);
    const version = before.version + 1;
    const isShown = before.state === 'posted';
    const isMoved = address !== undefined && address.trim() !== (before.address ?? '');
    await writeVersion(tx, context, { lotId, version, lot, address: isMoved ? address : undefined, isShown });
    if (isShown) await refreshListing(tx, context, { lotId, lot });
    return { version };
  });
}

/** `files` are those that are attached to the lot; its tests may name no others. */
function readLotDocument(
  document: unknown,
  address: string | undefined,
  files: readonly Pick<LotFileRow, 'id'>[],
): LotDocument {
  const { lot, problems } = checkLot(document);
  const strange = (lot?.tests ?? []).flatMap(({ file }, index) =>
    file === undefined || files.some(({ id }) => id === file)
      ? []
      : [{ column: `tests.${index}.file`, message: 'is no file of this lot; attach the report first' }],
  );
  const long = (address ?? '').length > LONGEST_ADDRESS;
  const told = [
    ...problems.map(lotProblem),
    ...strange,
    ...(long ? [{ column: 'address', message: `must have at most ${LONGEST_ADDRESS} characters` }] : []),
  ];
  if (told.length > 0 || !lot) throw badInput(told);
  return lot;
}

/** A problem as a form names it: "harvest.from", "tests.0.starch", "$.price[2].rate" for the asking formula. */
function lotProblem({ path, message }: AgreementProblem) {
  const [first, ...rest] = path;
  return { column: first === 'asking' ? printPath(rest) : path.join('.'), message };
}

interface VersionToWrite {
  readonly lotId: string;
  readonly version: number;
  readonly lot: LotDocument;
  readonly address: string | undefined;
  readonly isShown: boolean;
}

async function writeVersion(
  tx: Transaction,
  context: Context,
  { lotId, version, lot, address, isShown }: VersionToWrite,
): Promise<void> {
  const recorded = { recordedAt: stamp(context), recordedBy: context.caller.personId };
  await insertLotVersion(tx, { lotId, version, document: canonicalText(lot), isShown, ...recorded });
  if (address !== undefined) {
    await insertAddress(tx, { lotId, version, address: address.trim(), ...recorded });
  }
}
