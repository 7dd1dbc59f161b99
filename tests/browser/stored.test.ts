/**
 * What a buyer stored, in the browser: put in, fed, weighed, asked about and taken back, without scripts; and nobody else's.
 */
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browsing } from './browsers.ts';
import { fillRetestRecord, type RetestRecordIds } from './retest-record.ts';
import { openTwoSides, type TwoSides } from './two-sides.ts';

let ids: RetestRecordIds;
let sides: TwoSides<RetestRecordIds>;
let seller: Browsing;
let buyer: Browsing;

beforeAll(async () => {
  sides = await openTwoSides(fillRetestRecord, { seller: 'owner' });
  ({ seller, buyer, filled: ids } = sides);
}, 240_000);
afterAll(() => sides.close());

const DAY = new Date(Date.now() - 2 * 86_400_000 - 7 * 3_600_000).toISOString().slice(0, 10);
const main = async (): Promise<string> => (await buyer.page.locator('main').textContent()) ?? '';

/** Unfolds the form with this button and sends it with its fields. */
async function send(
  { summary, button }: { readonly summary: string; readonly button: string },
  fields: Readonly<Record<string, string>>,
): Promise<Locator> {
  const { page } = buyer;
  const box = page.locator('details', { has: page.locator('summary', { hasText: summary }) }).last();
  if ((await box.getAttribute('open')) === null) await box.locator('summary').click();
  const form = box.locator('form').first();
  for (const [name, value] of Object.entries(fields)) {
    const field = form.locator(`[name=${name}]`);
    if ((await field.first().getAttribute('type')) === 'radio') {
      await form.locator(`[name=${name}][value=${value}]`).check();
    } else if ((await field.evaluate((node) => node.tagName)) === 'SELECT') await field.selectOption(value);
    else await field.fill(value);
  }
  await form.getByRole('button', { name: button }).click();
  return form;
}

const FED = { summary: 'Write down what was fed', button: 'Write it down' };
const LEFT = { summary: 'Write down what is left', button: 'This is left' };
const told = () => buyer.page.waitForSelector('[role=status].told');

test('what went in, was fed and is left comes to a shrink, without scripts', async () => {
  const { page } = buyer;
  await page.goto(`/agreements/${ids.agreementId}`);
  await page.getByRole('link', { name: 'What you stored' }).click();
  await page.waitForURL(/stored$/);
  expect(await main()).toContain('Never measure at or under a face of silage');
  await page.fill('[name=name]', 'North bag');
  await page.check('[name=kind][value=bag]');
  await page.getByRole('button', { name: 'Begin its account' }).click();
  await told();
  expect(await main()).toContain('No load is put in yet.');
  // All loads that came, unless something else is said: 400,000 lb at 50 %.
  await send({ summary: 'Say which loads went in', button: 'These went in' }, {});
  await told();
  await send(FED, { from: DAY, weight: '150', unit: 'short-ton', dry_matter: '50' });
  await told();
  expect(await main()).toContain('25.00 short tons of dry matter is not accounted for yet');
  await send(LEFT, { on: DAY, how: 'weighed', weight: '30', unit: 'short-ton', dry_matter: '50' });
  await told();
  expect(await main()).toContain('10.0 % of the dry matter that went in is gone by');
  expect(await main()).toContain('Bags: 9 to 14 %; yours is within it.');
});

test('a bad figure says what to do and keeps what was typed; a doubtful one is asked about', async () => {
  const { page } = buyer;
  await send(FED, { from: DAY, weight: 'much', unit: 'short-ton', dry_matter: '50' });
  await page.waitForSelector('.refused');
  expect(await main()).toContain('must be a number of 0 or more');
  expect(await page.inputValue('[name=weight][value=much]')).toBe('much');
  await page.goto(`/agreements/${ids.agreementId}/stored`);
  await send(FED, { from: DAY, weight: '150', unit: 'short-ton', dry_matter: '50' });
  await page.waitForSelector('.refused');
  expect(await main()).toContain('is written down already');
  await page.check('[name=confirmed][value=yes]');
  await page.getByRole('button', { name: FED.button }).click();
  await told();
  expect(await main()).toContain('More came out than went in: look at the figures.');
  const back = page.locator('li', { hasText: 'Fed: 150 short tons' }).last();
  await back.locator('summary').last().click();
  await back.locator('form').last().locator('[name=reason]').fill('Written down twice');
  await back.getByRole('button', { name: 'Take it back' }).click();
  await told();
  expect(await main()).toContain('10.0 % of the dry matter');
});

test('a refusal inside a fold that the page shut again is in sight, without scripts', async () => {
  const { page } = buyer;
  await page.goto('/scales');
  const fold = page.locator('details', { has: page.locator('summary', { hasText: 'A scale of yours' }) });
  if ((await fold.getAttribute('open')) !== null) await fold.locator('summary').click();
  expect(await fold.getByRole('button', { name: 'Add this scale' }).isVisible()).toBe(false);
  await fold.locator('summary').click();
  await fold.getByRole('button', { name: 'Add this scale' }).click();
  await page.locator('.refused').waitFor();
  expect(await page.locator('.refused').isVisible()).toBe(true);
});

test('the seller is shown neither the page nor a way to it', async () => {
  const { page } = seller;
  await page.goto(`/agreements/${ids.agreementId}`);
  expect(await page.getByRole('link', { name: 'What you stored' }).count()).toBe(0);
  const answer = await page.goto(`/agreements/${ids.agreementId}/stored`);
  expect(answer?.status()).toBe(404);
  expect(await page.locator('main').textContent()).not.toContain('North bag');
});
