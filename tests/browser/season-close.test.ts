/**
 * A season closed in two browsers: both bring their lists, differ, settle, sign; then nothing is recorded any more, the saved
 * file's seal is checked without the record, and the next agreement takes up what was left.
 */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runCli } from '../cli/run-cli.ts';
import type { Browsing } from './browsers.ts';
import { askSignedIn } from './http-caller.ts';
import { ADVISER } from './market-record.ts';
import type { Program } from './program.ts';
import { fillRetestRecord, type RetestRecordIds } from './retest-record.ts';
import { openTwoSides, type TwoSides } from './two-sides.ts';

let program: Program;
let folder: { readonly path: string };
let ids: RetestRecordIds;
let sides: TwoSides<RetestRecordIds>;
let seller: Browsing;
let buyer: Browsing;
/** Opened before the season is sealed. */
let late: Page;

beforeAll(async () => {
  sides = await openTwoSides((path) => fillRetestRecord(path, { hasNext: true }), {
    seller: 'owner',
    buyer: 'owner',
  });
  ({ seller, buyer, filled: ids, program, folder } = sides);
}, 240_000);
afterAll(() => sides.close());

const main = async (page: Page): Promise<string> => (await page.locator('main').textContent()) ?? '';
const DAY = new Date(Date.now() - 2 * 86_400_000 - 7 * 3_600_000).toISOString().slice(0, 10);

async function bring(page: Page, csv: string): Promise<string> {
  await page.goto(`/agreements/${ids.agreementId}/own-list`);
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
  return await main(page);
}

test('both bring their own list, and one of them differs', async () => {
  const rows = (t4: string) =>
    `Ticket,Date,Net,Amount\nT1,${DAY},120000,1620.00\nT2,${DAY},80000,1080.00\nT3,${DAY},120000,1620.00\nT4,${DAY},${t4}\n`;
  expect(await bring(seller.page, rows('80000,1080.00'))).toContain('Everything agrees');
  expect(await bring(buyer.page, rows('80000,1008.00'))).toContain('Amount differs');
  // It was the dairy's own slip: it puts its list right and brings it again, matched as before.
  expect(await bring(buyer.page, rows('80000,1080.00'))).toContain('Everything agrees');
});

test('one difference is left standing, agreed to by the other side', async () => {
  const at = `/agreements/${ids.agreementId}/season-close`;
  // Noted without a load: the amount alone does not say which way.
  await buyer.page.goto(at);
  await buyer.page.getByText('Note a difference', { exact: true }).click();
  await buyer.page.fill('[name=amount]', '72');
  await buyer.page.locator('#differences ~ details [name=reason]').fill('Our clerk wrote 1,008.00');
  await buyer.page.getByRole('button', { name: 'Put it to Quillback Acres' }).click();
  expect(await buyer.page.locator('.refused').textContent()).toContain('must be chosen');
  // From the row of one's own list, both are filled in.
  await bring(
    buyer.page,
    ['T1,DAY,120000,1620.00', 'T2,DAY,80000,1080.00', 'T3,DAY,120000,1620.00', 'T4,DAY,80000,1008.00']
      .map((row) => `${row.replace('DAY', DAY)}\n`)
      .reduce((all, row) => all + row, 'Ticket,Date,Net,Amount\n'),
  );
  await buyer.page.getByText('Leave it standing, if the other side agrees').click();
  expect(await buyer.page.inputValue('.correction [name=amount]')).toBe('72.00');
  expect(await buyer.page.isChecked('.correction [name=way][value=less]')).toBe(true);
  await buyer.page.locator('.correction [name=reason]').fill('Our clerk wrote 1,008.00');
  await buyer.page.getByRole('button', { name: 'Put it to Quillback Acres' }).click();
  await buyer.page.waitForSelector('[role=status].told');
  expect(await main(buyer.page)).toContain('Quillback Acres has not answered');
  const said = 'Load T4: by the books of Tarn Hollow Dairy, it owes 72.00 USD less than the record says.';
  await buyer.page.goto(at);
  expect(await main(buyer.page)).toContain('One difference is noted and not answered');

  await seller.page.goto('/');
  await seller.page.getByRole('link', { name: 'Read and answer it' }).click();
  await seller.page.waitForURL(`**${at}`);
  expect(await main(seller.page)).toContain(said);
  await seller.page.getByRole('button', { name: 'Agree to leave it standing' }).click();
  await seller.page.waitForSelector('[role=status].told');
  expect(await main(seller.page)).toContain('your side agreed on');
  await buyer.page.goto(`/agreements/${ids.agreementId}/own-list`);
  expect(await main(buyer.page)).toContain('Both leave it standing');
});

