/**
 * The scale page with the network cut: what is weighed stays on the phone over a closed page, and reaches the record
 * once each, however often the connection breaks while it is sent.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { browseAs, launch } from './browsers.ts';

const address = inject('address');
const agreementId = inject('agreementId');
const OPERATOR = { side: 'dairy', role: 'scale-operator' } as const;
const TRUCKS = 40;

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function weigh(page: Page, { ticket, gross }: { readonly ticket: string; readonly gross: number }) {
  await page.getByLabel('Truck', { exact: true }).fill('Blue 7');
  await page.getByLabel('Ticket', { exact: true }).fill(ticket);
  await page.getByLabel('Gross', { exact: true }).fill(String(gross));
  await page.getByLabel('Tare', { exact: true }).fill('30000');
  await fillRest(page);
  await page.getByRole('button', { name: 'Save this load' }).click();
  await expect.poll(() => page.getByLabel('Gross', { exact: true }).inputValue()).toBe('');
}

/** What an agreement may ask for beside the weights: a haul, and the name of a sample that stands for many loads. */
async function fillRest(page: Page): Promise<void> {
  const hauled = page.getByLabel('Hauled', { exact: true });
  if ((await hauled.count()) > 0) await hauled.fill('12');
  const sample = page.getByLabel('Its name or seal', { exact: true });
  if ((await sample.count()) > 0) await sample.fill('OFF-S');
}

/** Opens the page and waits until it is kept for a time without signal. */
async function openScale(page: Page): Promise<void> {
  await page.goto('/scale');
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    for (let tries = 0; tries < 100; tries++) {
      const kept = await caches.open('huskledger-scale-1');
      const keys = await kept.keys();
      if (keys.some(({ url }) => url.endsWith('/scale')) && keys.length > 3) return;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    throw new Error('The page was not kept');
  });
}

test(`${TRUCKS} trucks weighed without a signal are ${TRUCKS} loads`, async () => {
  const { context, page, complaints } = await browseAs(browser, OPERATOR, { address });
  await openScale(page);
  await context.setOffline(true);
  for (let truck = 1; truck <= TRUCKS; truck++) {
    await weigh(page, { ticket: `OFF-${truck}`, gross: 70_000 + truck * 20 });
  }
  const status = (of: Page) => of.locator('.scale-queue [role=status]');
  await expect.poll(() => status(page).textContent()).toContain(`${TRUCKS} weighings wait on this phone`);
  await page.close();

  const again = await context.newPage();
  await again.goto('/scale');
  await expect.poll(() => status(again).textContent()).toContain(`${TRUCKS} weighings wait`);
  // Every fifth answer is lost on its way back: the record has the load, and the phone does not know.
  let answers = 0;
  await again.route('**/api/v1/agreements/*/loads', async (route) => {
    const answer = await route.fetch();
    answers++;
    if (answers % 5 === 0) await route.abort('connectionreset');
    else await route.fulfill({ response: answer });
  });
  await context.setOffline(false);
  await expect
    .poll(
      async () => {
        await again.evaluate(() => window.dispatchEvent(new Event('online')));
        return await status(again).textContent();
      },
      { timeout: 60_000, interval: 500 },
    )
    .toContain('Nothing waits');
  expect(answers).toBeGreaterThan(TRUCKS);

  const tickets: string[] = [];
  let next = `/api/v1/loads?agreement=${agreementId}`;
  while (next) {
    const body = (await (await context.request.get(next)).json()) as {
      loads: { ticket: string }[];
      next: string | null;
    };
    tickets.push(...body.loads.map(({ ticket }) => ticket).filter((ticket) => ticket.startsWith('OFF-')));
    next = body.next === null ? '' : `/api/v1/loads?agreement=${agreementId}&next=${body.next}`;
  }
  expect(tickets).toHaveLength(TRUCKS);
  expect(new Set(tickets).size).toBe(TRUCKS);
  expect(
    complaints.filter((told) => !/ERR_INTERNET_DISCONNECTED|Failed to fetch|ERR_CONNECTION/.test(told)),
  ).toEqual([]);
  await context.close();
}, 180_000);

test('what the record refuses stays, with its reason, until a person decides', async () => {
  const { context, page } = await browseAs(browser, OPERATOR, { address });
  await page.goto('/scale');
  await weigh(page, { ticket: 'OFF-1', gross: 71_111 });
  const refused = page.locator('.scale-refused li');
  await expect.poll(() => refused.count()).toBe(1);
  expect(await refused.textContent()).toMatch(/OFF-1.*was not taken.*recorded before/s);
  await page.reload();
  await expect.poll(() => refused.count()).toBe(1);
  page.on('dialog', (dialog) => void dialog.accept());
  await refused.getByRole('button', { name: 'Throw it away' }).click();
  await expect.poll(() => refused.count()).toBe(0);
  await context.close();
});

test('a tare above the gross is asked about before it is saved', async () => {
  const { context, page } = await browseAs(browser, OPERATOR, { address });
  await page.goto('/scale');
  await page.getByLabel('Ticket', { exact: true }).fill('OFF-900');
  await page.getByLabel('Gross', { exact: true }).fill('30000');
  await page.getByLabel('Tare', { exact: true }).fill('71000');
  await fillRest(page);
  await page.getByRole('button', { name: 'Save this load' }).click();
  expect(await page.locator('.scale-form .refused').textContent()).toMatch(/not above the tare/);
  await page.getByRole('button', { name: 'Look again' }).click();
  await page.getByRole('button', { name: 'Save this load' }).waitFor();
  await context.close();
});
