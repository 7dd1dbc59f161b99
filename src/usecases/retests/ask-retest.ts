/**
 * Asks a question about one figure of several samples, or about the weights of several loads, all at once or none.
 */

import { asWord } from '../../domain/agreement/raw.ts';
import { QUESTIONED, type Questioned } from '../../domain/agreement/retest-rules.ts';
import {
  compare,
  decimal,
  HUNDRED,
  isNegative,
  isZero,
  parseDecimal,
  subtract,
} from '../../domain/numbers/exact.ts';
import { plainDecimal } from '../../domain/numbers/printing.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { RetestFact } from '../../journal/retest-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertRetests } from '../../store/rows/retest-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { holdQuestioned } from './hold-questioned.ts';
import { type Questionable, readQuestionable } from './questionable.ts';

export interface RetestToAsk {
  readonly agreementId: string;
  /** A measure, or `weight`. */
  readonly about: string;
  /** By the id of the sample, or of the load for a weight: what the asker makes of it, in the unit of the figure. */
  readonly claims: Readonly<Record<string, string>>;
  /** What the claims rest on. */
  readonly reason: string;
  readonly key?: string;
}

/**
 * Returns the questions' ids, in the order of the claims. Refuses `not-allowed`, `not-found`, `not-yours`, `bad-input` (no
 * claim, or one that is no figure or that which stands), `not-ready` where the agreement has no rule for it or no part of the
 * sample is left to test, `too-late`, `retest-open`, `correction-open`.
 */
export async function askRetest(
  context: Context,
  { agreementId, about, claims, reason, key }: RetestToAsk,
): Promise<{ readonly retestIds: readonly string[] }> {
  permit(context, 'question');
  const input = { about, claims, reason };
  return await doOnce(context, { verb: 'ask-retest', subject: agreementId, key, input }, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    await lockAgreement(tx, agreementId);
    const questioned = asWord(about, QUESTIONED);
    if (!questioned) throw badInput([{ column: 'about', message: 'must be a measure, or weight' }]);
    const why = readReason(reason, 'what your figure comes from');
    const facts = await readClaims(tx, context, { found, about: questioned, claims, why });
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const rows = facts.map((fact) => ({ id: context.newId(), fact }));
    await insertRetests(tx, rows, recorded);
    await enterFacts(
      tx,
      rows.map(({ id, fact }) => ({ kind: 'retest' as const, fact, subjectId: id, postings: [] })),
      recorded,
    );
    await holdQuestioned(tx, context, found);
    await tellPartner(tx, context, { found, kind: 'retest-asked' });
    return { retestIds: rows.map(({ id }) => id) };
  });
}

interface ClaimGround {
  readonly found: Awaited<ReturnType<typeof findOwnAgreement>>;
  readonly about: Questioned;
  readonly claims: RetestToAsk['claims'];
  readonly why: string;
}

async function readClaims(
  tx: Transaction,
  context: Context,
  { found, about, claims, why }: ClaimGround,
): Promise<readonly RetestFact[]> {
  const ids = Object.keys(claims);
  if (ids.length === 0) {
    throw badInput([{ column: 'claimed', message: 'is empty: say what you make of at least one figure' }]);
  }
  const known = new Map((await readQuestionable(tx, context, { found, about })).map((one) => [one.id, one]));
  const problems: Problem[] = [];
  const facts = ids.flatMap((id): RetestFact[] => {
    const one = known.get(id);
    if (!one) throw new Refusal('not-found', 'There is no such figure to question.');
    refuseObstacle(one);
    const claimed = (claims[id] ?? '').trim();
    const wrong = wrongClaim(claimed, one);
    if (wrong !== undefined) {
      problems.push({ column: `claimed ${one.name}`, message: wrong });
      return [];
    }
    return [
      {
        about,
        sample: about === 'weight' ? null : id,
        load: about === 'weight' ? id : null,
        first: one.first,
        firstVersion: String(one.version),
        claimed: plainDecimal(claimed),
        reason: why,
        rule: canonicalText(one.rule),
        party: context.caller.partyId,
      },
    ];
  });
  if (problems.length > 0) throw badInput(problems);
  return facts;
}

function refuseObstacle({ name, obstacle }: Questionable): void {
  if (!obstacle) return;
  throw new Refusal(obstacle.code, `${name}: ${obstacle.message}`);
}

/** What is wrong with a claim; undefined where nothing is. */
export function wrongClaim(
  claimed: string,
  { first, unit, isPercent, rule }: Questionable,
): string | undefined {
  const figure = parseDecimal(claimed);
  if (!figure || isNegative(figure)) {
    return `must be a figure${unit === '' ? '' : ` in ${unit}`}, such as ${first}; found ${JSON.stringify(claimed)}`;
  }
  if (isZero(subtract(figure, decimal(first)))) return `must differ from ${first}, which stands`;
  if (isPercent && compare(figure, HUNDRED) > 0) return 'must be at most 100';
  if (rule.method.method === 'second-scale' && isZero(figure)) return 'must be above 0';
  return undefined;
}
