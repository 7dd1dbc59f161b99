/**
 * One request, done once. A request that comes with a key again is answered as it was the first time; the same key
 * with something else asked is refused.
 */
import { canonicalText, sha256 } from '../journal/fingerprint.ts';
import type { Transaction } from '../store/open-store.ts';
import type { Context } from './context.ts';
import { Refusal } from './refusal.ts';

export interface AskedFor {
  readonly verb: string;
  /** What the request is about, for the audit trail. */
  readonly subject: string;
  /** Chosen by the caller; without one the request is done each time it comes. */
  readonly key: string | undefined;
  /** All that the answer depends on; JSON. */
  readonly input: unknown;
}

/** Does `work` in one transaction with its audit trail. Refuses `key-reused`. The answer must be JSON. */
export async function doOnce<Answer>(
  context: Context,
  asked: AskedFor,
  work: (tx: Transaction) => Promise<Answer>,
): Promise<Answer> {
  const { caller, store, newId } = context;
  const { partyId, personId } = caller;
  const { verb, subject, key } = asked;
  const inputHash = sha256(canonicalText({ verb, subject, input: asked.input }));
  return await store.forParty(partyId, async (tx) => {
    if (key !== undefined) {
      // Two requests with one key wait for each other, so that the second finds the first one's answer.
      await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`${partyId} ${key}`}, 1))::text`;
      const earlier = await tx.request.findUnique({ where: { partyId_key: { partyId, key } } });
      if (earlier) {
        if (earlier.inputHash !== inputHash) {
          throw new Refusal(
            'key-reused',
            'This request key was used for something else before. Use a new one.',
          );
        }
        return JSON.parse(earlier.answer) as Answer;
      }
    }
    const answer = await work(tx);
    const asWhom = caller.token ? `${subject} by token ${caller.token.id}` : subject;
    await tx.audit.create({ data: { id: newId(), partyId, personId, verb, subject: asWhom } });
    if (key !== undefined) {
      await tx.request.create({ data: { partyId, key, verb, inputHash, answer: JSON.stringify(answer) } });
    }
    return answer;
  });
}
