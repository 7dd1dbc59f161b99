/**
 * Money between two parties, on pages: paid with a lender's lien standing, confirmed, given back by the bank, paid again
 * in parts, set off, put into the books, and handed to a bank.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Browsing, browseAs, launch, newBrowsing, signIn } from './browsers.ts';
import { fillPayments } from './payment-record.ts';
import { newDataFolder, type Program, startProgram } from './program.ts';
import { fillPeople } from './season-record.ts';

const LENDER = 'Fallow Creek Credit';

let browser: Browser;
let program: Program;
let folder: Awaited<ReturnType<typeof newDataFolder>>;
let dairy: Browsing;
let grower: Browsing;

beforeAll(async () => {
  browser = await launch();
  folder = await newDataFolder();
  await fillPeople(folder.path, fillPayments);
  program = await startProgram(folder.path);
  const { address } = program;
  dairy = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address });
  grower = await browseAs(browser, { side: 'grower', role: 'bookkeeper' }, { address });
});
afterAll(async () => {
  await browser.close();
  await program.stop();
  await folder.remove();
});

async function press(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).click();
}

/** Waits until the page says so. */
async function tells(page: Page, words: string): Promise<void> {
  await page.locator('.told[role=status]', { hasText: words }).waitFor();
}

/** Waits until a form was refused with these words: an earlier refusal may still stand there. */
async function refuses(page: Page, words: string): Promise<void> {
  await page.locator('.refused[role=alert]', { hasText: words }).waitFor();
}

/** What a table says, row by row. */
const rows = async (page: Page, selector = 'table.payable >> nth=0') =>
  (await page.locator(selector).locator('tr').allInnerTexts()).map((text) => text.split(/\s+/).join(' '));

test('a lender’s notice is recorded, and both sides read the same of it', async () => {
  const { page } = grower;
  await page.goto('/money/liens');
  expect(await page.locator('main').textContent()).toContain('7 USC 1631');
  await press(page, 'Record the notice');
  await refuses(page, 'Lender must not be empty');
  await page.fill('[name=lender]', LENDER);
  await page.fill('[name=county]', 'Teasel');
  await page.fill('[name=conditions]', 'Checks to the debtor and to us, sent to us.');
  await press(page, 'Record the notice');
  await tells(page, `${LENDER} is to be named on each payment`);
  await dairy.page.goto('/money/liens');
  expect(await dairy.page.locator('.payment').textContent()).toContain('Checks to the debtor and to us');
  expect(await dairy.page.locator('.caution').first().textContent()).toContain(
    `Quillback Acres and ${LENDER}, jointly.`,
  );
});

test('the buyer is asked about the lender, and pays jointly', async () => {
  const { page } = dairy;
  await page.goto('/money/pay');
  expect(await rows(page)).toMatchObject([
    'Document Due on Due, USD',
    expect.stringMatching(/^Invoice 1 \d+ \w+( \d+)? 10 days late 1,000\.00$/),
    expect.stringMatching(/^Invoice 2 24\.00 less if paid in full by .* 1,200\.00$/),
    expect.stringMatching(/^Invoice 3 22\.00 less if paid in full by .* 1,100\.00$/),
    'All that is due 3,300.00',
  ]);
  const reason = page.locator('[name=past_lien]');
  expect(await reason.isVisible()).toBe(false);
  await page.fill('[name=amount]', '1000.00');
  await page.fill('[name=reference]', '1043');
  await page.getByLabel('Quillback Acres alone', { exact: true }).check();
  expect(await reason.isVisible()).toBe(true);
  await press(page, 'Record what you paid');
  await refuses(page, `${LENDER} has a lien on the feed`);
  // What was typed is still there, and so is the reason.
  expect(await page.inputValue('[name=amount]')).toBe('1000.00');
  expect(await reason.isVisible()).toBe(true);
  await page.getByLabel(`Quillback Acres and ${LENDER}, jointly`).check();
  await press(page, 'Record what you paid');
  await tells(page, 'It counts once Quillback Acres confirms that it came.');
  const item = await page.locator('.payment').first().textContent();
  expect(item).toContain('1,000.00 USD');
  expect(item).toContain('jointly');
  expect(item).toContain('waits for Quillback Acres');
  await page.goto('/money/pay');
  expect(await page.locator('.unanswered').textContent()).toContain('1,000.00 USD');
});

test('the seller confirms it, the bank gives it back, and the agreed fee is charged', async () => {
  const { page } = grower;
  await page.goto('/money/payments');
  await press(page, 'Confirm that 1,000.00 USD came');
  await tells(page, 'Confirmed: the payment counts.');
  expect(await rows(page)).toEqual(['Document Paid, USD', 'Invoice 1 1,000.00']);
  await page.locator('summary', { hasText: 'The bank gave it back' }).click();
  expect(await page.locator('.payment').first().textContent()).toContain('the agreed fee of 25.00 USD');
  await press(page, 'Record that the bank gave it back');
  await refuses(page, 'What the bank says must not be empty');
  await page.getByLabel('What the bank says').fill('Account without funds');
  await press(page, 'Record that the bank gave it back');
  await tells(page, 'The agreed fee is charged: Fee invoice 4.');
  await dairy.page.goto('/money/payments');
  expect(await dairy.page.locator('.payment').first().textContent()).toContain('“Account without funds”');
});

