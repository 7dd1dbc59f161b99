/**
 * Answers of addresses that are for programs: JSON; a refusal as problem details (RFC 9457) with the status that it has,
 * a defect by its reference.
 */

import { type Problem, Refusal } from '../../usecases/refusal.ts';
import { PROBLEM_WORDS, type ProblemCode, problemAddress, problemStatus } from '../api/problem-words.ts';
import { logDefect, refusalOf } from './refused.ts';
import { settings } from './settings.ts';

/** Does `work`; a refusal becomes problem details. */
export async function answer(work: () => Promise<Response>): Promise<Response> {
  try {
    return await work();
  } catch (error) {
    const refused = refusalOf(error);
    if (refused) return problem(refused.code, refused.message, refused.problems);
    return problem('defect', `Something is wrong on our side (reference ${logDefect(error)}).`);
  }
}

const HEADERS = { 'cache-control': 'private, no-store' };

export function json(body: unknown, status = 200): Response {
  return Response.json(body, { status, headers: HEADERS });
}

/** `code` and `problems` are extension members: the kind of refusal in one word, and every fault of the input. */
function problem(code: ProblemCode, detail: string, problems: readonly Problem[] = []): Response {
  const status = problemStatus(code);
  const { title } = PROBLEM_WORDS[code];
  const body = { type: problemAddress(code), title, status, detail, code, problems };
  const headers = {
    ...HEADERS,
    'content-type': 'application/problem+json',
    ...(status === 401 ? { 'www-authenticate': 'Bearer realm="Huskledger"' } : {}),
  };
  return new Response(JSON.stringify(body), { status, headers });
}

/**
 * Refuses (`not-allowed`) a request that another site's page made. Browsers say where a request comes from; programs
 * that say nothing carry no cookie that they were not given.
 */
export function requireOwnOrigin(request: Request): void {
  const origin = request.headers.get('origin');
  const site = request.headers.get('sec-fetch-site');
  const isOwn =
    origin === null
      ? site === null || site === 'same-origin' || site === 'none'
      : ownHosts(request).has(hostOf(origin));
  if (isOwn) return;
  throw new Refusal('not-allowed', 'This request came from a page of another site. Send it from this one.');
}

function ownHosts(request: Request): ReadonlySet<string> {
  const { address } = settings();
  // Where the public address is set, it alone counts: behind a proxy the Host header may be anything.
  return new Set([address === undefined ? (request.headers.get('host') ?? '') : hostOf(address)]);
}

function hostOf(address: string): string {
  return URL.canParse(address) ? new URL(address).host : '';
}
