/**
 * Closes a season: one side draws up its statement and signs it, the other signs the same, and with the second signature the
 * journal is sealed for good.
 */
import { mayBeCarried, pointInWords } from '../../domain/season-close/open-points.ts';
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import {
  findSeasonClose,
  insertSeasonClose,
  insertSeasonSignature,
  isSealed,
  readSeasonClose,
} from '../../store/rows/season-close-rows.ts';
import { type FoundAgreement, findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { drawUp, pointWords } from './draw-up.ts';
import { journalRoot } from './journal-root.ts';

export interface CloseToPropose {
  readonly agreementId: string;
  /** What is open still and may be carried over is carried over; without it, it stands in the way. */
  readonly carriesOver: boolean;
  /** The signer's own name. */
  readonly name: string;
  readonly key?: string;
}

/**
 * Draws up the statement and signs it for the caller's side. Returns its id and fingerprint. Refuses `not-allowed`, `not-found`,
 * `not-yours`, `bad-input` without a name, `season-closed`, and `not-ready` while something is open.
 */
export async function proposeClose(
  context: Context,
  { agreementId, carriesOver, name, key }: CloseToPropose,
): Promise<{ readonly closeId: string; readonly fingerprint: string }> {
  permit(context, 'sign');
  const input = { carriesOver, name };
  return await doOnce(context, { verb: 'propose-close', subject: agreementId, key, input }, async (tx) => {
    const found = await openToClose(tx, context, agreementId);
    const signer = readName(name);
    const { statement, points, journal } = await drawUp(tx, context, found);
    const inTheWay = points.filter((point) => !mayBeCarried(point) || !carriesOver);
    if (inTheWay.length > 0) {
      const told = inTheWay.map((point) => pointInWords(point, pointWords(found)));
      const tick = inTheWay.some(mayBeCarried)
        ? ', or tick that what may be carried over is carried over'
        : '';
      throw new Refusal('not-ready', `${told.join('. ')}. Settle that first${tick}.`);
    }
    const text = canonicalText(statement);
    const fingerprint = sha256(text);
    const closeId = context.newId();
    const { partyId, personId } = context.caller;
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    const { entryCount, root } = journal;
    await insertSeasonClose(
      tx,
      { ...{ id: closeId, statement: text, fingerprint, entryCount, root }, byPartyId: partyId },
      recorded,
    );
    await insertSeasonSignature(tx, { closeId, partyId, name: signer, fingerprint }, recorded);
    await tellPartner(tx, context, { found, kind: 'close-came' });
    return { closeId, fingerprint };
  });
}

export interface CloseToSign {
  readonly closeId: string;
  /** Of the statement that was read. */
  readonly fingerprint: string;
  readonly name: string;
  readonly key?: string;
}

/**
 * Signs for the caller's side, and with that seals the season. Refuses `not-allowed`, `not-found`, `not-yours` where the caller's
 * side has signed, `bad-input`, `season-closed`, and `changed-meanwhile` where something was recorded since, or another statement
 * is to be signed.
 */
export async function signClose(
  context: Context,
  { closeId, fingerprint, name, key }: CloseToSign,
): Promise<{ readonly root: string }> {
  permit(context, 'sign');
  const input = { fingerprint, name };
  return await doOnce(context, { verb: 'sign-close', subject: closeId, key, input }, async (tx) => {
    const agreementId = isId(closeId) ? await findSeasonClose(tx, closeId) : undefined;
    if (agreementId === undefined) throw new Refusal('not-found', 'There is no such closing statement.');
    const found = await openToClose(tx, context, agreementId);
    const signer = readName(name);
    const close = await readSeasonClose(tx, agreementId);
    const { partyId, personId } = context.caller;
    if (close?.id !== closeId || close.fingerprint !== fingerprint) {
      throw new Refusal('changed-meanwhile', 'Another closing statement was drawn up since. Read that one.');
    }
    if (close.signatures.some((signature) => signature.partyId === partyId)) {
      throw new Refusal('not-yours', 'Your side has signed it; the other side’s signature is missing.');
    }
    const journal = await journalRoot(tx, agreementId);
    if (journal.root !== close.root || journal.entryCount !== close.entryCount) {
      throw new Refusal(
        'changed-meanwhile',
        'Something was recorded since this statement was drawn up. Draw up a new one, with that in it.',
      );
    }
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    await insertSeasonSignature(tx, { closeId, partyId, name: signer, fingerprint }, recorded);
    await tellPartner(tx, context, { found, kind: 'season-sealed' });
    return { root: close.root };
  });
}

async function openToClose(tx: Transaction, context: Context, agreementId: string): Promise<FoundAgreement> {
  const found = await findOwnAgreement(tx, context.caller, agreementId);
  await lockAgreement(tx, agreementId);
  if (await isSealed(tx, agreementId)) {
    throw new Refusal('season-closed', 'Both sides have signed this season shut.');
  }
  return found;
}

const LONGEST_NAME = 120;

function readName(name: string): string {
  const words = name.trim().replace(/\s+/g, ' ');
  if (words === '' || words.length > LONGEST_NAME || CONTROL_CHARACTER.test(words)) {
    throw badInput([{ column: 'name', message: 'must be your own name, as your signature' }]);
  }
  return words;
}
