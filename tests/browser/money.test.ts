/**
 * From invoice to statement, each side in its own browser: the seller issues, the buyer questions a load, and both read the
 * same money the other way round. An adviser on the agreement sees none of it.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Browsing, browseAs } from './browsers.ts';
import { askSignedIn } from './http-caller.ts';
import { ADVISER } from './market-record.ts';
import { fillMoneyRecord } from './money-record.ts';
import type { Program } from './program.ts';
import { openTwoSides, type TwoSides } from './two-sides.ts';

let browser: Browser;
let program: Program;
let agreementId: string;
let sides: TwoSides<string>;
let seller: Browsing;
let buyer: Browsing;

beforeAll(async () => {
  sides = await openTwoSides(fillMoneyRecord);
  ({ seller, buyer, filled: agreementId, browser, program } = sides);
}, 240_000);
afterAll(() => sides.close());

async function openInvoice(page: Page): Promise<void> {
  await page.goto('/money');
  await page.locator('.due-table').getByRole('link', { name: 'Invoice 1' }).click();
  await page.waitForURL(/\/money\/documents\//);
}

test('the seller issues the week that is over, and not the one that is running', async () => {
  const { page } = seller;
  await page.goto('/');
  await page.getByRole('link', { name: 'Money' }).click();
  await page.waitForURL(/\/money$/);
  expect(await page.locator('.waiting').textContent()).toContain(
    '3 loads of agreement M-TEST have settled and are on no invoice yet: 3,300.00 USD.',
  );
  await page.getByRole('link', { name: 'Issue invoices' }).click();
  await page.waitForURL(/\/money\/issue/);
  expect(await page.locator('main').textContent()).toContain('an invoice for each week of deliveries');
  await page.getByRole('button', { name: 'Issue this invoice' }).click();
  await page.waitForSelector('.told');
  expect(await page.locator('.told').textContent()).toContain('Invoice 1 is issued: 2,200.00.');
  expect(await page.getByRole('button', { name: 'Issue this invoice' }).count()).toBe(0);
  expect(await page.getByRole('button', { name: 'Issue it now all the same' }).count()).toBe(1);
});

test('the buyer sees what it owes, and questions a load', async () => {
  const { page } = buyer;
  await page.goto('/money');
  expect(await page.locator('.partner .standing').textContent()).toBe(
    'You owe Quillback Acres 2,200.00 USD on what is invoiced.',
  );
  expect(await page.locator('.due-table caption').textContent()).toBe('You owe Quillback Acres');
  expect(await page.locator('.waiting').count()).toBe(0);
  await page.goto(`/money/issue?agreement=${agreementId}`);
  expect(await page.locator('.told').textContent()).toBe(
    'By your agreement Quillback Acres issues the invoices.',
  );
  expect(await page.locator('main form').count()).toBe(0);

  await openInvoice(page);
  await page.getByRole('link', { name: 'Question an amount' }).click();
  await page.fill('[name=figure]', '1,300');
  await page.getByRole('button', { name: 'Hold back the difference' }).click();
  expect(await page.locator('.refused').textContent()).toContain('What is wrong is not chosen yet');
  await page.selectOption('[name=load]', { label: 'Load T2: 1,200.00 USD' });
  await page.fill('[name=figure]', '1,300');
  await page.fill('[name=reason]', 'Our scale says 22,000 lb');
  await page.getByRole('button', { name: 'Hold back the difference' }).click();
  expect(await page.locator('.refused').textContent()).toContain('from 0 to less than 1200.00');
  await page.fill('[name=figure]', '1,100.00');
  await page.getByRole('button', { name: 'Hold back the difference' }).click();
  expect(await page.locator('[role=status].told').textContent()).toBe(
    '100.00 is held back. The rest stays due on its day.',
  );
  expect(await page.locator('.standing').textContent()).toContain(
    '100.00 USD is held while it is questioned, and not due. 2,100.00 USD is due on',
  );
});

test('the seller reads what is held and why, and a viewer can do nothing about it', async () => {
  const viewer = await browseAs(browser, { side: 'dairy', role: 'viewer' }, program);
  for (const { page } of [seller, viewer]) {
    await openInvoice(page);
    expect(await page.locator('.held-list').textContent()).toContain(
      'Tarn Hollow Dairy holds 100.00 USD of load T2',
    );
    expect(await page.locator('.held-list').textContent()).toContain('“Our scale says 22,000 lb”');
    expect(await page.getByText('Question an amount').count()).toBe(0);
    expect(await page.getByRole('button', { name: 'Let go of it' }).count()).toBe(0);
  }
  expect(viewer.complaints).toEqual([]);
});

/** The rows of a statement: what, in your favour, in their favour, balance, which way. */
async function statementRows(page: Page) {
  await page.goto(`/money/statement?agreement=${agreementId}`);
  return await page.locator('.statement-table tr').evaluateAll((rows) =>
    rows
      .filter((row) => row.querySelector('td'))
      .map((row) => {
        const [yours, theirs, balance] = [...row.querySelectorAll('td')];
        const way = balance?.querySelector('.under')?.textContent ?? '';
        return {
          what: row.querySelector('th')?.textContent ?? '',
          yours: yours?.textContent ?? '',
          theirs: theirs?.textContent ?? '',
          balance: (balance?.textContent ?? '').replace(way, ''),
          way,
        };
      }),
  );
}

