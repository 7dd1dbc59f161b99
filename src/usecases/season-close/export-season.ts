/**
 * A sealed season as one file, for whoever is to check it later without the record.
 */
import { SEASON_FORMAT, type SeasonFile, seasonFileText } from '../../domain/season-close/season-file.ts';
import { readEntries } from '../../store/rows/audit-rows.ts';
import { readSeal, readSeasonClose } from '../../store/rows/season-close-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { sealOf } from './season-seal.ts';

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
    const entries: string[] = [];
    for (let after = 0; ; ) {
      const batch = await readEntries(tx, agreementId, { after, count: AT_ONCE });
      for (const { document, sequence } of batch) {
        entries.push(document);
        after = sequence;
      }
      if (batch.length < AT_ONCE) break;
    }
    const file: SeasonFile = {
      format: SEASON_FORMAT,
      statement: close.statement,
      ...sealOf(found, close, seal),
      agreements: found.versions.map((version) => version.row.document),
      entries,
    };
    return { name: `season ${found.row.number}`, text: seasonFileText(file) };
  });
}
