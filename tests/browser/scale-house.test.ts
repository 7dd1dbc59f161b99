/**
 * Scales and ticket numbers on pages, and money off for a load outside its ranges.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { browseAs, findLoad, launch } from './browsers.ts';

const address = inject('address');
let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function press(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).click();
}

test('a scale outside the published limits is refused with them; a partner sees one that is described', async () => {
  const grower = await browseAs(browser, { side: 'grower', role: 'bookkeeper' }, { address });
  const dairy = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address });
  await grower.page.goto('/scales');
  const given = { name: 'West scale', place: 'Mill yard', capacity: '220000', division: '20' };
  for (const [name, value] of Object.entries(given)) await grower.page.fill(`[name=${name}]`, value);
  await grower.page.getByLabel('Yes, legal for trade').check();
  await grower.page.fill('[name=tested_on]', '2020-03-01');
  await grower.page.fill('[name=test_due_on]', '2021-03-01');
  await press(grower.page, 'Add this scale');
  await grower.page.waitForSelector('.refused');
  expect(await grower.page.locator('.refused').textContent()).toContain(
    'Division must make 2,000 to 10,000 divisions of the capacity on a scale of class III L; it makes 11000',
  );
  await grower.page.fill('[name=capacity]', '200000');
  await press(grower.page, 'Add this scale');
  await grower.page.waitForSelector('.scales');
  expect(await grower.page.locator('.waiting').textContent()).toMatch(
    /West scale: The test of this scale was due by 2021-03-01 and is overdue by \d+ days/,
  );
  await grower.page.getByRole('link', { name: 'A new test, or a change' }).click();
  await grower.page.fill('[name=tested_on]', '2026-03-01');
  await grower.page.fill('[name=test_due_on]', '2099-03-01');
  await grower.page.fill('[name=certificate]', 'T-44');
  await press(grower.page, 'Record this version');
  await grower.page.waitForSelector('text=version 2');
  await dairy.page.goto('/scales');
  const seen = await dairy.page.locator('.scale-item').textContent();
  expect(seen).toContain('A scale of Quillback Acres; they describe it.');
  expect(seen).toContain('T-44');
  expect(await dairy.page.getByRole('link', { name: 'A new test, or a change' }).count()).toBe(0);
  expect([...grower.complaints, ...dairy.complaints]).toEqual([]);
});

test('a number that is missing is seen, and accounted for with its reason', async () => {
  const { page, complaints } = await browseAs(browser, { side: 'grower', role: 'owner' }, { address });
  await page.goto(`/agreements/${inject('agreementId')}/tickets`);
  await page.fill('#field-series-prefix', 'K-');
  await page.fill('#field-series-first', '199');
  await press(page, 'Begin this series');
  await page.waitForSelector('.told');
  expect(await page.locator('main').textContent()).toContain('2 numbers are missing');
  expect(await page.locator('main').textContent()).toContain('K-199 to K-200: 2 numbers');
  expect(await page.inputValue('#field-spend-ticket')).toBe('K-199');
  await page.getByLabel('Void: spoiled or never printed').check();
  await page.fill('#field-spend-reason', 'printer jam');
  await press(page, 'Account for it');
  await page.waitForSelector('text=Ticket K-199 is accounted for.');
  expect(await page.locator('main').textContent()).toContain('One number is missing');
  expect(await page.getByRole('row', { name: /K-199/ }).textContent()).toContain('printer jam');
  expect(complaints).toEqual([]);
});

test('money off is proposed for a load that is too wet, refused, proposed again and confirmed', async () => {
  const seller = await browseAs(browser, { side: 'grower', role: 'bookkeeper' }, { address });
  const buyer = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address });
  const path = await findLoad(buyer.page, '1084');
  const propose = async (money: string) => {
    await buyer.page.goto(path);
    await buyer.page.getByText('Propose money off to Quillback Acres').click();
    await buyer.page.fill('#field-allowance-taken_off', money);
    await buyer.page.fill('#field-allowance-reason', 'too wet for the bag');
    await press(buyer.page, 'Propose it');
    await buyer.page.waitForSelector('.told');
    await seller.page.goto(path);
  };
  await propose('9.00');
  expect(await seller.page.locator('[aria-labelledby=allowance]').textContent()).toContain(
    'Tarn Hollow Dairy proposes 9.00 USD off per short ton as-fed: “too wet for the bag”.',
  );
  await seller.page.getByText('Refuse it').click();
  await seller.page.fill('#field-refuse-allowance-reason', 'half of that');
  await press(seller.page, 'Refuse this allowance');
  await seller.page.waitForSelector('.told');
  await propose('4.50');
  await press(seller.page, 'Confirm: 4.50 USD off per short ton as-fed');
  await seller.page.waitForSelector('text=the load is accepted at this allowance');
  // 51,760 lb are 25.88 short tons: 25.88 × 4.50 = 116.46.
  expect(await seller.page.locator('.stair').textContent()).toContain('Allowance agreed for this load');
  expect(await seller.page.locator('.stair').textContent()).toContain('−116.46');
  expect(await seller.page.locator('.history').textContent()).toContain('Allowance answered');
  expect([...seller.complaints, ...buyer.complaints]).toEqual([]);
});