test('the buyer pays again, as it says, and what is named nowhere stays on account', async () => {
  const { page } = dairy;
  await page.goto('/money/pay');
  expect((await rows(page)).at(-1)).toBe('All that is due 3,325.00');
  await page.fill('[name=amount]', '700');
  await page.selectOption('[name=method]', 'transfer');
  await page.locator('summary', { hasText: 'Name how much goes to which document' }).click();
  await page.getByLabel('Invoice 1', { exact: true }).fill('400');
  await page.getByLabel('Invoice 2', { exact: true }).fill('2000');
  // Amounts that were typed are not passed over in silence.
  await press(page, 'Record what you paid');
  await refuses(page, 'What it pays leaves no room for the amounts');
  await page.getByLabel('what I name below').check();
  await press(page, 'Record what you paid');
  await refuses(page, 'Invoice 2 is more than the 1200.00 due');
  await page.getByLabel('Invoice 2', { exact: true }).fill('200');
  await press(page, 'Record what you paid');
  await tells(page, 'It counts once Quillback Acres confirms');
  expect(await page.locator('.payment').first().textContent()).toContain(
    'It is meant for Invoice 1 (400.00 USD), Invoice 2 (200.00 USD).',
  );
  await grower.page.goto('/money/payments');
  await press(grower.page, 'Confirm that 700.00 USD came');
  await tells(grower.page, 'Confirmed');
  expect(await grower.page.locator('.payment').first().textContent()).toContain(
    '100.00 USD of it paid no document and went on account.',
  );
  expect(await grower.page.locator('main').textContent()).toContain(
    'Tarn Hollow Dairy has 100.00 USD on account',
  );
});

test('money on account is used once the other side agrees', async () => {
  const { page } = dairy;
  await page.goto('/money/payments');
  await page.locator('summary', { hasText: 'Propose to use it for what is due' }).click();
  await page.locator('#field-set-off-amount').fill('150');
  await page.locator('#field-set-off-reason').fill('It has lain there long enough');
  await press(page, 'Propose it to Quillback Acres');
  await refuses(page, 'at most the 100.00 on account');
  await page.locator('#field-set-off-amount').fill('100');
  await press(page, 'Propose it to Quillback Acres');
  await tells(page, 'It is proposed to Quillback Acres.');
  await grower.page.goto('/money/payments');
  await press(grower.page, 'Agree: use 100.00 USD');
  await tells(grower.page, 'Agreed: the money on account is used.');
  await page.goto('/money/payments');
  expect(await rows(page, 'section[aria-labelledby=on-account] table')).toEqual([
    'Document Used, USD',
    'Invoice 1 100.00',
  ]);
});

test('a discount is earned without scripts, too, and the payment can be taken back first', async () => {
  const { address } = program;
  const plain = await newBrowsing(browser, { address, scripts: false });
  const { page } = plain;
  await signIn(page, { side: 'dairy', role: 'owner' });
  await page.goto('/money/pay');
  await page.fill('[name=amount]', '1078');
  await page.getByLabel('what I name below').check();
  await page.locator('summary', { hasText: 'Name how much goes to which document' }).click();
  await page.getByLabel('Invoice 3', { exact: true }).fill('1100');
  await page.getByRole('button', { name: 'Record what you paid' }).click();
  await refuses(page, 'the parts come to 1100.00');
  await page.getByLabel('Invoice 3', { exact: true }).fill('1078');
  await page.getByRole('button', { name: 'Record what you paid' }).click();
  await tells(page, 'It counts once');
  await page.getByRole('button', { name: 'Take the record back' }).click();
  await tells(page, 'It counts for nothing.');
  await page.goto('/money/pay');
  await page.fill('[name=amount]', '1078');
  await page.getByLabel('what I name below').check();
  await page.locator('summary', { hasText: 'Name how much goes to which document' }).click();
  await page.getByLabel('Invoice 3', { exact: true }).fill('1078');
  await page.getByRole('button', { name: 'Record what you paid' }).click();
  await tells(page, 'It counts once');
  await grower.page.goto('/money/payments');
  await press(grower.page, 'Confirm that 1,078.00 USD came');
  await tells(grower.page, 'Confirmed');
  expect(await rows(grower.page, 'section[aria-labelledby=payments] table >> nth=0')).toEqual([
    'Document Paid, USD Discount, USD',
    'Invoice 3 1,078.00 22.00',
  ]);
  expect(plain.complaints).toEqual([]);
});

