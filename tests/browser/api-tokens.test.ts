/**
 * Tokens over HTTP: what they let a program do, where, and when they stop; and how refusals come back.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { exampleOf } from './api-document.ts';
import { ALL, bearer, makeToken, openApi } from './api-program.ts';
import { browseAs, launch } from './browsers.ts';
import { strangerAt } from './http-caller.ts';

const address = inject('address');
const agreementId = inject('agreementId');
let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

describe('a token', () => {
  test('does no more than its scopes, and the document says which each operation asks for', async () => {
    const { api } = await openApi(address);
    const scopes = { quotes: 'read' };
    const narrow = bearer(address, await makeToken(browser, address, { side: 'dairy', scopes }));
    for (const [path, methods] of Object.entries(api.paths)) {
      for (const [method, of] of Object.entries(methods)) {
        const lets =
          of.security.length === 0 || of.security.some(({ token }) => token?.includes('quotes:read'));
        const schema = of.requestBody?.content['application/json']?.schema;
        const answer = await narrow({
          method: method === 'post' ? 'POST' : 'GET',
          path: `/api/v1${path.replace(/\{\w+\}/g, agreementId)}`,
          ...(schema ? { body: exampleOf(schema) } : {}),
        });
        expect(`${method} ${path} ${answer.status === 403}`).toBe(`${method} ${path} ${!lets}`);
      }
    }
  });

  test('needs no word of where the request came from, and opens no page', async () => {
    const program = bearer(address, await makeToken(browser, address, { side: 'dairy', scopes: ALL }));
    const headers = { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' };
    const path = `/api/v1/agreements/${agreementId}/settlements`;
    expect((await program({ method: 'POST', path, body: {}, headers })).status).toBe(200);
    const page = await program({ path: '/loads' });
    expect([page.status, page.headers.get('location')]).toEqual([307, '/sign-in?back=%2Floads']);
    expect((await program({ path: '/people' })).status).toBe(307);
  });

  test('stops when it is ended, on the page', async () => {
    const wanted = { side: 'grower', scopes: { loads: 'read' }, name: 'to be ended' } as const;
    const program = bearer(address, await makeToken(browser, address, wanted));
    expect((await program({ path: '/api/v1/loads' })).status).toBe(200);
    const { page, complaints } = await browseAs(browser, { side: 'grower', role: 'owner' }, { address });
    await page.goto('/people');
    const item = page.locator('li', { hasText: 'to be ended' });
    expect(await item.textContent()).toContain('may read loads, tickets and what waits');
    await item.locator('summary').click();
    await item.getByRole('button', { name: 'End to be ended' }).click();
    await expect.poll(() => page.locator('li', { hasText: 'to be ended' }).count()).toBe(0);
    expect((await program({ path: '/api/v1/loads' })).status).toBe(401);
    expect(complaints).toEqual([]);
  });
});

describe('a refusal', () => {
  test('is problem details that say which, in words, and where each fault is', async () => {
    const program = bearer(address, await makeToken(browser, address, { side: 'dairy', scopes: ALL }));
    const load = { ticket: 'API-9', gross: '1,5', tare: 5, unit: 'stone' };
    const path = `/api/v1/agreements/${agreementId}/loads`;
    const shaped = await program({ method: 'POST', path, body: { loads: [load], more: true } });
    expect(shaped.headers.get('content-type')).toBe('application/problem+json');
    expect(await shaped.json()).toMatchObject({
      ...{ type: '/api/problems/bad-input', status: 400, code: 'bad-input' },
      problems: [{ row: 0, column: 'tare', message: 'must be a text, in quotes: "78220"' }, {}],
    });
    const body = { loads: [{ ...load, tare: '5' }] };
    const told = (await (await program({ method: 'POST', path, body })).json()) as { problems: object[] };
    expect(told.problems).toMatchObject([
      { row: 0, column: 'delivered_at' },
      { row: 0, column: 'gross' },
      { row: 0, column: 'unit' },
    ]);
  });

  test('of a wrong token asks for a right one', async () => {
    const answer = await bearer(address, 'hl_wrong')({ path: '/api/v1/loads' });
    expect([answer.status, answer.headers.get('www-authenticate')]).toEqual([
      401,
      'Bearer realm="Huskledger"',
    ]);
    const { type } = (await answer.json()) as { type: string };
    const page = await strangerAt(address)({ path: type });
    expect(page.status).toBe(200);
    expect(await page.text()).toContain('The sign-in or token is wrong');
  });
});
