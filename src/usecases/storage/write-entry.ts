/**
 * Writes the first version of what a buyer notes of a silo.
 */
import type { SiloEntryKind } from '../../domain/storage/silo-row.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import { insertSiloEntry } from '../../store/rows/silo-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import {
  findBoughtAgreement,
  holdToRules,
  keptTexts,
  lockSilos,
  readEntry,
  standingEntries,
} from './silo-frame.ts';

export interface EntryToWrite {
  readonly agreementId: string;
  readonly siloId: string;
  /** The columns of its kind in `SILO_ENTRY_SHAPES`. */
  readonly row: InputRow;
  /** Unusual figures are right. */
  readonly confirmed?: boolean;
  readonly key?: string;
}

export interface WrittenEntry {
  readonly entryId: string;
}

/** Refuses `not-allowed`, `bad-input`, `not-found`, `not-yours` and `unusual`. */
export async function writeEntry(
  context: Context,
  kind: Exclude<SiloEntryKind, 'silo'>,
  { agreementId, siloId, row, confirmed, key }: EntryToWrite,
): Promise<WrittenEntry> {
  permit(context, 'keep-silo');
  const asked = { verb: `record-silo-${kind}`, subject: agreementId, key, input: { siloId, row } };
  return await doOnce(context, asked, async (tx) => {
    const found = await findBoughtAgreement(tx, context.caller, agreementId);
    const entry = readEntry(kind, row);
    await lockSilos(tx, agreementId);
    const isThere = (await standingEntries(tx, agreementId)).some((one) => one.row.id === siloId);
    if (!isThere) throw new Refusal('not-found', 'There is no such silo.');
    await holdToRules(tx, { now: context.now, found }, { entry, siloId, entryId: undefined, confirmed });
    const { partyId, personId } = context.caller;
    const entryId = context.newId();
    const content = canonicalText(keptTexts(row));
    await insertSiloEntry(
      tx,
      { siloId, id: entryId, version: 1, partyId, kind, content, reason: null },
      { agreementId, recordedAt: stamp(context), recordedBy: personId },
    );
    return { entryId };
  });
}
