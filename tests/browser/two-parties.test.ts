/**
 * Both parties see the same load and hold the same settlement sheet; a third sees nothing of it.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { browseAs, findLoad, launch } from './browsers.ts';

const address = inject('address');
let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

test('a load and its settlement sheet are the same to seller and buyer', async () => {
  const grower = await browseAs(browser, { side: 'grower', role: 'owner' }, { address });
  const dairy = await browseAs(browser, { side: 'dairy', role: 'viewer' }, { address });
  const path = await findLoad(grower.page, '1147');
  const told = [];
  for (const { page } of [grower, dairy]) {
    const answer = await page.goto(path);
    expect(answer?.status()).toBe(200);
    told.push({
      standing: await page.locator('.standing').first().textContent(),
      stair: await page.locator('.stair').textContent(),
      strip: await page.locator('svg.strip').getAttribute('aria-label'),
      total: await page.locator('.standing .total').textContent(),
      how: await page.locator('.how').allTextContents(),
      fingerprints: await page.locator('.history code').allTextContents(),
    });
  }
  expect(told[0]).toEqual(told[1]);
  // As demo/expected/quillback-tarn-hollow.csv has it, which the oracle worked out.
  expect(told[0]?.total).toBe('2,451.73 USD');
  expect(told[0]?.strip).toBe('47,160 lb: 34.3 % water, 39.8 % starch, 14.4 % fibre (NDF), 11.5 % the rest');
  expect(told[0]?.how[0]).toContain('47160 lb × 65.7 % × 60.6 % ÷ 71 % × 4.14 ÷ 56 ÷ 84.5 %');

  const papers = [];
  for (const { context } of [grower, dairy]) {
    const answer = await context.request.get(`${path}/invoice`);
    expect(answer.status()).toBe(200);
    expect(answer.headers()['content-type']).toBe('application/pdf');
    expect(answer.headers()['content-disposition']).toBe('inline; filename="settlement-A-26-014-1147.pdf"');
    papers.push(await answer.body());
  }
  expect(papers[0]?.subarray(0, 5).toString()).toBe('%PDF-');
  expect(papers[0]?.equals(papers[1] ?? Buffer.alloc(0))).toBe(true);
  expect([...grower.complaints, ...dairy.complaints]).toEqual([]);
});

test('a third party finds nothing at these addresses', async () => {
  const grower = await browseAs(browser, { side: 'grower', role: 'viewer' }, { address });
  const neighbour = await browseAs(browser, { side: 'neighbour', role: 'owner' }, { address });
  const path = await findLoad(grower.page, '1147');
  const seen = await neighbour.page.goto(path);
  expect(seen?.status()).toBe(404);
  expect(await neighbour.page.locator('h1').textContent()).toBe('There is nothing here');
  expect((await neighbour.context.request.get(`${path}/invoice`)).status()).toBe(404);
  await neighbour.page.goto('/loads');
  expect(await neighbour.page.locator('main').textContent()).not.toMatch(/Tarn Hollow|Quillback|1147/);
  expect(neighbour.complaints).toEqual([]);
});
