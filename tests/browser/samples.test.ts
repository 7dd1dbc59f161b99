/**
 * One load's sample from the truck to the money, on pages: taken, sealed, handed on, its result entered by one side and
 * contested by the other, put right, confirmed, and settled from.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { browseAs, findLoad, launch } from './browsers.ts';

const address = inject('address');
const samples = `/agreements/${inject('agreementId')}/samples`;
let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function press(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).click();
}

/** Waits until the page says so. */
async function tells(page: Page, words: string): Promise<void> {
  await page.locator('.told[role=status]', { hasText: words }).waitFor();
}

async function enterResult(page: Page, figures: Readonly<Record<string, string>>): Promise<void> {
  for (const [name, value] of Object.entries(figures)) await page.fill(`[name=${name}]`, value);
}

test('a sample is taken, sealed, handed on, tested, contested, put right, confirmed and settled from', async () => {
  const scale = await browseAs(browser, { side: 'grower', role: 'scale-operator' }, { address });
  const grower = await browseAs(browser, { side: 'grower', role: 'bookkeeper' }, { address });
  const dairy = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address });

  await scale.page.goto(`/loads/new?agreement=${inject('agreementId')}`);
  for (const [name, value] of Object.entries({
    ticket: 'W-1',
    gross: '78220',
    tare: '31100',
    sample: 'W-S',
  })) {
    await scale.page.fill(`[name=${name}]`, value);
  }
  await scale.page.fill('[name=delivered_at]', '2026-10-30T20:40');
  await press(scale.page, 'Record this load');
  await scale.page.waitForSelector('.done');

  // What is missing is said, and leads to the forms.
  await scale.page.goto(`${samples}?show=open`);
  expect(await scale.page.locator('.waiting').textContent()).toContain('W-S');
  expect(await scale.page.locator('main').textContent()).toContain('Never go alone.');
  const item = (page: Page) =>
    page.locator('li.sample', { has: page.getByRole('heading', { name: 'Sample W-S' }) });
  await item(scale.page).getByRole('link', { name: 'Record how it was taken' }).click();
  await scale.page.waitForURL(/sample=W-S/);
  await scale.page.fill('#field-take-taken_at', '2026-10-30T20:45');
  await press(scale.page, 'Record the sample');
  await scale.page.waitForSelector('.refused');
  expect(await scale.page.locator('.refused').textContent()).toContain('How must not be empty');
  await scale.page.fill('#field-take-how', 'five scoops from the unloading stream, mixed');
  await press(scale.page, 'Record the sample');
  await tells(scale.page, 'It is recorded how sample W-S was taken.');

  for (const [part, seal] of [
    ['laboratory', '7001'],
    ['buyer', '7002'],
  ]) {
    await scale.page.fill(`#field-seal-seal_${part}`, seal ?? '');
    await scale.page.fill(`#field-seal-kept_where_${part}`, 'Scale house freezer');
    if (part === 'laboratory') await scale.page.selectOption(`#field-seal-airtight_${part}`, 'yes');
  }
  await press(scale.page, 'Record the sealed parts');
  await scale.page.waitForSelector('.refused');
  // Each part has a field of its own, and the fault stands at the one that lacks it.
  expect(await scale.page.locator('[aria-invalid=true]').getAttribute('id')).toBe(
    'field-seal-airtight_buyer',
  );
  await scale.page.selectOption('#field-seal-airtight_buyer', 'no');
  await press(scale.page, 'Record the sealed parts');
  await tells(scale.page, '2 parts of sample W-S under seal.');

  await item(scale.page).getByRole('link', { name: 'Hand over seal 7001' }).click();
  await scale.page.waitForURL(/part=/);
  await scale.page.fill('#field-hand-over-to_whom', 'Ridge Crossing Laboratory');
  await scale.page.fill('#field-hand-over-handed_at', '2026-10-31T08:00');
  await scale.page.fill('#field-hand-over-kept_where', 'Laboratory freezer');
  await scale.page.getByLabel('Yes, whole').check();
  await press(scale.page, 'Record the hand-over');
  await tells(scale.page, 'The part under seal 7001 is with Ridge Crossing Laboratory now.');

  // Both sides read the same of it.
  await dairy.page.goto(`${samples}?sample=W-S`);
  const row = item(dairy.page).getByRole('row', { name: /7001/ });
  expect(await row.locator('td').allTextContents()).toEqual([
    '7001',
    'Yes',
    'Ridge Crossing Laboratory',
    'Laboratory freezer',
    'No day named',
    'Hand over seal 7001',
  ]);

  await dairy.page.goto(`/results/new?agreement=${inject('agreementId')}&sample=W-S`);
  await dairy.page.getByLabel('dry matter', { exact: true }).check();
  await enterResult(dairy.page, {
    dry_matter: '59.2',
    starch: '45',
    ndf: '31.34',
    dry_matter_method: 'oven, 60 °C',
  });
  await dairy.page.locator('details', { hasText: 'Other figures' }).first().locator('summary').click();
  await dairy.page.setInputFiles('[name=report]', {
    name: 'sheet.html',
    mimeType: 'text/html',
    buffer: Buffer.from('<script>alert(1)</script>'),
  });
  await press(dairy.page, 'Record this result');
  await dairy.page.waitForSelector('.refused');
  expect(await dairy.page.locator('.refused').textContent()).toContain('PDF, PNG picture, JPEG picture');
  const pdf = Buffer.from('%PDF-1.7 a report of the test');
  await dairy.page.setInputFiles('[name=report]', {
    name: 'sheet 7.pdf',
    mimeType: 'text/plain',
    buffer: pdf,
  });
  await press(dairy.page, 'Record this result');
  await tells(dairy.page, 'The result of sample W-S is recorded.');

  const path = await findLoad(grower.page, 'W-1');
  await grower.page.goto(path);
  const story = grower.page.locator('.result-story');
  expect(await story.textContent()).toContain('Tarn Hollow Dairy entered it.');
  expect(await story.textContent()).toContain('oven, 60 °C');
  const report = await story.getByRole('link', { name: 'The laboratory’s report' }).getAttribute('href');
  const file = await grower.context.request.get(report ?? '');
  expect(file.headers()).toMatchObject({
    'content-type': 'application/pdf',
    'content-disposition': expect.stringMatching(/^attachment; filename="sheet 7\.pdf"/) as string,
    'content-security-policy': "sandbox; default-src 'none'",
    'x-content-type-options': 'nosniff',
  });
  expect((await file.body()).equals(pdf)).toBe(true);

  await grower.page.getByText('Contest them').click();
  await press(grower.page, 'Contest these figures');
  await grower.page.waitForSelector('.refused');
  await grower.page.getByLabel('What is wrong with them').fill('starch says 54 on the sheet');
  await press(grower.page, 'Contest these figures');
  await tells(grower.page, 'The result of sample W-S is contested.');
  const waits =
    'Not settled yet. Quillback Acres contests the result of sample W-S: starch says 54 on the sheet.';
  expect(await grower.page.locator('.standing').textContent()).toBe(waits);

  await dairy.page.goto(path);
  expect(await dairy.page.locator('.standing').textContent()).toBe(waits);
  await dairy.page.goto(`${path}/correct`);
  const right = dairy.page.locator('form', {
    has: dairy.page.getByRole('button', { name: 'Put the result right' }),
  });
  await right.locator('[name=starch]').fill('54');
  await right.locator('[name=reason]').fill('starch was misread');
  await right.getByRole('button').click();
  await dairy.page.waitForURL(`**${path}`);
  expect(await dairy.page.locator('.result-story').textContent()).toContain(
    'Your side entered it. It is version 2: “starch was misread”.',
  );

  await grower.page.goto(path);
  await press(grower.page, 'Confirm these figures');
  await tells(grower.page, 'The result of sample W-S is confirmed.');
  await dairy.page.goto(path);
  expect(await dairy.page.locator('.result-story').textContent()).toContain(
    'Quillback Acres confirmed these figures.',
  );
  await press(dairy.page, 'Settle this load');
  await dairy.page.waitForSelector('text=Settled: ');
  await grower.page.goto(path);
  expect(await grower.page.locator('.standing .total').textContent()).toBe(
    await dairy.page.locator('.standing .total').textContent(),
  );
  expect(await grower.page.getByRole('button', { name: 'Contest these figures' }).count()).toBe(0);
  const history = await grower.page.locator('.history').textContent();
  expect(history?.match(/Result confirmed or contested/g)).toHaveLength(2);
  expect([...scale.complaints, ...grower.complaints, ...dairy.complaints]).toEqual([]);
});