test('what is open is carried over by both, and the second signature seals', async () => {
  late = await seller.context.newPage();
  await late.goto(`/retests/new?agreement=${ids.agreementId}&about=weight&load=${ids.loads['T4']}`);
  await late.locator('.claims input[inputmode=decimal]').first().fill('81,000');
  await late.getByRole('button', { name: 'Show what it would mean' }).click();
  await late.waitForSelector('[name=reason]');
  await late.fill('[name=reason]', 'Late');
  const at = `/agreements/${ids.agreementId}/season-close`;
  await seller.page.goto(at);
  expect(await main(seller.page)).toContain('Tarn Hollow Dairy owes 2,700.00 USD');
  await seller.page.fill('[name=name]', 'Wren Alder');
  await seller.page.getByRole('button', { name: 'Draw up the statement and sign it' }).click();
  expect(await seller.page.locator('.refused').textContent()).toContain(
    'Tarn Hollow Dairy owes 2700.00 USD. Settle that first',
  );
  await seller.page.check('[name="carries.over"]');
  await seller.page.getByRole('button', { name: 'Draw up the statement and sign it' }).click();
  await seller.page.waitForSelector('[role=status].told');
  expect(await main(seller.page)).toContain('The other side has yet to sign it.');

  await buyer.page.goto('/');
  expect(await main(buyer.page)).toContain('Quillback Acres has drawn up and signed the closing statement');
  await buyer.page.getByRole('link', { name: 'Read and answer it' }).click();
  await buyer.page.waitForURL(`**${at}`);
  expect(await main(buyer.page)).toContain('Carried over by signing: Tarn Hollow Dairy owes 2,700.00 USD.');
  await buyer.page.fill('[name=name]', 'Juniper Marsh');
  await buyer.page.getByRole('button', { name: 'Sign, and seal the season' }).click();
  await buyer.page.waitForSelector('[role=status].told');
  const sealed = await main(buyer.page);
  expect(sealed).toContain('Sealed on');
  expect(sealed).toContain('Wren Alder for Quillback Acres');
  expect(sealed).toContain('Juniper Marsh for Tarn Hollow Dairy');
});

test('nothing is recorded in it any more, also by a form that was opened before', async () => {
  await late.getByRole('button', { name: 'Ask this question' }).click();
  await late.waitForSelector('.refused');
  expect(await late.locator('.refused').textContent()).toContain('signed shut');
  await late.close();
  const { page } = seller;
  await page.goto(`/retests/new?agreement=${ids.agreementId}&about=weight&load=${ids.loads['T4']}`);
  await page.waitForURL(`**/agreements/${ids.agreementId}`);
  expect(await main(page)).toContain('Both of you have sealed its season');
  await page.goto('/loads/new');
  expect(await main(page)).not.toContain('Q-TEST');
  for (const { page: reader } of [seller, buyer]) {
    await reader.goto(`/loads/${ids.loads['T4']}`);
    expect((await main(reader)).split('Its season is sealed').length).toBe(2);
    expect(await reader.locator('main button').count()).toBe(0);
    expect(await reader.locator('main a[href$="/correct"], main a[href^="/retests/new"]').count()).toBe(0);
    await reader.goto(`/money/pay?agreement=${ids.agreementId}`);
    await reader.waitForURL(`**/agreements/${ids.agreementId}`);
    await reader.goto('/money/pay');
    expect(await main(reader)).not.toContain('Q-TEST');
    await reader.goto(`/money/payments?agreement=${ids.agreementId}`);
    expect(await reader.locator('main button, main a[href^="/money/pay?"]').count()).toBe(0);
    await reader.goto(`/money/issue?agreement=${ids.agreementId}`);
    expect(await main(reader)).toContain('nothing is issued under it any more');
    expect(await reader.locator('main button').count()).toBe(0);
    await reader.goto(`/money/documents?agreement=${ids.agreementId}`);
    await reader.locator('main a[href^="/money/documents/"]').first().click();
    await reader.waitForURL(/documents\/[0-9a-f-]{36}$/);
    expect(await main(reader)).toContain('nothing about this document is recorded any more');
    expect(await reader.locator('main a[href*="question=yes"], main a[href^="/money/pay?"]').count()).toBe(0);
  }
});

