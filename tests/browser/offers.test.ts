/**
 * From a posted lot to a signed agreement, as people do it: three dairies offer, two versions go to and fro, both sides
 * sign one, the others learn it neutrally, and the paper says what the page says.
 */
import { createHash } from 'node:crypto';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { paperText, squeezed } from '../documents/agreement-text.ts';
import { attachedFiles, hasPdftotext } from '../documents/pdf-text.ts';
import { LOT } from '../usecases/bargain.ts';
import { type Browsing, browseAs, launch } from './browsers.ts';
import { newDataFolder, type Program, startProgram } from './program.ts';
import { fillPeople, PARTIES, PASSWORD, type Side } from './season-record.ts';

/** What each dairy writes beside its offer, and nobody else may read. */
const MESSAGES = {
  dairy: 'We can take it at night, says the dairy.',
  rival: 'Sorrel Bend pays within a week.',
  neighbour: 'Fernway has three empty bunkers.',
} as const;
type Bidder = keyof typeof MESSAGES;
const BIDDERS: readonly Bidder[] = ['dairy', 'rival', 'neighbour'];

let browser: Browser;
let program: Program;
let folder: Awaited<ReturnType<typeof newDataFolder>>;
const people = new Map<Side, Browsing>();

beforeAll(async () => {
  browser = await launch();
  folder = await newDataFolder();
  await fillPeople(folder.path);
  program = await startProgram(folder.path);
  const { address } = program;
  for (const side of ['grower', ...BIDDERS] as const) {
    people.set(side, await browseAs(browser, { side, role: 'owner' }, { address }));
  }
});
afterAll(async () => {
  await browser.close();
  await program.stop();
  await folder.remove();
});

function browsing(side: Side): Browsing {
  const found = people.get(side);
  if (!found) throw new Error(`${side} has not signed in`);
  return found;
}

const pageOf = (side: Side) => browsing(side).page;
const mainOf = async (side: Side) => (await pageOf(side).locator('main').textContent()) ?? '';

/** Posts through the addresses for programs, which the pages of lots stand beside. */
async function postLot(): Promise<string> {
  const { context } = browsing('grower');
  const until = new Date(Date.now() + 40 * 86_400_000).toISOString().slice(0, 10);
  const drafted = await context.request.post('/api/v1/lots', {
    data: { document: { ...LOT, until }, address: '4 Teasel Lane' },
  });
  expect(drafted.status()).toBe(200);
  const { lotId } = (await drafted.json()) as { lotId: string };
  const posted = await context.request.post(`/api/v1/lots/${lotId}/posting`, {
    data: { audience: 'everyone' },
  });
  expect(posted.status()).toBe(200);
  return lotId;
}

/** Writes a line for hauling at night into the file's text, or another rate for it. */
async function payForNights(side: Side, rate: string): Promise<void> {
  const page = pageOf(side);
  await page.locator('#formula-file > summary').click();
  const text = page.locator('#formula-text');
  const document = JSON.parse(await text.inputValue()) as { price: { label: string }[] };
  const label = 'Night hauling';
  const line = { term: 'flat', label, rate, per: 'short-ton', weight: 'as-fed' };
  document.price = [...document.price.filter((term) => term.label !== label), line];
  await text.fill(JSON.stringify(document, null, 2));
}

async function offer(side: Bidder, lotId: string): Promise<string> {
  const page = pageOf(side);
  await page.goto(`/lots/${lotId}`);
  await page.getByRole('link', { name: 'Make an offer' }).click();
  await page.waitForURL('**/offer');
  await page.fill('[name=message]', MESSAGES[side]);
  if (side === 'rival') await payForNights(side, '1.50');
  await page.getByRole('button', { name: `Send this offer to ${PARTIES.grower}` }).click();
  await page.waitForURL('**/offers/*');
  expect(await page.locator('.told').textContent()).toContain('Your offer is sent.');
  return new URL(page.url()).pathname;
}

/** Sends the next version from the offer's own page. */
async function counter(side: Side, path: string, { rate, message }: { rate: string; message: string }) {
  const page = pageOf(side);
  await page.goto(path);
  await page.getByRole('link', { name: 'Answer with other terms' }).click();
  await page.waitForURL('**/counter');
  await page.fill('[name=message]', message);
  await payForNights(side, rate);
  await page.getByRole('button', { name: /^Send version \d to / }).click();
  await page.waitForURL(({ pathname }) => pathname === path);
}

async function sign(side: Side, path: string, name: string): Promise<void> {
  const page = pageOf(side);
  await page.goto(path);
  await page.getByRole('link', { name: /^Read it all and sign/ }).click();
  await page.waitForURL('**/sign');
  await page.fill('[name=name]', name);
  await page.fill('[name=password]', 'not the password at all');
  await page.getByRole('button', { name: /^Sign version/ }).click();
  await page.waitForSelector('.refused');
  expect(await page.locator('.refused').textContent()).toContain('Nothing was signed');
  await page.fill('[name=password]', PASSWORD);
  await page.getByRole('button', { name: /^Sign version/ }).click();
  await page.waitForURL(({ pathname }) => !pathname.endsWith('/sign'));
}