/** A CSV without quoted line ends, as cells. */
function cells(csv: string): string[][] {
  return csv
    .trim()
    .split(/\r?\n/)
    .map((line) => [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map(([, cell = '']) => cell));
}

const cents = (amount = '') => (amount === '' ? 0n : BigInt(amount.replace('.', '')));

test.each(['dairy', 'grower'] as const)('every entry of the %s’s books balances', async (side) => {
  const { page, context } = side === 'dairy' ? dairy : grower;
  await page.goto('/money/books');
  expect(await page.locator('main').textContent()).toContain('Accounts receivable');
  expect(await page.locator('form[action="/money/journal.csv"]').getAttribute('method')).toBe('get');
  const answer = await context.request.get('/money/journal.csv?from=&to=');
  expect(answer.status()).toBe(200);
  expect(answer.headers()['content-disposition']).toContain('journal.csv');
  const [head = [], ...lines] = cells(await answer.text());
  const at = (name: string) => head.indexOf(name);
  const balances = new Map<string, bigint>();
  for (const line of lines) {
    const entry = line[at('entry_number')] ?? '';
    const change = cents(line[at('debit')]) - cents(line[at('credit')]);
    balances.set(entry, (balances.get(entry) ?? 0n) + change);
  }
  expect(balances.size).toBeGreaterThan(10);
  expect([...balances].filter(([, balance]) => balance !== 0n)).toEqual([]);
});

test('the bank’s file needs an account to pay from, and names both payees while a lien stands', async () => {
  const { address } = program;
  const owner = await browseAs(browser, { side: 'dairy', role: 'owner' }, { address });
  const { page, context } = owner;
  await page.goto('/money/instruction');
  const main = () => page.locator('main').textContent();
  expect(await main()).toContain(`By check made out to Quillback Acres and ${LENDER}, jointly`);
  expect(await main()).toContain('Give your own account first.');
  expect(await page.getByRole('link', { name: /pain\.001/ }).count()).toBe(0);

  await page.getByRole('link', { name: 'Give your own account first.' }).click();
  await page.fill('[name=holder]', 'Tarn Hollow Dairy');
  await page.fill('[name=number]', '55501234567');
  await page.fill('[name=bank]', '123456789');
  await press(page, 'Keep this account');
  await refuses(page, 'is no routing number');
  // Nine digits whose check digit fits; no bank of that number is meant.
  await page.fill('[name=bank]', '800000006');
  await press(page, 'Keep this account');
  await tells(page, 'told that it changed');

  await page.goto('/money/instruction');
  const path = (await page.getByRole('link', { name: /pain\.001/ }).getAttribute('href')) ?? '';
  const answer = await context.request.get(path);
  expect(answer.status()).toBe(200);
  expect(answer.headers()['content-type']).toContain('application/xml');
  const xml = await answer.text();
  expect(xml).toContain('pain.001.001.09');
  expect(xml).toContain('<PmtMtd>CHK</PmtMtd>');
  expect(xml).toContain(`Quillback Acres and ${LENDER}`);

  await page.fill('[name=due_by]', '2001-01-01');
  await press(page, 'Show what it would pay');
  await page.waitForURL(/due_by=2001-01-01/);
  expect(await main()).toContain('Nothing that you owe is due by 1 January 2001.');
  await page.goto('/money/instruction?due_by=soon');
  expect(await page.locator('.fault').textContent()).toContain('must be a date on the calendar');
  expect(owner.complaints).toEqual([]);
});

test('who does not pay sees the end of a number, and who is no owner changes none', async () => {
  const { address } = program;
  const viewer = await browseAs(browser, { side: 'grower', role: 'viewer' }, { address });
  await viewer.page.goto('/money/account');
  const seen = (await viewer.page.locator('main').textContent()) ?? '';
  expect(seen).toContain('…4567');
  expect(seen).not.toContain('55501234567');
  expect(await viewer.page.locator('[name=number]').count()).toBe(0);
  await grower.page.goto('/money/account');
  expect(await grower.page.locator('main').textContent()).toContain('55501234567');
  expect(await grower.page.locator('[name=number]').count()).toBe(0);
  await viewer.page.goto('/money/payments');
  expect(await viewer.page.getByRole('button').count()).toBe(0);
  expect([...viewer.complaints, ...dairy.complaints, ...grower.complaints]).toEqual([]);
});

test('the buyer records that a lien is over, and is no longer asked', async () => {
  const { page } = dairy;
  await grower.page.goto('/money/liens');
  expect(await grower.page.locator('summary', { hasText: 'It is over' }).count()).toBe(0);
  await page.goto('/money/liens');
  await page.locator('summary', { hasText: 'It is over' }).click();
  await page.getByLabel('What says so').fill('Their release, received today');
  await press(page, `Record that the notice of ${LENDER} is over`);
  await tells(page, `The notice of ${LENDER} is over.`);
  await page.goto('/money/pay');
  expect(await page.locator('[name=made_out_to]').count()).toBe(0);
});
