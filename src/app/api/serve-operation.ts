/**
 * Makes a route of an operation: who asks and whether their token goes that far, what the request says by the
 * operation's own shapes, its work, its answer.
 */
import type { NextRequest } from 'next/server';
import { requireScope } from '../../usecases/context.ts';
import { answer, json } from '../server/answer.ts';
import { apiContext } from '../server/current-caller.ts';
import { mailAfterwards } from '../server/mail-afterwards.ts';
import type { AskedOf, Operation } from './operation.ts';
import { readBody, readKey, readShape } from './read-request.ts';

export type Route = (request: NextRequest, at: { readonly params: Promise<object> }) => Promise<Response>;

export function serve({ method, scopes, query, body, work }: Operation): Route {
  return async (request, { params }) =>
    await answer(async () => {
      const context = await apiContext(request, { changes: method === 'POST' });
      requireScope(context, scopes);
      const asked = {
        in: await params,
        query: query ? readShape(query, Object.fromEntries(request.nextUrl.searchParams)) : {},
        body: body ? await readBody(request, body) : undefined,
        once: readKey(request),
      };
      const told = await work(context, asked as unknown as AskedOf<string, never, never>);
      if (method === 'POST') mailAfterwards();
      return told instanceof Response ? told : json(told);
    });
}
