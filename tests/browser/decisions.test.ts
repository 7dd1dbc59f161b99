/**
 * What only one side decides: the buyer about a load outside the ranges, the seller about its pricing date. The form is
 * there for them alone, and what was decided stands.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { browseAs, findLoad, launch } from './browsers.ts';
import { newDataFolder, type Program, startProgram } from './program.ts';
import { fillRecord } from './season-record.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

test('the buyer refuses a load that is too wet, and it is closed', async () => {
  const address = inject('address');
  const seller = await browseAs(browser, { side: 'grower', role: 'owner' }, { address });
  const viewer = await browseAs(browser, { side: 'dairy', role: 'viewer' }, { address });
  const buyer = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address });
  const path = await findLoad(buyer.page, '1080');
  for (const { page } of [seller, viewer]) {
    await page.goto(path);
    expect(await page.locator('.standing').textContent()).toBe(
      'Not settled yet. Moisture 50.1 % as-fed is above 50: Tarn Hollow Dairy must accept or refuse the load.',
    );
    expect(await page.getByRole('button', { name: 'Record the decision' }).count()).toBe(0);
  }
  expect(await viewer.page.locator('main form').count()).toBe(0);
  await buyer.page.goto(path);
  await buyer.page.getByRole('button', { name: 'Record the decision' }).click();
  await buyer.page.waitForSelector('.refused');
  expect(await buyer.page.locator('.refused').textContent()).toContain(
    'Your decision must be made: accept the load or refuse it',
  );
  await buyer.page.getByLabel('Refuse: nothing is owed for it').check();
  await buyer.page.getByLabel('Where it went, if you refuse it').fill('back to the field');
  await buyer.page.getByRole('button', { name: 'Record the decision' }).click();
  await buyer.page.getByRole('button', { name: 'Close it as refused' }).click();
  await buyer.page.waitForSelector('text=Closed as refused');
  await seller.page.goto(path);
  expect(await seller.page.locator('.standing').textContent()).toBe(
    'Tarn Hollow Dairy refused this load: moisture 50.1 % as-fed is above 50. Nothing is owed for it.It went here: back to the field.',
  );
  expect((await seller.context.request.get(`${path}/invoice`)).status()).toBe(409);
  expect([...seller.complaints, ...viewer.complaints, ...buyer.complaints]).toEqual([]);
});

describe('under an agreement in which the seller names the date', () => {
  let program: Program;
  let folder: Awaited<ReturnType<typeof newDataFolder>>;
  beforeAll(async () => {
    folder = await newDataFolder();
    await fillRecord(folder.path, 'bushels-dry');
    program = await startProgram(folder.path);
  });
  afterAll(async () => {
    await program.stop();
    await folder.remove();
  });

  test('the seller names one inside the window, without scripts too, and the load settles on it', async () => {
    const { address } = program;
    const seller = await browseAs(browser, { side: 'grower', role: 'owner' }, { address, scripts: false });
    const buyer = await browseAs(browser, { side: 'dairy', role: 'owner' }, { address });
    const waiting = await seller.context.request.get('/api/v1/loads?status=waiting');
    type Listed = { id: string; standing: { reason?: string } };
    const { loads } = (await waiting.json()) as { loads: Listed[] };
    const load = loads.find(({ standing }) => standing.reason === 'not-elected');
    expect(load).toBeDefined();
    const path = `/loads/${load?.id}`;
    await buyer.page.goto(path);
    expect(await buyer.page.getByRole('button', { name: 'Name the date' }).count()).toBe(0);

    await seller.page.goto(path);
    await seller.page.fill('[name=date]', '2031-01-01');
    await seller.page.getByRole('button', { name: 'Name the date' }).click();
    const refused = await seller.page.locator('.refused').textContent();
    const window = /must be from (\S+) to (\S+), the agreed window/.exec(refused ?? '');
    expect(window?.[1]).toMatch(/^\d{4}-\d{2}-\d{2}$/);
    await seller.page.fill('[name=date]', window?.[1] ?? '');
    await seller.page.getByRole('button', { name: 'Name the date' }).click();
    await seller.page.getByRole('button', { name: 'Settle this load' }).click();
    expect(await seller.page.locator('.standing').first().textContent()).toMatch(/^Settled: /);
    expect(await seller.page.locator('.history').textContent()).toContain('Pricing date named');
    expect([...seller.complaints, ...buyer.complaints]).toEqual([]);
  });
});