test('a laboratory is let in by a link, reports a sample, and sees no weight and no price', async () => {
  const owner = await browseAs(browser, { side: 'dairy', role: 'owner' }, { address });
  await owner.page.goto(`/agreements/${inject('agreementId')}/laboratories`);
  expect(await owner.page.locator('.members').textContent()).toContain('Ridge Crossing Laboratory');
  await owner.page.fill('[name=laboratory]', 'Fennel Ridge Laboratory');
  await press(owner.page, 'Make its invitation');
  const link = await owner.page.locator('.link-shown').textContent();
  expect(link).toMatch(/\/join\/\S+$/);

  // A sample of its own: those of the season are other tests'.
  await owner.page.goto(samples);
  await owner.page.getByText('Record that a sample was taken').click();
  await owner.page.fill('#field-take-sample', 'L-S');
  await owner.page.fill('#field-take-taken_at', '2026-10-30T21:10');
  await owner.page.fill('#field-take-how', 'five scoops');
  await press(owner.page, 'Record the sample');
  await tells(owner.page, 'It is recorded how sample L-S was taken.');

  const clerk = await browseAs(browser, { side: 'laboratory', role: 'bookkeeper' }, { address });
  await clerk.page.getByRole('link', { name: 'Samples to report on' }).click();
  await clerk.page.waitForURL('**/laboratory');
  const row = clerk.page.getByRole('row', { name: /^L-S/ });
  await row.getByRole('link', { name: /^Report it/ }).click();
  await clerk.page.waitForURL(/sample=L-S/);
  await clerk.page.getByLabel('dry matter', { exact: true }).check();
  await enterResult(clerk.page, { dry_matter: '60.1', starch: '56', ndf: '24' });
  await press(clerk.page, 'Report this result');
  await tells(clerk.page, 'The result of sample L-S is reported.');
  expect(await clerk.page.locator('main').textContent()).not.toMatch(/USD|\blb\b|1145/);

  await owner.page.goto(`/agreements/${inject('agreementId')}/samples?sample=L-S`);
  const item = owner.page.locator('li.sample', {
    has: owner.page.getByRole('heading', { name: 'Sample L-S' }),
  });
  expect(await item.textContent()).toContain('Ridge Crossing Laboratory reported it itself.');
  expect([...owner.complaints, ...clerk.complaints]).toEqual([]);
});
