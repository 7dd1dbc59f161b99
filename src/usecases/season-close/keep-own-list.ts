/**
 * Keeps a party's own list of an agreement's loads, to be matched with the record. It stays that party's alone, stands in no
 * journal and prices nothing; a newer one takes its place.
 */
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import { insertOwnList } from '../../store/rows/own-list-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { rememberMatch } from '../import/kept-match.ts';
import { type OwnListFile, openOwnList } from './open-own-list.ts';

export interface OwnListToKeep extends OwnListFile {
  readonly fileName: string;
  /** A column match of kind `own-loads`. */
  readonly match: unknown;
  readonly key?: string;
}

/**
 * Returns how many rows it holds, and those that hold no load. Refuses `not-allowed`, `not-found`, `not-yours`, and `bad-input`
 * where file or match cannot be used.
 */
export async function keepOwnList(
  context: Context,
  { agreementId, bytes, fileName, match, key }: OwnListToKeep,
): Promise<{
  readonly rows: number;
  readonly left: readonly { readonly line: number; readonly wrong: string }[];
}> {
  permit(context, 'correct');
  const input = { file: sha256(Buffer.from(bytes).toString('base64')), match, fileName };
  const asked = {
    verb: 'keep-own-list',
    subject: agreementId,
    key,
    input: JSON.parse(JSON.stringify(input)),
  };
  return await doOnce(context, asked, async (tx) => {
    const { agreement } = await findOwnAgreement(tx, context.caller, agreementId);
    const opened = openOwnList(agreement.timeZone, { bytes, match });
    const { partyId, personId } = context.caller;
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    await insertOwnList(
      tx,
      {
        id: context.newId(),
        partyId,
        fileName: fileName.trim().slice(0, LONGEST_NAME) || 'list.csv',
        rows: canonicalText(opened.rows),
        rowCount: opened.rows.length,
      },
      recorded,
    );
    await rememberMatch(tx, context, opened);
    return { rows: opened.rows.length, left: opened.left };
  });
}

const LONGEST_NAME = 120;
