/**
 * A party says of a row of its own list that does not agree with the record that the record is right, or takes that back. It is
 * a mark of its own that nobody else sees, and changes nothing in the record.
 */
import { OWN_KINDS } from '../../domain/tables/wanted-columns.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertAcceptedRow, readAcceptedRows } from '../../store/rows/accepted-row-rows.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { type FoundAgreement, findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { markedOutcomes } from './part-outcomes.ts';
import { matchOwnLoads } from './read-matching.ts';
import { matchOwnPayments } from './read-payment-matching.ts';

export interface RowToAccept {
  readonly agreementId: string;
  /** `own-loads` or `own-payments`. */
  readonly kind: string;
  /** Of the outcome, as the matching gave it. */
  readonly fingerprint: string;
  readonly word: 'accepted' | 'taken-back';
  readonly key?: string;
}

/**
 * Records the word; nothing where it stands already. Refuses `not-allowed`, `bad-input` for another kind of list, `not-found`,
 * `not-yours`, `key-reused`, and `changed-meanwhile` where no row that does not agree has this fingerprint any more.
 */
export async function acceptRow(
  context: Context,
  { agreementId, kind, fingerprint, word, key }: RowToAccept,
): Promise<{ readonly word: RowToAccept['word'] }> {
  permit(context, 'correct');
  const asked = { verb: 'accept-row', subject: agreementId, key, input: { kind, fingerprint, word } };
  return await doOnce(context, asked, async (tx) => {
    const own = OWN_KINDS.find((one) => one === kind);
    if (!own) throw badInput([{ column: 'kind', message: 'must be a list of loads or of payments' }]);
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const rows = await differing(tx, context, { found, kind: own });
    if (!rows.some((row) => row.fingerprint === fingerprint)) {
      throw new Refusal(
        'changed-meanwhile',
        'Your list or the record has changed since you looked at this row. Look at it again.',
      );
    }
    // Two clicks at once follow each other.
    await lockAgreement(tx, agreementId);
    const words = await readAcceptedRows(tx, { agreementId, kind });
    const last = words.find((one) => one.fingerprint === fingerprint);
    if ((last?.word ?? 'taken-back') !== word) {
      const { partyId, personId } = context.caller;
      await insertAcceptedRow(
        tx,
        { id: context.newId(), partyId, kind, fingerprint, version: (last?.version ?? 0) + 1, word },
        { agreementId, recordedAt: stamp(context), recordedBy: personId },
      );
    }
    return { word };
  });
}

interface Differing {
  readonly found: FoundAgreement;
  readonly kind: (typeof OWN_KINDS)[number];
}

/** The rows of a kind of list that do not agree with the record. */
async function differing(
  tx: Transaction,
  { caller }: Context,
  { found, kind }: Differing,
): Promise<readonly { readonly fingerprint: string }[]> {
  if (kind === 'own-loads') return markedOutcomes((await matchOwnLoads(tx, found, caller))?.outcomes ?? []);
  return markedOutcomes((await matchOwnPayments(tx, found, caller))?.outcomes ?? []);
}
