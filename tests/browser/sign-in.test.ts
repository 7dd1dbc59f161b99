/**
 * Signing in: by a provider that vouches, with too many wrong tries, and back to the page that was asked for.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, newBrowsing } from './browsers.ts';
import { CLIENT, type Issuer, startIssuer } from './issuer.ts';
import { newDataFolder, type Program, startProgram } from './program.ts';
import { emailOf, fillPeople, PASSWORD } from './season-record.ts';

let browser: Browser;
let issuer: Issuer;
let program: Program;
let folder: Awaited<ReturnType<typeof newDataFolder>>;
beforeAll(async () => {
  [browser, issuer, folder] = await Promise.all([launch(), startIssuer(), newDataFolder()]);
  await fillPeople(folder.path);
  program = await startProgram(folder.path, {
    OIDC_ISSUER: issuer.address,
    OIDC_CLIENT_ID: CLIENT.id,
    OIDC_CLIENT_SECRET: CLIENT.secret,
    OIDC_NAME: 'the co-operative',
  });
});
afterAll(async () => {
  await program.stop();
  await Promise.all([browser.close(), issuer.stop(), folder.remove()]);
});

describe('by a provider', () => {
  const enter = async (back = '/people') => {
    const { page, complaints } = await newBrowsing(browser, { address: program.address });
    await page.goto(`/sign-in?back=${encodeURIComponent(back)}`);
    await page.getByRole('link', { name: 'Sign in with the co-operative' }).click();
    await page.waitForLoadState();
    return { page, complaints };
  };

  test('whoever was invited comes in, to the page that was asked for', async () => {
    issuer.vouchFor({ sub: '17', email: emailOf('dairy', 'bookkeeper'), email_verified: true });
    const { page, complaints } = await enter();
    await page.waitForURL('**/people');
    expect(await page.locator('main').textContent()).toContain('bookkeeper for Tarn Hollow Dairy');
    expect(complaints).toEqual([]);
  });

  test('somebody whom nobody invited does not', async () => {
    issuer.vouchFor({ sub: '18', email: 'passer-by@example.org', email_verified: true });
    const { page } = await enter();
    await page.waitForSelector('.refused');
    expect(await page.locator('.refused').textContent()).toContain('Ask for an invitation first');
    await page.goto('/loads');
    expect(page.url()).toContain('/sign-in');
  });

  test('an address that the provider did not verify counts for nothing', async () => {
    issuer.vouchFor({ sub: '19', email: emailOf('dairy', 'owner'), email_verified: false });
    const { page } = await enter();
    await page.waitForSelector('.refused');
    expect(await page.locator('.refused').textContent()).toContain('does not vouch for your e-mail address');
  });
});

test('after signing in one is where one wanted to be, and never at another site', async () => {
  const { page } = await newBrowsing(browser, { address: program.address });
  const enter = async () => {
    await page.fill('[name=email]', emailOf('grower', 'viewer'));
    await page.fill('[name=password]', PASSWORD);
    await page.click('main button[type=submit]');
  };
  await page.goto('/agreements');
  await page.waitForURL('**/sign-in?back=%2Fagreements');
  await enter();
  await page.waitForURL('**/agreements');
  await page.context().clearCookies();
  await page.goto('/sign-in?back=%2F%2Felsewhere.example%2Floads');
  await enter();
  await page.waitForURL(`${program.address}/`);
});

test('wrong tries are told apart from right ones, say nothing more, and must wait once there were too many', async () => {
  const { page } = await newBrowsing(browser, { address: program.address });
  await page.goto('/sign-in');
  const enter = async (password: string) => {
    await page.fill('[name=email]', emailOf('neighbour', 'viewer'));
    await page.fill('[name=password]', password);
    const answered = page.waitForResponse((response) => response.request().method() === 'POST');
    await page.click('main button[type=submit]');
    await answered;
    await page.waitForSelector('main button[type=submit]:not([disabled])');
    return await page.locator('.refused').textContent();
  };
  for (let tries = 0; tries < 8; tries += 1) {
    expect(await enter('not the password')).toBe('The e-mail address or the password is wrong.');
  }
  expect(await enter(PASSWORD)).toBe('Too many wrong tries. Wait a quarter of an hour, then try again.');
});

test('claiming another network address each time does not help', async () => {
  // Last in this file: from here on nobody at this address can sign in to its program for a while.
  const { page, context } = await newBrowsing(browser, { address: program.address, scripts: false });
  for (let tries = 0; tries <= 40; tries += 1) {
    await context.setExtraHTTPHeaders({
      'x-forwarded-for': `198.51.100.${tries}`,
      'x-huskledger-peer': `198.51.100.${tries}`,
    });
    await page.goto('/sign-in');
    await page.fill('[name=email]', `somebody-${tries}@example.org`);
    await page.fill('[name=password]', 'not the password');
    await page.click('main button[type=submit]');
    await page.waitForSelector('.refused');
  }
  expect(await page.locator('.refused').textContent()).toContain('Too many wrong tries');
});
