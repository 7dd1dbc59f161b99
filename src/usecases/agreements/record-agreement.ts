/**
 * Records an agreement between the caller's party and another, as both hold it.
 */
import { checkAgreement } from '../../domain/agreement/check-agreement.ts';
import { printPath } from '../../domain/agreement/problem.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import { findAgreement, insertAgreement, lockAgreement } from '../../store/rows/agreement-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { isId } from './find-agreement.ts';

export interface AgreementToRecord {
  /** The agreement file, parsed. */
  readonly document: unknown;
  readonly sellerId: string;
  readonly buyerId: string;
  readonly key?: string;
}

/**
 * Returns the agreement's id; recorded before with the same document, that one's.
 * Refuses `not-allowed`, `bad-input` (with every fault and its path), `not-yours` where the caller's party is neither
 * side, `not-found` where the other party is not there, `agreement-taken` where the number has another document.
 */
export async function recordAgreement(
  context: Context,
  { document, sellerId, buyerId, key }: AgreementToRecord,
): Promise<{ readonly agreementId: string }> {
  permit(context, 'record-agreement');
  const { agreement, problems } = checkAgreement(document);
  if (!agreement) {
    throw badInput(problems.map(({ path, message }) => ({ column: printPath(path), message })));
  }
  const { partyId, personId } = context.caller;
  if (partyId !== sellerId && partyId !== buyerId) {
    throw new Refusal('not-yours', 'Your party must be the seller or the buyer of the agreement.');
  }
  if (sellerId === buyerId || !isId(sellerId) || !isId(buyerId)) {
    throw new Refusal('not-found', 'Name the other party of the agreement.');
  }
  const text = canonicalText(document);
  const fingerprint = sha256(text);
  const number = agreement.id;
  const asked = { verb: 'record-agreement', subject: number, key, input: { document, sellerId, buyerId } };
  return await doOnce(context, asked, async (tx) => {
    await lockAgreement(tx, `${sellerId} ${buyerId} ${number}`);
    const earlier = await findAgreement(tx, { sellerId, buyerId, number });
    if (earlier) {
      if (earlier.fingerprint === fingerprint) return { agreementId: earlier.id };
      throw new Refusal(
        'agreement-taken',
        `There is an agreement ${number} of these two parties already, with other terms. Give this one a number of its own.`,
      );
    }
    const [id, versionId, recordedAt] = [context.newId(), context.newId(), stamp(context)];
    await insertAgreement(tx, {
      id,
      number,
      sellerId,
      buyerId,
      versionId,
      document: text,
      fingerprint,
      recordedAt,
      recordedBy: personId,
    }).catch((error: unknown) => {
      throw isForeignKeyFault(error)
        ? new Refusal('not-found', 'The other party of the agreement is not here yet.')
        : error;
    });
    const fact = { number, seller: sellerId, buyer: buyerId, version: '1', fingerprint };
    await enterFacts(tx, [{ kind: 'agreement', fact, subjectId: versionId, postings: [] }], {
      agreementId: id,
      recordedAt,
      recordedBy: personId,
    });
    return { agreementId: id };
  });
}

function isForeignKeyFault(error: unknown): boolean {
  return error instanceof Error && /foreign key constraint/i.test(error.message);
}
