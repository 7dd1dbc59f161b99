/**
 * Forms do their work with scripts and without: what was typed stays when it is refused, nothing is recorded twice, and
 * the hour that comes twice is asked about.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { browseAs, findLoad, launch } from './browsers.ts';

const address = inject('address');
let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function weigh(page: Page, figures: Readonly<Record<string, string>>): Promise<void> {
  for (const [name, value] of Object.entries(figures)) await page.fill(`[name=${name}]`, value);
  await page.getByRole('button', { name: 'Record this load' }).click();
}

describe.each([
  { scripts: true, mark: 'S' },
  { scripts: false, mark: 'N' },
])('with scripts: $scripts', ({ scripts, mark }) => {
  test('a scale operator weighs a load, is told of a slip, and goes on to the next', async () => {
    const { page, complaints } = await browseAs(
      browser,
      { side: 'dairy', role: 'scale-operator' },
      { address, scripts },
    );
    await page.goto('/loads/new');
    await weigh(page, {
      ticket: `${mark}1`,
      truck: 'T-9',
      gross: '31100',
      tare: '78220',
      sample: `${mark}-A`,
    });
    await page.waitForSelector('.refused');
    expect(await page.locator('.refused').textContent()).toContain(
      'Tare must be below the gross weight of 31100; found 78220',
    );
    expect(await page.inputValue('[name=truck]')).toBe('T-9');
    await weigh(page, { gross: '78.220', tare: '31.100' });
    await page.waitForSelector('text=can be read two ways');
    await weigh(page, { gross: '78220', tare: '31100', delivered_at: '2199-11-05T21:40' });
    await page.waitForSelector('text=is still to come');
    await weigh(page, { delivered_at: '2026-11-05T21:40' });
    await page.waitForSelector('.done');
    expect(await page.locator('.done').textContent()).toMatch(
      new RegExp(
        `Load ${mark}1 is recorded\\. Net\\s*47,120 lb\\s*Truck T-9, 78,220 less 31,100 lb, at 2026-11-05 21:40`,
      ),
    );
    expect(await page.inputValue('[name=ticket]')).toBe('');

    await weigh(page, {
      ticket: `${mark}1`,
      gross: '70,000',
      tare: '30,000',
      sample: `${mark}-A`,
      delivered_at: '2026-11-05T22:10',
    });
    await page.waitForSelector('.refused');
    expect(await page.locator('.refused').textContent()).toContain(`Ticket ${mark}1 was recorded before`);
    expect(complaints).toEqual([]);
  });

  test('a form that is sent again records nothing more', async () => {
    const { page } = await browseAs(browser, { side: 'dairy', role: 'scale-operator' }, { address, scripts });
    await page.goto('/loads/new');
    const key = await page.locator('[name=key]').getAttribute('value');
    const figures = {
      ticket: `${mark}2`,
      gross: '70000',
      tare: '30000',
      sample: `${mark}-A`,
      delivered_at: '2026-11-05T23:10',
    };
    await weigh(page, figures);
    await page.waitForSelector('.done');
    const first = page.url();
    await page.goto('/loads/new');
    await page
      .locator('[name=key]')
      .evaluate((input, value) => input.setAttribute('value', value ?? ''), key);
    await weigh(page, figures);
    await page.waitForSelector('.done');
    expect(new URL(page.url()).searchParams.get('done')).toBe(new URL(first).searchParams.get('done'));
  });

  test('a weight that no truck has is asked about, and a sample that is needed is asked for', async () => {
    const { page } = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address, scripts });
    await page.goto('/loads/new');
    const figures = { ticket: `${mark}4`, gross: '7664000', tare: '30000', delivered_at: '2026-11-05T23:30' };
    await weigh(page, figures);
    await page.waitForSelector('text=Sample must be named');
    await weigh(page, { sample: `${mark}-A` });
    await page.waitForSelector('text=which no usual truck does');
    await weigh(page, { gross: '76640' });
    await page.waitForSelector('.done');
    expect(await page.locator('.done').textContent()).toContain('46,640 lb');
  });

  test('in the hour that comes twice the form asks which; the hour left out never was', async () => {
    const { page } = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address, scripts });
    await page.goto('/loads/new');
    const figures = { ticket: `${mark}3`, gross: '70000', tare: '30000', sample: `${mark}-A` };
    await weigh(page, { ...figures, delivered_at: '2027-03-14T02:30' });
    await page.waitForSelector('.refused');
    expect(await page.locator('.refused').textContent()).toContain('never was');
    await weigh(page, { delivered_at: '2026-11-01T01:30' });
    await page.waitForSelector('text=01:30 came twice that night');
    await page.getByLabel('The second, after they went back (UTC−07:00)').check();
    await page.getByRole('button', { name: 'Record this load' }).click();
    await page.waitForSelector('.done');
    expect(await page.locator('.done').textContent()).toContain('at 2026-11-01 01:30');
    await page.goto(await findLoad(page, '1128'));
    // Recorded with -06:00 at 01:12 the same night, an hour and more before.
    const around = await page.request.get('/api/v1/loads');
    const { loads } = (await around.json()) as { loads: { ticket: string }[] };
    const tickets = loads.map(({ ticket }) => ticket);
    expect(tickets.indexOf(`${mark}3`)).toBeLessThan(tickets.indexOf('1128'));
  });
});

test('a result comes in and the load is settled from it', async () => {
  const { page, complaints } = await browseAs(browser, { side: 'dairy', role: 'bookkeeper' }, { address });
  const path = await findLoad(page, '1145');
  await page.goto(path);
  expect(await page.locator('.standing').textContent()).toContain('Not settled yet');
  await page.getByRole('link', { name: 'Enter the result' }).click();
  await page.waitForURL('**/results/new?**');
  await page.getByLabel('dry matter', { exact: true }).check();
  await page.fill('[name=dry_matter]', '61.2');
  await page.fill('[name=starch]', '60,6');
  await page.fill('[name=ndf]', '21.9');
  await page.getByRole('button', { name: 'Record this result' }).click();
  await page.waitForSelector('.refused');
  expect(await page.locator('.refused').textContent()).toContain('Starch must be a percentage from 0 to 100');
  expect(await page.getByLabel('dry matter', { exact: true }).isChecked()).toBe(true);
  await page.fill('[name=starch]', '60.6');
  await page.getByRole('button', { name: 'Record this result' }).click();
  await page.waitForSelector('.told');
  expect(await page.locator('.told').textContent()).toMatch(/^The result of sample \S+ is recorded\./);

  await page.goto('/loads');
  await page.getByRole('button', { name: /^Settle/ }).click();
  await page.waitForSelector('.told');
  expect(await page.locator('.told').textContent()).toMatch(/loads? settled\./);
  await page.goto(path);
  expect(await page.locator('.standing').textContent()).toMatch(
    /^Settled: Tarn Hollow Dairy owes Quillback Acres/,
  );
  expect(complaints).toEqual([]);
});

test('what an address claims was done is not believed', async () => {
  const { page } = await browseAs(browser, { side: 'dairy', role: 'viewer' }, { address });
  await page.goto('/loads?told=Everything%20is%20paid.&seal=x');
  expect(await page.locator('main').textContent()).not.toContain('Everything is paid.');
});

test('signing out elsewhere ends the other browsers at once', async () => {
  const person = { side: 'dairy', role: 'viewer' } as const;
  const [here, there] = [
    await browseAs(browser, person, { address }),
    await browseAs(browser, person, { address }),
  ];
  await here.page.goto('/people');
  await here.page.getByRole('button', { name: 'Sign out everywhere else' }).click();
  await here.page.waitForSelector('.told');
  await there.page.goto('/loads');
  await there.page.waitForURL('**/sign-in?**');
  expect((await here.page.goto('/loads'))?.url()).toMatch(/\/loads$/);
});
