/**
 * Answers of addresses that are for programs: JSON, refusals with the status that each has, defects by their reference.
 */
import { REFUSAL_OUTCOMES, Refusal } from '../../usecases/refusal.ts';
import { logDefect, refusalOf } from './refused.ts';
import { settings } from './settings.ts';

/** Does `work`; a refusal becomes `{ code, message, problems }`. */
export async function answer(work: () => Promise<Response>): Promise<Response> {
  try {
    return await work();
  } catch (error) {
    const refused = refusalOf(error);
    if (!refused) {
      const message = `Something is wrong on our side (reference ${logDefect(error)}).`;
      return json({ code: 'defect', message, problems: [] }, 500);
    }
    const { code, message, problems } = refused;
    return json({ code, message, problems }, REFUSAL_OUTCOMES[code].http);
  }
}

export function json(body: unknown, status = 200): Response {
  return Response.json(body, { status, headers: { 'cache-control': 'private, no-store' } });
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
