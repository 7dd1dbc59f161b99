/**
 * The closing statement as PDF: it says how far the signing has come, and once sealed is the same for both parties whatever
 * happens later, with the root and the mark that anybody works out from the season's file.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { checkSeasonFile } from '../../src/documents/season-file/check-season-file.ts';
import { readFonts } from '../../src/files/read-fonts.ts';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { exportSeason } from '../../src/usecases/season-close/export-season.ts';
import { printClose } from '../../src/usecases/season-close/print-close.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { squeezed } from '../documents/agreement-text.ts';
import { hasPdftotext, pageTexts } from '../documents/pdf-text.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let fonts: Awaited<ReturnType<typeof readFonts>>;
beforeAll(async () => {
  fonts = await readFonts();
  record = await openTestRecord();
});
afterAll(() => record.close());

/** What both parties print, which must be the same; its text without blanks, or undefined where that cannot be read. */
async function paperOf({ seller, buyer, agreementId }: MoneyWorld) {
  const [one, other] = [
    await printClose(seller, { agreementId, fonts }),
    await printClose(buyer, { agreementId, fonts }),
  ];
  expect(Buffer.from(one.bytes).equals(Buffer.from(other.bytes))).toBe(true);
  expect(one.name).toBe(other.name);
  return { ...one, text: hasPdftotext ? squeezed(pageTexts(one.bytes).join(' ')) : undefined };
}

function expectSaid(text: string | undefined, wanted: readonly string[]): void {
  if (text === undefined) return;
  for (const sentence of wanted) expect(text).toContain(squeezed(sentence));
}

async function delivered(): Promise<MoneyWorld> {
  const world = await moneyWorld(record);
  await world.deliver({ T1: '10', T2: '12' }, '2026-11-20');
  return world;
}

test('a season prints as it stands, signed by one, gone on, and sealed', async () => {
  const world = await delivered();
  const { agreementId, seller, buyer } = world;
  const open = await paperOf(world);
  expect(open.name).toMatch(/^Closing-statement-.+-not-sealed$/);
  expectSaid(open.text, [
    'NOT SIGNED BY ANYBODY',
    '2 loads have settled and are not invoiced.',
    'nobody has signed it',
  ]);

  await world.invoice();
  await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  const signed = await paperOf(world);
  expectSaid(signed.text, ['NOT SEALED YET', 'Wren Alder', 'Carried over by signing', 'owes 2,200.00 USD.']);

  // What the seller signed is no longer what the paper shows: its name must not stand under other figures.
  await recordLoads(seller, {
    agreementId,
    confirmed: true,
    loads: [
      { ticket: 'T3', delivered_at: '2026-11-21T09:00:00-07:00', gross: '50000', tare: '30000', unit: 'lb' },
    ],
  });
  const goneOn = await paperOf(world);
  expectSaid(goneOn.text, ['NOT SIGNED BY ANYBODY', 'Loads not settled 1']);
  if (goneOn.text !== undefined) expect(goneOn.text).not.toContain('WrenAlder');

  const again = await proposeClose(buyer, { agreementId, carriesOver: true, name: 'Juniper Marsh' });
  await signClose(seller, { ...again, name: 'Wren Alder' });
  const sealed = await paperOf(world);
  expect(sealed.name).not.toContain('not-sealed');
  const { season, faults } = checkSeasonFile((await exportSeason(buyer, { agreementId })).text);
  expect(faults).toEqual([]);
  expectSaid(sealed.text, [
    'Wren Alder',
    'Juniper Marsh',
    'Carried over One load has not settled',
    again.fingerprint,
  ]);
  // Each hash stands in two lines of the box; the mark also whole at the foot.
  for (const hash of [season?.root ?? '', season?.mark ?? '']) {
    expectSaid(sealed.text, [hash.slice(0, 32), hash.slice(32)]);
  }
  expectSaid(sealed.text, [`Mark ${season?.mark}`]);

  world.on('2027-03-01');
  expect(Buffer.from((await paperOf(world)).bytes).equals(Buffer.from(sealed.bytes))).toBe(true);
});

test('an adviser, a stranger and a guess get a refusal', async () => {
  const { agreementId, buyer } = await delivered();
  const as = async (name: string): Promise<Context> => ({
    ...buyer,
    caller: await newParty(record.tools, name),
  });
  const practice = await as('Row and Husk Advice');
  await acceptShare(practice, await askAdviser(buyer, { agreementId }));
  expect(await refused(printClose(practice, { agreementId, fonts }))).toBe('not-found');
  expect(await refused(printClose(await as('Sorrel Bend Dairy'), { agreementId, fonts }))).toBe('not-found');
  expect(await refused(printClose(buyer, { agreementId: 'A-1', fonts }))).toBe('not-found');
});
