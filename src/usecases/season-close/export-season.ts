/**
 * A sealed season as one file, for whoever is to check it later without the record.
 */
import { SEASON_FORMAT, type SeasonFile, seasonFileText } from '../../domain/season-close/season-file.ts';
import { sealMark } from '../../journal/seal-mark.ts';
import { readEntries } from '../../store/rows/audit-rows.ts';
import { readSeal, readSeasonClose } from '../../store/rows/season-close-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';

const AT_ONCE = 2000;

/** The same bytes for both parties. Refuses `not-allowed`, `not-found`, `not-yours`, and `not-ready` before it is sealed. */
export async function exportSeason(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<{ readonly name: string; readonly text: string }> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const [seal, close] = [await readSeal(tx, agreementId), await readSeasonClose(tx, agreementId)];
    if (!seal || !close) {
      throw new Refusal(
        'not-ready',
        'The season is not sealed yet: both sides sign its closing statement first.',
      );
    }
    const { sellerId, sellerName, buyerName, number } = found.row;
    const entries: string[] = [];
    for (let after = 0; ; ) {
      const batch = await readEntries(tx, agreementId, { after, count: AT_ONCE });
      for (const { document, sequence } of batch) {
        entries.push(document);
        after = sequence;
      }
      if (batch.length < AT_ONCE) break;
    }
    const signatures = close.signatures.map(({ partyId, name, signedAt }) => ({
      party: partyId === sellerId ? sellerName : buyerName,
      name,
      signedAt,
      fingerprint: close.fingerprint,
    }));
    const sealed = { root: seal.root, entries: String(seal.entryCount), sealedAt: seal.sealedAt };
    const file: SeasonFile = {
      format: SEASON_FORMAT,
      statement: close.statement,
      signatures,
      seal: { ...sealed, mark: sealMark({ ...sealed, statement: close.fingerprint, signatures }) },
      agreements: found.versions.map((version) => version.row.document),
      entries,
    };
    return { name: `season ${number}`, text: seasonFileText(file) };
  });
}
