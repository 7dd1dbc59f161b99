/**
 * Links, advice and e-mail as people meet them, on a program of their own with a mail server on this machine: a practice
 * comes by a link, writes, drafts; whoever asked is told by e-mail and reads it. With scripts and without.
 */
import type { AddressInfo } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import { SMTPServer } from 'smtp-server';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Context, Tools } from '../../src/usecases/context.ts';
import { draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { postLot } from '../../src/usecases/lots/post-lot.ts';
import { openRecord } from '../../src/usecases/open-record.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { shareLot } from '../../src/usecases/sharing/share-lot.ts';
import { LOT, newSigner, offered, PASSWORD } from '../usecases/bargain.ts';
import { launch, newBrowsing } from './browsers.ts';
import { newDataFolder, type Program, startProgram } from './program.ts';

const DAIRY = 'Tarn Hollow Dairy';
/** Stands in a note alone. */
const SECRET = 'Never above 59 USD a ton';

let browser: Browser;
let program: Program;
let server: SMTPServer;
let links: readonly string[];
let guestLink: string;
let dairyEmail: string;
let offerId: string;
const letters: { readonly to: readonly string[]; readonly text: string }[] = [];
const stops: (() => Promise<unknown>)[] = [];

beforeAll(async () => {
  browser = await launch();
  server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData: (stream, session, done) => {
      let text = '';
      stream.on('data', (part: Buffer) => {
        text += part.toString('utf8');
      });
      stream.on('end', () => {
        letters.push({ to: session.envelope.rcptTo.map(({ address }) => address), text });
        done();
      });
    },
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const folder = await newDataFolder();
  stops.push(folder.remove);
  const record = await openRecord({ databaseUrl: undefined, dataFolder: folder.path }, process.cwd());
  await fill(record);
  await record.close();
  program = await startProgram(folder.path, {
    HUSKLEDGER_SMTP: `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`,
    HUSKLEDGER_MAIL_FROM: 'ledger@farm.example',
  });
  stops.unshift(program.stop);
});
afterAll(async () => {
  for (const stop of stops) await stop();
  await browser.close();
  await new Promise<void>((resolve) => server.close(() => resolve()));
});

async function fill(tools: Tools): Promise<void> {
  const seller = await newSigner(tools, 'Quillback Acres');
  const dairy: Context = await newSigner(tools, DAIRY);
  const until = new Date(tools.now() + 30 * 86_400_000).toISOString().slice(0, 10);
  const { lotId } = await draftLot(seller, { document: { ...LOT, until } });
  await postLot(seller, { lotId, audience: 'everyone' });
  offerId = await offered(dairy, lotId);
  links = [(await askAdviser(dairy, { offerId })).secret, (await askAdviser(dairy, { offerId })).secret];
  guestLink = (await shareLot(seller, { lotId })).secret;
  const where = { id: dairy.caller.personId };
  ({ email: dairyEmail } = await tools.store.atDoor((tx) => tx.person.findUniqueOrThrow({ where })));
}

async function signInHere(page: Page, email: string, password: string): Promise<void> {
  await page.goto('/sign-in');
  await page.fill('[name=email]', email);
  await page.fill('[name=password]', password);
  await page.click('main button[type=submit]');
  await page.waitForURL(({ pathname }) => pathname === '/');
}

/** Waits until a letter has come that says something. */
async function letterSaying(words: RegExp) {
  for (let tries = 0; tries < 100; tries++) {
    const letter = letters.find(({ text }) => words.test(text));
    if (letter) return letter;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`No letter says ${words}; there are ${letters.map(({ text }) => text).join('\n')}`);
}

test.each([
  [true, 0, 'Row and Husk Advice'],
  [false, 1, 'Second Reading'],
] as const)('a practice comes by a link and advises (scripts: %s)', async (scripts, index, practice) => {
  const nela = await newBrowsing(browser, { address: program.address, scripts });
  const email = `nela-${index}@advice.example`;
  await nela.page.goto(`/come/${links[index]}`);
  expect(await nela.page.locator('h1').textContent()).toBe(
    `${DAIRY} asks for your advice on the offer on lot 1`,
  );
  // Who has not come yet learns nothing more.
  expect(await nela.page.locator('body').textContent()).not.toMatch(/Quillback|Teasel|56 %/);
  await nela.page.fill('[name=party]', practice);
  await nela.page.fill('[name=name]', 'Nela Pruett');
  await nela.page.fill('[name=email]', email);
  await nela.page.fill('[name=password]', 'short');
  await nela.page.click('main button[type=submit]');
  await nela.page.waitForSelector('.refused');
  expect(await nela.page.inputValue('[name=party]')).toBe(practice);
  await nela.page.fill('[name=password]', 'read it twice before breakfast');
  await nela.page.click('main button[type=submit]');
  await nela.page.waitForURL('**/advice/*');
  await nela.page.fill('[name=text]', `${SECRET}.\nAsk for a floor.`);
  await nela.page.getByRole('button', { name: 'Send the note' }).click();
  await nela.page.waitForSelector('.notes');
  expect(await nela.page.locator('.note-text').textContent()).toBe(`${SECRET}.\nAsk for a floor.`);
  const advicePage = new URL(nela.page.url()).pathname;

  await nela.page.getByRole('link', { name: 'Draft terms for' }).click();
  await nela.page.getByRole('button', { name: 'Show this draft' }).click();
  await nela.page.waitForURL('**/drafts/*');

  // Whoever asked is told, without a word of the note.
  const letter = await letterSaying(new RegExp(`Subject: ${practice} wrote a note`));
  expect(letter.to).toEqual([dairyEmail]);
  for (const { text } of letters) expect(text).not.toMatch(/59 USD|floor/);

  const teo = await newBrowsing(browser, { address: program.address, scripts });
  await signInHere(teo.page, dairyEmail, PASSWORD);
  const main = () => teo.page.locator('main').textContent();
  expect(await main()).toContain(`${practice} drafted terms for the offer on lot 1`);
  await teo.page.goto(advicePage);
  expect(await main()).toContain(SECRET);
  await teo.page.getByRole('link', { name: 'read what they change' }).first().click();
  const builder = await teo.page.getByRole('link', { name: 'Open it in the builder' }).getAttribute('href');
  expect(builder).toMatch(new RegExp(`^/offers/${offerId}/counter\\?draft=[0-9a-f-]{36}$`));

  // The other side sees nothing of it, at no address of it.
  await nela.page.goto('/');
  expect(await nela.page.locator('main').textContent()).toContain(`${DAIRY}, on the offer on lot 1`);
  await teo.page.goto('/');
  await teo.page.getByRole('button', { name: /^Mark/ }).click();
  await teo.page.waitForSelector('text=Nothing new.');
  expect(await main()).not.toContain('drafted terms');
  await teo.page.goto(advicePage);
  await teo.page.click('summary:has-text("End the advice")');
  await teo.page.getByRole('button', { name: `End it with ${practice}` }).click();
  await teo.page.waitForSelector('text=This advice has ended');
  expect((await nela.page.goto(`/advice/${advicePage.split('/').at(-1)}/draft`))?.status()).not.toBe(200);
  expect([...nela.complaints, ...teo.complaints].filter((line) => !/40\d/.test(line))).toEqual([]);
});

test('a link works once, and says so', async () => {
  const late = await newBrowsing(browser, { address: program.address });
  await late.page.goto(`/come/${links[0]}`);
  expect(await late.page.locator('h1').textContent()).toBe('This link is over');
  await late.page.goto(`/come/${guestLink}`);
  expect(await late.page.locator('h1').textContent()).toBe('Quillback Acres shows you lot 1');
});

test('a password is changed on the page of people, and e-mail refused', async () => {
  const teo = await newBrowsing(browser, { address: program.address });
  await signInHere(teo.page, dairyEmail, PASSWORD);
  await teo.page.goto('/people');
  await teo.page.fill('[name=present]', 'not mine at all');
  await teo.page.fill('[name=password]', 'another cob entirely');
  await teo.page.getByRole('button', { name: 'Change it' }).click();
  await teo.page.waitForSelector('.refused');
  expect(await teo.page.locator('.refused').textContent()).toContain('is not the one you have now');
  expect(await teo.page.inputValue('[name=present]')).toBe('');
  await teo.page.fill('[name=present]', PASSWORD);
  await teo.page.fill('[name=password]', 'another cob entirely');
  await teo.page.getByRole('button', { name: 'Change it' }).click();
  await teo.page.waitForSelector('.told');
  expect(await teo.page.locator('.told').textContent()).toContain('Your new password counts from now on.');
  await teo.page.getByRole('radio', { name: 'No' }).check();
  await teo.page.getByRole('button', { name: 'Keep this' }).click();
  await teo.page.waitForSelector('text=You get no e-mail from now on.');
  await teo.page.reload();
  expect(await teo.page.getByRole('radio', { name: 'No' }).isChecked()).toBe(true);
  await signInHere(
    (await newBrowsing(browser, { address: program.address })).page,
    dairyEmail,
    'another cob entirely',
  );
});
