/**
 * A party's own list in the browser: brought, its columns matched, compared with the record load by load, and seen by that party
 * alone; and its list of payments below.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browsing } from './browsers.ts';
import { fillMoneyRecord } from './money-record.ts';
import { openTwoSides, type TwoSides } from './two-sides.ts';

let agreementId: string;
let sides: TwoSides<string>;
let seller: Browsing;
let buyer: Browsing;

beforeAll(async () => {
  sides = await openTwoSides(fillMoneyRecord);
  ({ seller, buyer, filled: agreementId } = sides);
}, 240_000);
afterAll(() => sides.close());

test('a list is brought, matched and compared, without scripts', async () => {
  const { page } = buyer;
  await page.goto('/loads');
  const on = (await page.locator('main').textContent()) ?? '';
  expect(on).toContain('T1');
  const day = new Date(Date.now() - 14 * 86_400_000 - 7 * 3_600_000).toISOString().slice(0, 10);
  const csv = `Ticket,Date,Net,Amount\nT-1,${day},20000,1000.00\nT2,${day},42000,1200.00\nT7,${day},9999,500\n`;
  await page.goto(`/agreements/${agreementId}`);
  await page.getByRole('link', { name: 'Your list' }).click();
  await page.waitForURL(/own-list$/);
  await page.setInputFiles('[name=file]', {
    name: 'books.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(csv),
  });
  await page.getByRole('button', { name: 'Look at the file' }).click();
  await page.waitForSelector('.import-match');
  await page.selectOption('[name="column.unit"]', '=lb');
  await page.getByRole('button', { name: 'Match it with the record' }).click();
  await page.waitForSelector('[role=status].told');
  const text = (await page.locator('main').textContent()) ?? '';
  expect(text).toContain('Your list is kept, 3 loads of it, for your side alone.');
  expect(text).toContain('books.csv, brought on');
  expect(text).toContain('Weight differs');
  expect(text).toContain('two digits of the net weight have changed places');
  expect(text).toContain('Only in your list');
  expect(text).toContain('Only in the record');
  // How a row can end is said once, and the rows come before another list.
  expect(text.split('If you give way').length).toBe(2);
  expect(await page.getByRole('link', { name: /^Put this load right/ }).count()).toBeGreaterThan(1);
  expect(await page.locator('.import-form button.act').count()).toBe(0);
});

test('a list of payments is brought below it, without scripts', async () => {
  const { page } = buyer;
  const csv = `Check no,Date,Amount\n1043,2026-11-21,"-$1,000.00"\n1044,2026-11-22,($504.25)\nTotal,,-1504.25\n`;
  const form = page.locator('form', { has: page.locator('[name=kind][value=own-payments]') });
  await form.locator('[name=file]').setInputFiles({
    name: 'checks.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(csv),
  });
  await page.getByRole('button', { name: 'Look at the payments' }).click();
  await page.waitForSelector('.import-match');
  expect(await page.locator('.import-match').count()).toBe(1);
  await page.getByRole('button', { name: 'Match the payments with the record' }).click();
  await page.waitForSelector('[role=status].told');
  const text = (await page.locator('main').textContent()) ?? '';
  expect(text).toContain('Your list is kept, 2 payments of it, for your side alone.');
  expect(text).toContain('checks.csv, brought on');
  expect(text).toContain('books.csv, brought on');
  expect(text).toContain('payment 1043, 1,000.00 USD paid');
  expect(text.split('If you give way').length).toBe(2);
  for (const width of [390, 1280]) {
    await page.setViewportSize({ width, height: 900 });
    const isWide = 'document.documentElement.scrollWidth > document.documentElement.clientWidth';
    expect(await page.evaluate(isWide)).toBe(false);
  }
});

test('the other side sees none of it', async () => {
  const { page } = seller;
  await page.goto(`/agreements/${agreementId}/own-list`);
  const text = (await page.locator('main').textContent()) ?? '';
  expect(text).toContain('nobody but your side sees them');
  expect(text).not.toContain('books.csv');
  expect(text).not.toContain('checks.csv');
  expect([...seller.complaints, ...buyer.complaints]).toEqual([]);
});
