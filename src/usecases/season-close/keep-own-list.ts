/**
 * Keeps a party's own list of an agreement's loads or payments, to be matched with the record. It stays that party's alone, unless
 * both parties agree to see each other's; it stands in no journal and prices nothing; a newer one of its kind takes its place.
 */
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import { insertOwnList } from '../../store/rows/own-list-rows.ts';
import { findOwnAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { rememberMatch } from '../import/kept-match.ts';
import { listsAreShared } from './consent-to-lists.ts';
import { type LeftRow, type OwnListFile, openOwnList } from './open-own-list.ts';

export interface OwnListToKeep extends OwnListFile {
  readonly fileName: string;
  /** A column match of kind `own-loads` or `own-payments`. */
  readonly match: unknown;
  readonly key?: string;
}

/**
 * Returns how many rows it holds, and those that hold none. Refuses `not-allowed`, `not-found`, `not-yours`, and `bad-input`
 * where file or match cannot be used.
 */
export async function keepOwnList(
  context: Context,
  { agreementId, bytes, fileName, match, key }: OwnListToKeep,
): Promise<{
  readonly rows: number;
  readonly left: readonly LeftRow[];
  readonly isMinusUsual: boolean;
  /** Both sides agree to see each other's lists, so that the other side sees this one. */
  readonly isShared: boolean;
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
    const { agreement, row } = await findOwnAgreement(tx, context.caller, agreementId);
    const { timeZone } = agreement;
    const side = sideOf(row, context.caller) === 'seller' ? 'seller' : 'buyer';
    const books = { timeZone, side, decimals: moneyOf(agreement).decimals } as const;
    const opened = openOwnList(books, { bytes, match });
    const { partyId, personId } = context.caller;
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    await insertOwnList(
      tx,
      {
        id: context.newId(),
        partyId,
        kind: opened.match.kind,
        fileName: fileName.trim().slice(0, LONGEST_NAME) || 'list.csv',
        rows: canonicalText(opened.rows),
        rowCount: opened.rows.length,
      },
      recorded,
    );
    await rememberMatch(tx, context, opened);
    const { rows, left, isMinusUsual } = opened;
    return { rows: rows.length, left, isMinusUsual, isShared: await listsAreShared(tx, agreementId) };
  });
}

const LONGEST_NAME = 120;