test('three dairies bargain for a lot, and one and the seller sign', async () => {
  const lotId = await postLot();
  const paths = new Map<Bidder, string>();
  for (const side of BIDDERS) paths.set(side, await offer(side, lotId));
  const path = paths.get('dairy') ?? '';

  // The seller sees them beside one another, each buyer its own alone.
  await pageOf('grower').goto('/offers');
  const heads = await pageOf('grower').locator('.beside-offers thead a').allTextContents();
  expect([...heads].sort()).toEqual(BIDDERS.map((side) => PARTIES[side]).sort());
  const paid = await pageOf('grower').locator('.beside-offers td.figure strong').allTextContents();
  expect(paid).toHaveLength(15);
  expect(new Set(paid.slice(0, 3)).size).toBe(2);
  for (const side of BIDDERS) {
    await pageOf(side).goto('/offers');
    const seen = await mainOf(side);
    expect(seen).toContain('Your offer');
    for (const other of BIDDERS.filter((name) => name !== side)) {
      expect(seen).not.toContain(PARTIES[other]);
      expect((await browsing(side).context.request.get(paths.get(other) ?? '')).status()).toBe(404);
    }
  }

  // To and fro: the page tells what changed in words and in money.
  await counter('grower', path, { rate: '2.25', message: 'Nights are two and a quarter.' });
  await pageOf('dairy').goto(path);
  const told = await mainOf('dairy');
  expect(told).toContain('Nights are two and a quarter.');
  expect(told).toContain('What version 2 changes against version 1');
  expect(await pageOf('dairy').locator('.words-came').first().textContent()).toContain(
    'Night hauling. 2.25 USD is added for each short ton',
  );
  expect(await pageOf('dairy').locator('.example-price', { hasText: 'difference' }).count()).toBe(5);
  await counter('dairy', path, { rate: '1.75', message: 'One seventy-five, and we shake on it.' });

  // One side signs: nothing stands yet.
  await sign('dairy', path, 'Owner of the DAIRY');
  expect(await pageOf('dairy').locator('.standing').first().textContent()).toMatch(
    /^Tarn Hollow Dairy has signed version 3\. It becomes an agreement if Quillback Acres signs the same version by /,
  );
  await sign('grower', path, 'Ana of the grower');
  const agreement = new URL(pageOf('grower').url()).pathname;
  expect(agreement).toMatch(/^\/agreements\//);
  expect(await pageOf('grower').locator('h1').textContent()).toBe('Agreement 1 of Quillback Acres');

  // The others are told what concerns them, and no name.
  for (const side of ['rival', 'neighbour'] as const) {
    await pageOf(side).goto(paths.get(side) ?? '');
    expect(await pageOf(side).locator('.standing').first().textContent()).toBe(
      'Lot 1 of Quillback Acres went to another buyer, so this offer is over.',
    );
    expect(await mainOf(side)).not.toContain(PARTIES.dairy);
    await pageOf(side).goto('/');
    const news = await mainOf(side);
    expect(news).toContain('The lot of Quillback Acres went to another buyer. Your offer is over.');
    expect(news).not.toContain(PARTIES.dairy);
    expect((await browsing(side).context.request.get(agreement)).status()).toBe(404);
    expect((await browsing(side).context.request.get(`${agreement}/paper`)).status()).toBe(404);
  }

  await comparePaper(agreement);
  for (const [side, { complaints }] of people) expect(complaints, side).toEqual([]);
});

/** The page of both, the paper of both, and the file in it say one thing. */
async function comparePaper(agreement: string): Promise<void> {
  const papers: Buffer[] = [];
  const words: string[][] = [];
  for (const side of ['grower', 'dairy'] as const) {
    const { page, context } = browsing(side);
    await page.goto(agreement);
    words.push(await page.locator('.words section p').allTextContents());
    const answer = await context.request.get(`${agreement}/paper`);
    expect(answer.headers()['content-type']).toBe('application/pdf');
    papers.push(await answer.body());
  }
  const [paper = Buffer.alloc(0), other = Buffer.alloc(1)] = papers;
  expect(paper.equals(other)).toBe(true);
  expect(words[0]).toEqual(words[1]);
  expect(words[0]?.length).toBeGreaterThan(10);
  const fingerprint = (await pageOf('dairy').locator('code.fingerprint').first().textContent()) ?? '';
  expect(fingerprint).toMatch(/^[0-9a-f]{64}$/);
  if (!hasPdftotext) return;
  const text = paperText(paper);
  for (const paragraph of words[0] ?? []) expect(text).toContain(squeezed(paragraph));
  expect(text).toContain(squeezed('Night hauling. 1.75 USD is added for each short ton'));
  for (const said of ['Signed by both sides.', 'Ana of the grower', 'Owner of the DAIRY', fingerprint]) {
    expect(text).toContain(squeezed(said));
  }
  const file = attachedFiles(paper).get('agreement.json') ?? Buffer.alloc(0);
  expect(createHash('sha256').update(file).digest('hex')).toBe(fingerprint);
}
