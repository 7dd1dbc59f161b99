/**
 * Opens an account of a bag, bunker, pile or tower that a buyer stores an agreement's feed in. It is the buyer's alone,
 * stands in no journal and prices nothing, so it can be kept on after the season is closed.
 */
import { canonicalText } from '../../journal/fingerprint.ts';
import { insertSilo, insertSiloEntry } from '../../store/rows/silo-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import type { InputRow } from '../read-input-rows.ts';
import { findBoughtAgreement, holdToRules, keptTexts, lockSilos, readEntry } from './silo-frame.ts';

export interface SiloToOpen {
  readonly agreementId: string;
  /** `name` and `kind`. */
  readonly silo: InputRow;
  readonly key?: string;
}

/** Refuses `not-allowed`, `not-found`, `not-yours`, and `bad-input` also for the name of another silo. */
export async function openSilo(
  context: Context,
  { agreementId, silo, key }: SiloToOpen,
): Promise<{ readonly siloId: string }> {
  permit(context, 'keep-silo');
  const asked = { verb: 'open-silo', subject: agreementId, key, input: silo };
  return await doOnce(context, asked, async (tx) => {
    const found = await findBoughtAgreement(tx, context.caller, agreementId);
    const entry = readEntry('silo', silo);
    await lockSilos(tx, agreementId);
    const siloId = context.newId();
    await holdToRules(tx, { now: context.now, found }, { entry, siloId, entryId: siloId, confirmed: true });
    const { partyId, personId } = context.caller;
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    await insertSilo(tx, { siloId, partyId }, recorded);
    const content = canonicalText(keptTexts(silo));
    const first = { siloId, id: siloId, version: 1, partyId, kind: 'silo', content, reason: null };
    await insertSiloEntry(tx, first, recorded);
    return { siloId };
  });
}
