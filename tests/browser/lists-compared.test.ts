/**
 * One party's lists beside the other's in two browsers: nothing is seen before both agree, both see the same differences then, and
 * nothing again once one of them no longer agrees. And a row for which one of them accepts the record.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Browsing, browseAs } from './browsers.ts';
import { fillMoneyRecord } from './money-record.ts';
import type { Program } from './program.ts';
import { openTwoSides, type TwoSides } from './two-sides.ts';

let browser: Browser;
let program: Program;
let at: string;
let sides: TwoSides<string>;
let seller: Browsing;
let buyer: Browsing;

beforeAll(async () => {
  sides = await openTwoSides(fillMoneyRecord);
  ({ seller, buyer, browser, program } = sides);
  at = `/agreements/${sides.filled}/own-list`;
}, 240_000);
afterAll(() => sides.close());

const main = async (page: Page): Promise<string> => (await page.locator('main').textContent()) ?? '';
const theirs = async (page: Page): Promise<string> =>
  (await page.locator('section[aria-labelledby=theirs]').textContent()) ?? '';
const DAY = new Date(Date.now() - 14 * 86_400_000 - 7 * 3_600_000).toISOString().slice(0, 10);

interface ListToBring {
  readonly kind: 'own-loads' | 'own-payments';
  readonly name: string;
  readonly csv: string;
}

async function bring(page: Page, { kind, name, csv }: ListToBring): Promise<void> {
  await page.goto(at);
  const form = page.locator('form', { has: page.locator(`[name=kind][value=${kind}]`) });
  await form.locator('[name=file]').setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(csv) });
  const isLoads = kind === 'own-loads';
  await page.getByRole('button', { name: isLoads ? 'Look at the file' : 'Look at the payments' }).click();
  await page.waitForSelector('.import-match');
  if (isLoads) await page.selectOption('[name="column.unit"]', '=lb');
  await page
    .getByRole('button', {
      name: isLoads ? 'Match it with the record' : 'Match the payments with the record',
    })
    .click();
  await page.waitForSelector('[role=status].told');
}

async function press(page: Page, name: string): Promise<string> {
  // What was told before is gone from a new page.
  await page.goto(at);
  await page.getByRole('button', { name }).first().click();
  await page.waitForSelector('[role=status].told');
  return (await page.locator('[role=status].told').textContent()) ?? '';
}

const LOADS = (t2: string) => `Ticket,Date,Net,Amount\nT1,${DAY},20000,1000.00\nT2,${DAY},${t2},1200.00\n`;

test('nothing is seen before both agree', async () => {
  await bring(seller.page, { kind: 'own-loads', name: 'grower.csv', csv: LOADS('24000') });
  await bring(buyer.page, { kind: 'own-loads', name: 'dairy.csv', csv: LOADS('42000') });
  await bring(seller.page, {
    kind: 'own-payments',
    name: 'deposits.csv',
    csv: 'Date,Amount,Ref,Direction\n2026-11-21,1000.00,1043,received\n2026-11-22,540.25,1044,received\n',
  });
  expect(await theirs(seller.page)).toContain('Tarn Hollow Dairyhas not agreed');
  expect(await press(seller.page, 'Agree to show each other our lists')).toBe(
    'Your side agrees. Nobody sees anything until the other side agrees too.',
  );
  expect(await theirs(seller.page)).toMatch(/Your sideagrees, since \d{4}-\d\d-\d\d/);
  for (const { page } of [seller, buyer]) {
    await page.goto(at);
    expect(await page.locator('#lists-loads, #lists-payments').count()).toBe(0);
  }
  expect(await main(seller.page)).not.toContain('dairy.csv');
  expect(await main(buyer.page)).not.toContain('grower.csv');
  expect(await theirs(buyer.page)).toMatch(/Quillback Acresagrees, since/);
});

test('both see the same difference, each from its side, once both agree', async () => {
  await buyer.page.goto('/');
  const notice = 'Quillback Acres agrees that you see each other’s lists, as long as both of you agree.';
  expect(await main(buyer.page)).toContain(notice);
  await buyer.page.goto(at);
  expect(await press(buyer.page, 'Agree to show each other our lists')).toBe(
    'Both sides agree: each sees the other’s lists now.',
  );
  const seenByBuyer = await theirs(buyer.page);
  expect(seenByBuyer).toContain('Loads: how they compare');
  expect(seenByBuyer).toContain('Quillback Acres’ list (grower.csv, brought on');
  expect(seenByBuyer).toContain('Your list has 42,000 lb, Quillback Acres’ list 24,000 lb: 18,000 lb more.');
  expect(seenByBuyer).toContain('Most likely in one of the two lists two digits of the net weight');
  expect(seenByBuyer).toContain('Line 3 of Quillback Acres’ list: ticket T2');
  expect(seenByBuyer).toContain('Your office has brought no list of payments yet.');
  const differing = buyer.page.locator('section[aria-labelledby=lists-loads]');
  expect(await differing.textContent()).not.toContain('record');
  await bring(buyer.page, {
    kind: 'own-payments',
    name: 'checks.csv',
    csv: 'Check no,Date,Amount\n1043,2026-11-21,-1000.00\n1044,2026-11-22,-504.25\n',
  });
  expect(await main(buyer.page)).toContain(
    'and the other side sees it too, since both of you agree to that.',
  );
  await seller.page.goto(at);
  const seenBySeller = await theirs(seller.page);
  expect(seenBySeller).toContain(
    'Your list has 24,000 lb, Tarn Hollow Dairy’s list 42,000 lb: 18,000 lb less.',
  );
  expect(seenBySeller).toContain('Line 3 of your list: 2026-11-22, payment 1044, 540.25 USD received');
  expect(seenBySeller).toContain(
    'Line 3 of Tarn Hollow Dairy’s list: 2026-11-22, payment 1044, 504.25 USD paid',
  );
  expect(await main(seller.page)).toContain('Tarn Hollow Dairy sees the newest of them');
});

test('a row is left as the record has it, for one side alone, and taken up again', async () => {
  const { page } = buyer;
  await page.goto(at);
  const loads = page.locator('section[aria-labelledby=matching]');
  expect(await loads.textContent()).toContain('Weight differs');
  expect(await press(page, 'The record is right')).toContain('The row stands under “You accept');
  const accepted = page.locator('section[aria-labelledby=standing-accepted]');
  expect(await accepted.textContent()).toContain('ticket T2');
  expect(await loads.textContent()).not.toContain('Weight differs');
  // Their two lists differ all the same.
  expect(await theirs(page)).toContain('Weight differs');
  await seller.page.goto(at);
  expect(await main(seller.page)).not.toContain('You accept the record');
  expect(await press(page, 'No longer accept it')).toContain('It is open again.');
  expect(await loads.textContent()).toContain('Weight differs');
  for (const width of [390, 1280]) {
    await page.setViewportSize({ width, height: 900 });
    const isWide = 'document.documentElement.scrollWidth > document.documentElement.clientWidth';
    expect(await page.evaluate(isWide)).toBe(false);
  }
});

test('a viewer reads, and is asked nothing', async () => {
  const { address } = program;
  const viewer = await browseAs(browser, { side: 'dairy', role: 'viewer' }, { address });
  await viewer.page.goto(at);
  expect(await theirs(viewer.page)).toContain('18,000 lb more');
  expect(await viewer.page.locator('main button').count()).toBe(0);
  expect(viewer.complaints).toEqual([]);
});

test('neither sees the other’s list once one of them no longer agrees', async () => {
  await seller.page.goto(at);
  expect(await press(seller.page, 'No longer show our lists')).toBe(
    'Your side no longer agrees. Neither side sees the other’s lists now.',
  );
  for (const { page } of [seller, buyer]) {
    await page.goto(at);
    expect(await page.locator('#lists-loads, #lists-payments').count()).toBe(0);
    expect(await main(page)).toContain('nobody but your side sees them.');
  }
  expect(await theirs(buyer.page)).toMatch(/Quillback Acresno longer agrees, since/);
  expect(await theirs(buyer.page)).toContain(
    'Quillback Acres has taken its word back, so neither side sees the other’s lists now.',
  );
  expect(await main(buyer.page)).not.toContain('grower.csv');
  expect(await main(seller.page)).not.toContain('dairy.csv');
  expect(await press(buyer.page, 'Take our word back')).toContain('Your side no longer agrees.');
  await buyer.page.goto(at);
  expect(await theirs(buyer.page)).toContain('If you agree, and Quillback Acres does too');
  expect([...seller.complaints, ...buyer.complaints]).toEqual([]);
});
