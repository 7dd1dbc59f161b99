/**
 * Browsers for the tests: each somebody's own, and none may write an error to its console.
 */
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import type { Role } from '../../src/domain/parties/permissions.ts';
import { emailOf, PASSWORD, type Side } from './season-record.ts';

export interface Browsing {
  readonly context: BrowserContext;
  readonly page: Page;
  /** What the console complained of; a page that is refused is no fault. */
  readonly complaints: string[];
}

export async function launch(): Promise<Browser> {
  return await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
}

export interface BrowsingChoice {
  readonly address: string;
  readonly scripts?: boolean;
}

export async function newBrowsing(browser: Browser, choice: BrowsingChoice): Promise<Browsing> {
  const { address, scripts = true } = choice;
  const context = await browser.newContext({
    baseURL: address,
    javaScriptEnabled: scripts,
    locale: 'en-US',
    viewport: { width: 390, height: 844 },
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' && !/status of 40[34]/.test(message.text()))
      complaints.push(message.text());
  });
  return { context, page, complaints };
}

export interface Person {
  readonly side: Side;
  readonly role: Role;
}

/** Signs in by the form. */
export async function signIn(page: Page, { side, role }: Person): Promise<void> {
  await page.goto('/sign-in');
  await page.fill('[name=email]', emailOf(side, role));
  await page.fill('[name=password]', PASSWORD);
  await page.click('main button[type=submit]');
  await page.waitForURL(({ pathname }) => pathname === '/');
}

/** A browser in which somebody is signed in. */
export async function browseAs(browser: Browser, person: Person, choice: BrowsingChoice): Promise<Browsing> {
  const browsing = await newBrowsing(browser, choice);
  await signIn(browsing.page, person);
  return browsing;
}

/** The address of a load by its ticket, from the list. */
export async function findLoad(page: Page, ticket: string): Promise<string> {
  await page.goto('/loads');
  for (;;) {
    const link = page.locator('a.load-ticket', { hasText: new RegExp(`^${ticket}$`) });
    if ((await link.count()) > 0) return (await link.getAttribute('href')) ?? '';
    await page.getByRole('link', { name: 'Older loads' }).click();
    await page.waitForLoadState();
  }
}