test('the statements of both sides are each other’s mirror, to the cent', async () => {
  const [ours, theirs] = [await statementRows(seller.page), await statementRows(buyer.page)];
  const turned: Readonly<Record<string, string>> = { 'owed to you': 'you owe', 'you owe': 'owed to you' };
  expect(theirs).toEqual(
    ours.map((row) => ({ ...row, yours: row.theirs, theirs: row.yours, way: turned[row.way] ?? row.way })),
  );
  expect(ours.at(-1)).toMatchObject({ balance: '2,200.00', way: 'owed to you' });
  expect(await seller.page.locator('.standing').textContent()).toMatch(
    /^Tarn Hollow Dairy owes you, Quillback Acres, USD\s2,200\.00 at the end of/,
  );
  for (const { page } of [seller, buyer]) {
    expect(await page.locator('main').textContent()).toMatch(
      /USD\s2,100\.00 not due yet and USD\s100\.00 held/,
    );
  }
  await seller.page.goto(`/money/statement?agreement=${agreementId}&from=2026-09-30&to=2026-09-01`);
  expect(await seller.page.locator('.refused').textContent()).toContain('The first day must not be after');
});

test('papers are the same bytes for both, each time, and files are there for programs', async () => {
  await openInvoice(seller.page);
  const path = new URL(seller.page.url()).pathname;
  const papers: Buffer[] = [];
  for (const { context } of [seller, seller, buyer]) {
    const answer = await context.request.get(`${path}/paper`);
    expect(answer.headers()['content-disposition']).toBe('inline; filename="Invoice-1-Quillback-Acres.pdf"');
    papers.push(await answer.body());
  }
  expect(papers[0]?.subarray(0, 5).toString()).toBe('%PDF-');
  expect(papers.every((paper) => paper.equals(papers[0] ?? Buffer.alloc(0)))).toBe(true);
  const xml = await seller.context.request.get(`${path}/e-invoice?seller=US&buyer=US`);
  expect(xml.headers()['content-disposition']).toContain(
    'attachment; filename="Invoice-1-Quillback-Acres.xml"',
  );
  expect(await xml.text()).toContain('2200.00');
  const query = `?agreement=${agreementId}`;
  const csv = await buyer.context.request.get(`/money/statement/csv${query}`);
  expect(csv.headers()['content-type']).toBe('text/csv; charset=utf-8');
  expect(await csv.text()).toContain('Invoice 1');
  const paper = await buyer.context.request.get(`/money/statement/paper${query}`);
  expect((await paper.body()).subarray(0, 5).toString()).toBe('%PDF-');
});

test('an adviser on the agreement sees no money', async () => {
  await openInvoice(seller.page);
  const path = new URL(seller.page.url()).pathname;
  const ask = await askSignedIn(program.address, ADVISER);
  expect((await ask({ path: `/agreements/${agreementId}` })).status).toBe(200);
  for (const place of [
    '/money',
    '/money/documents',
    '/money/issue',
    '/money/statement',
    '/money/statement/csv',
  ]) {
    expect((await ask({ path: `${place}?agreement=${agreementId}` })).status, place).toBe(404);
  }
  expect((await ask({ path })).status).toBe(404);
  expect((await ask({ path: `${path}/paper` })).status).toBe(404);
  const money = await (await ask({ path: '/money' })).text();
  expect(money).not.toMatch(/Quillback|Tarn Hollow/);
});

test('the buyer lets go, and all of it is due again', async () => {
  await openInvoice(buyer.page);
  await buyer.page.getByRole('button', { name: 'Let go of it' }).click();
  expect(await buyer.page.locator('[role=status].told').textContent()).toBe(
    '100.00 is held no longer, and due again.',
  );
  await openInvoice(seller.page);
  expect(await seller.page.locator('.held-list').count()).toBe(0);
  await seller.page.goto(`/money/documents?agreement=${agreementId}`);
  expect(await seller.page.locator('.money-table tbody').textContent()).toContain('2,200.00 to pay, due');
  expect([...seller.complaints, ...buyer.complaints]).toEqual([]);
});