test('the saved file is checked without the record, and a changed byte fails', async () => {
  const saved = await buyer.context.request.get(`/agreements/${ids.agreementId}/season-close/file`);
  expect(saved.headers()['content-disposition']).toContain('attachment');
  const bytes = await saved.body();
  const path = join(folder.path, 'season.zip');
  await writeFile(path, bytes);
  const fits = await runCli('check-seal', path);
  expect(fits).toMatchObject({ status: 0, said: [] });
  const root = /Root ([0-9a-f]{64})\nMark ([0-9a-f]{64})/.exec(fits.output);
  await seller.page.goto(`/agreements/${ids.agreementId}/season-close`);
  const shown = await main(seller.page);
  expect(shown).toContain(root?.[1]);
  expect(shown).toContain(root?.[2]);
  const paperOf = async ({ page, context }: typeof seller) => {
    await page.goto(`/agreements/${ids.agreementId}/season-close`);
    const link = page.getByRole('link', { name: 'Closing statement as PDF' });
    return await context.request.get((await link.getAttribute('href')) ?? '');
  };
  const [paper, buyers] = [await paperOf(seller), await paperOf(buyer)];
  expect(paper.headers()['content-type']).toBe('application/pdf');
  expect((await buyers.body()).equals(await paper.body())).toBe(true);
  const other = Buffer.from(bytes);
  const place = Math.floor(other.length / 2);
  other[place] = other[place] === 0x61 ? 0x62 : 0x61;
  await writeFile(path, other);
  expect((await runCli('check-seal', path)).status).toBe(1);
  const asAdviser = await askSignedIn(program.address, ADVISER);
  expect((await asAdviser({ path: `/agreements/${ids.nextId}/past-seasons` })).status).toBe(404);
  expect((await asAdviser({ path: `/agreements/${ids.agreementId}/season-close` })).status).toBe(404);
  expect((await asAdviser({ path: `/agreements/${ids.agreementId}/season-close/pdf` })).status).toBe(404);
  expect((await asAdviser({ path: `/agreements/${ids.agreementId}/season-close/file` })).status).not.toBe(
    200,
  );
});

test('the next agreement takes up the balance, and what both agree on later', async () => {
  const { page } = seller;
  await page.goto(`/agreements/${ids.agreementId}/season-close`);
  await page.getByRole('link', { name: 'agreement Q-NEXT' }).click();
  await page.waitForURL(`**/agreements/${ids.nextId}/past-seasons`);
  expect(await main(page)).toContain('Tarn Hollow Dairy owes 2,700.00 USD');
  await page.getByRole('button', { name: 'Bring 2,700.00 USD forward' }).click();
  await page.waitForSelector('[role=status].told');
  expect(await main(page)).toContain(
    'Its balance, 2,700.00 USD that Tarn Hollow Dairy owed, was brought forward',
  );

  const past = `/agreements/${ids.nextId}/past-seasons`;
  await buyer.page.goto(`/agreements/${ids.nextId}`);
  await buyer.page.getByRole('link', { name: 'Sealed seasons' }).click();
  await buyer.page.waitForURL(`**${past}`);
  await buyer.page.getByText('Something of this season turned out otherwise').click();
  await buyer.page.fill('[name=ticket]', 'T1');
  await buyer.page.check('[name=way][value=less]');
  await buyer.page.fill('[name=amount]', '1,054.50');
  await buyer.page.fill('[name=reason]', 'A truck was weighed twice');
  await buyer.page.getByRole('button', { name: 'Put it to Quillback Acres' }).click();
  await buyer.page.waitForSelector('[role=status].told');
  await page.goto(past);
  expect(await main(page)).toContain('Quillback Acres owes 1,054.50 USD for load T1 of that season.');
  await page.getByRole('button', { name: 'Agree: Quillback Acres owes 1,054.50 USD' }).click();
  await page.waitForSelector('[role=status].told');
  await page.getByRole('link', { name: 'The note that was issued' }).click();
  await page.waitForURL('**/money/documents/**');
  expect(await main(page)).toContain('A truck was weighed twice');
  // Both statements say what is left, once.
  for (const { page: reader } of [seller, buyer]) {
    await reader.goto(`/money/statement?agreement=${ids.agreementId}`);
    expect(await main(reader)).toContain('Carried over to agreement Q-NEXT');
    await reader.goto(`/money?agreement=${ids.agreementId}`);
    expect(await main(reader)).toContain('its balance was carried over to agreement Q-NEXT');
  }
  expect([...seller.complaints, ...buyer.complaints]).toEqual([]);
});
