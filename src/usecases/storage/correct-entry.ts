/**
 * Puts right what a buyer wrote down of a silo: a new version with its reason, or none any more. Earlier versions stay.
 */
import type { SiloEntryKind } from '../../domain/storage/silo-row.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertSiloEntry } from '../../store/rows/silo-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import {
  findBoughtAgreement,
  holdToRules,
  keptTexts,
  lockSilos,
  readEntry,
  type SiloEntry,
  standingEntries,
} from './silo-frame.ts';

export interface EntryToWithdraw {
  readonly agreementId: string;
  readonly entryId: string;
  /** The version that was looked at. */
  readonly baseVersion: number;
  readonly reason: string;
  readonly key?: string;
}

export interface EntryToCorrect extends EntryToWithdraw {
  /** All columns anew. */
  readonly row: InputRow;
  readonly confirmed?: boolean;
}

/** Refuses `not-allowed`, `bad-input`, `not-found`, `changed-meanwhile`, `not-yours` and `unusual`. */
export async function correctSiloEntry(
  context: Context,
  { row, confirmed, ...asked }: EntryToCorrect,
): Promise<{ readonly version: number }> {
  return await replace(
    context,
    'correct-silo',
    { ...asked, input: { row } },
    async (tx, { found, before }) => {
      const { siloId, id: entryId, kind } = before.row;
      const entry = readEntry(kind as SiloEntryKind, row);
      await holdToRules(tx, { now: context.now, found }, { entry, siloId, entryId, confirmed });
      return canonicalText(keptTexts(row));
    },
  );
}

/**
 * Takes an entry back; a silo's own takes the silo and all that was written of it out of the account. Refuses
 * `not-allowed`, `bad-input` without a reason, `not-found`, `changed-meanwhile` and `not-yours`.
 */
export async function withdrawSiloEntry(
  context: Context,
  asked: EntryToWithdraw,
): Promise<{ readonly version: number }> {
  return await replace(context, 'withdraw-silo', { ...asked, input: {} }, async () => null);
}

interface Standing {
  readonly found: FoundAgreement;
  readonly before: SiloEntry;
}

async function replace(
  context: Context,
  verb: string,
  {
    agreementId,
    entryId,
    baseVersion,
    reason,
    key,
    input,
  }: EntryToWithdraw & { readonly input: { readonly row?: InputRow } },
  contentOf: (tx: Transaction, standing: Standing) => Promise<string | null>,
): Promise<{ readonly version: number }> {
  permit(context, 'keep-silo');
  const asked = { verb, subject: entryId, key, input: { ...input, agreementId, baseVersion, reason } };
  return await doOnce(context, asked, async (tx) => {
    const found = await findBoughtAgreement(tx, context.caller, agreementId);
    const why = readReason(reason);
    await lockSilos(tx, agreementId);
    const before = (await standingEntries(tx, agreementId)).find(({ row }) => row.id === entryId);
    if (!before) throw new Refusal('not-found', 'There is no such entry; it may have been taken back.');
    const { siloId, version, kind } = before.row;
    if (version !== baseVersion) {
      throw new Refusal('changed-meanwhile', 'This was put right meanwhile. Look at it again.');
    }
    const { partyId, personId } = context.caller;
    await insertSiloEntry(
      tx,
      {
        ...{ siloId, id: entryId, version: version + 1, partyId, kind, reason: why },
        content: await contentOf(tx, { found, before }),
      },
      { agreementId, recordedAt: stamp(context), recordedBy: personId },
    );
    return { version: version + 1 };
  });
}
