/**
 * The first run, on a record that has nobody; then inviting, joining, and leaving. With scripts and without.
 */
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launch, newBrowsing } from './browsers.ts';
import { newDataFolder, type Program, startProgram } from './program.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function onNewRecord(work: (program: Program, folder: string) => Promise<void>): Promise<void> {
  const folder = await newDataFolder();
  try {
    const program = await startProgram(folder.path);
    try {
      await work(program, folder.path);
    } finally {
      await program.stop();
    }
  } finally {
    await folder.remove();
  }
}

test.each([true, false])('somebody begins a record, invites and leaves (scripts: %s)', async (scripts) => {
  await onNewRecord(async ({ address }, folder) => {
    const ana = await newBrowsing(browser, { address, scripts });
    await ana.page.goto('/loads');
    await ana.page.waitForURL('**/welcome');

    await ana.page.fill('[name=name]', 'Ana');
    await ana.page.fill('[name=party]', 'Quillback Acres');
    await ana.page.fill('[name=email]', 'ana@example.org');
    await ana.page.fill('[name=password]', 'short');
    await ana.page.click('main button[type=submit]');
    await ana.page.waitForSelector('.refused');
    expect(await ana.page.locator('.refused').textContent()).toContain(
      'Password must have 10 to 200 characters',
    );
    expect(await ana.page.inputValue('[name=party]')).toBe('Quillback Acres');
    expect(await ana.page.inputValue('[name=password]')).toBe('');
    await ana.page.fill('[name=password]', 'wet corn in the wind');
    await ana.page.click('main button[type=submit]');
    await ana.page.waitForURL('**/loads');
    expect(await ana.page.locator('main').textContent()).toContain('There is no agreement here yet');

    // Nobody else can be the first any more, and the secret is its owner's alone.
    const late = await newBrowsing(browser, { address, scripts });
    await late.page.goto('/welcome');
    await late.page.waitForURL('**/sign-in');
    expect((await stat(join(folder, 'session-secret'))).mode & 0o777).toBe(0o600);

    await ana.page.goto('/people');
    await ana.page.fill('[name=party]', 'Tarn Hollow Dairy');
    await ana.page.getByRole('button', { name: 'Make their invitation' }).click();
    await ana.page.waitForSelector('.told .link-shown');
    const link = (await ana.page.locator('.told .link-shown').textContent()) ?? '';
    expect(link).toMatch(new RegExp(`^${address}/join/[A-Za-z0-9_-]{43}$`));

    await late.page.goto(link);
    expect(await late.page.locator('h1').textContent()).toBe('Join Tarn Hollow Dairy');
    await late.page.fill('[name=name]', 'Ben');
    await late.page.fill('[name=email]', 'ben@example.org');
    await late.page.fill('[name=password]', 'cows before breakfast');
    await late.page.click('main button[type=submit]');
    await late.page.waitForURL('**/loads');
    expect(await late.page.locator('.who-name').textContent()).toBe('Tarn Hollow Dairy');

    await ana.page.getByRole('link', { name: 'Record the agreement with Tarn Hollow Dairy' }).click();
    await ana.page.waitForURL('**/agreements/new?**');
    await ana.page.setInputFiles('[name=file]', 'demo/bushels-dry/agreement.json');
    await ana.page.click('main button[type=submit]');
    await ana.page.waitForSelector('.refused');
    expect(await ana.page.locator('.refused').textContent()).toContain('one of them must be Quillback Acres');
    await ana.page.setInputFiles('[name=file]', 'demo/quillback-tarn-hollow/agreement.json');
    await ana.page.click('main button[type=submit]');
    await ana.page.waitForSelector('text=Agreement A-26-014');
    await late.page.goto('/agreements');
    expect(await late.page.locator('main').textContent()).toContain(
      'A-26-014, Quillback Acres to Tarn Hollow Dairy',
    );

    await ana.page.goto(link);
    expect(await ana.page.locator('h1').textContent()).toBe('This invitation is over');

    // Somebody joins and leaves again: from the next page on nothing is there for them.
    await ana.page.goto('/people');
    await ana.page.getByLabel('Viewer: reads only').check();
    await ana.page.getByRole('button', { name: 'Make an invitation' }).click();
    await ana.page.waitForSelector('.told .link-shown');
    const cleo = await newBrowsing(browser, { address, scripts });
    await cleo.page.goto((await ana.page.locator('.told .link-shown').textContent()) ?? '');
    await cleo.page.fill('[name=name]', 'Cleo');
    await cleo.page.fill('[name=email]', 'cleo@example.org');
    await cleo.page.fill('[name=password]', 'rain on the bunker');
    await cleo.page.click('main button[type=submit]');
    await cleo.page.waitForURL('**/loads');
    await ana.page.goto('/people');
    await ana.page.locator('.members li', { hasText: 'Cleo' }).locator('summary').click();
    await ana.page.getByRole('button', { name: 'End Cleo’s part' }).click();
    await ana.page.waitForSelector('text=Cleo, viewer', { state: 'detached' });
    const shut = await cleo.page.goto('/loads');
    expect(shut?.status()).toBe(403);
    // Next leaves the words of a refused page to the browser's scripts.
    if (scripts) await cleo.page.waitForSelector('text=You are in no party here');

    await late.page.click('.who summary');
    await late.page.getByRole('button', { name: 'Sign out' }).click();
    await late.page.waitForURL('**/sign-in');
    await late.page.goto('/loads');
    await late.page.waitForURL('**/sign-in?back=%2Floads');
    expect([...ana.complaints, ...late.complaints]).toEqual([]);
  });
});
