/**
 * The story of demo/paid-by-week on a fresh record: the statements of both sides are those in `demo/expected`, byte for
 * byte, and every figure in those files is the one that `tests/oracle/paid-by-week.ts` works out without the product.
 */
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asOn, type PlayedStory, playStory } from '../../demo/play-story.ts';
import { WrongUse } from '../../src/cli/exit-status.ts';
import { statementCsv } from '../../src/documents/statement/statement-csv.ts';
import type { Statement } from '../../src/domain/money/statement.ts';
import type { Caller } from '../../src/usecases/context.ts';
import { readStatements } from '../../src/usecases/money/read-statement.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import {
  AGEING,
  CLOSING,
  ENTRIES,
  HELD,
  NOT_INVOICED,
  OPEN,
  PRICES,
  SETTLED,
} from '../oracle/paid-by-week.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

const FOLDER = 'demo/paid-by-week';

let record: TestRecord;
let seller: Caller;
let buyer: Caller;
let played: PlayedStory;
beforeAll(async () => {
  record = await openTestRecord();
  seller = await newParty(record.tools, 'Quillback Acres');
  buyer = await newParty(record.tools, 'Tarn Hollow Dairy');
  played = await playStory(record.tools, { folder: FOLDER, seller, buyer });
}, 120_000);
afterAll(async () => {
  await record.close();
});

async function statement(
  side: 'seller' | 'buyer',
  days: { from?: string; to?: string } = {},
): Promise<Statement> {
  const [caller, partner] = side === 'seller' ? [seller, buyer] : [buyer, seller];
  const context = asOn(record.tools, caller, { day: played.to, nth: 1000 });
  const [only, ...others] = await readStatements(context, { partnerId: partner.partyId, ...days });
  if (!only || others.length > 0) throw new Error('There is one statement, in one currency');
  return only;
}

/** Cents of a decimal with two places. */
function cents(text: string): bigint {
  expect(text).toMatch(/^-?\d+\.\d\d$/);
  return BigInt(text.replace('.', ''));
}

/** The rows of an expected file by section, cells by column; no cell of these files holds a quote. */
async function expectedRows(side: 'seller' | 'buyer') {
  const text = await readFile(`demo/expected/paid-by-week-${side}.csv`, 'utf8');
  const [header = [], ...rows] = text
    .trimEnd()
    .split('\r\n')
    .map((row) =>
      [...row.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g)].map(([, quoted, plain]) => quoted ?? plain ?? ''),
    );
  const cells = rows.map((row) =>
    Object.fromEntries(header.map((column, index) => [column, row[index] ?? ''])),
  );
  return (section: string) =>
    cells.filter((row) => row['section'] === section) as readonly Record<string, string>[];
}

describe('the expected statements hold the figures that were worked out by hand', () => {
  test.each([['seller', 1n] as const, ['buyer', -1n] as const])('of the %s', async (side, sign) => {
    const section = await expectedRows(side);
    const figure = (row: Record<string, string> | undefined, column: string) =>
      sign * cents(row?.[column] ?? 'missing');

    let balance = 0n;
    const entries = ENTRIES.map(([day, name, change]) => {
      balance += change;
      return [day, name, change, balance];
    });
    expect(
      section('entry').map((row) => [
        row['date'],
        row['name'],
        figure(row, 'amount'),
        figure(row, 'balance'),
      ]),
    ).toEqual(entries);
    expect(balance).toBe(CLOSING);
    expect(figure(section('opening')[0], 'balance')).toBe(0n);
    expect(figure(section('closing')[0], 'balance')).toBe(CLOSING);

    expect(section('open').map((row) => [row['name'], figure(row, 'amount'), figure(row, 'open')])).toEqual(
      OPEN,
    );
    expect(section('open').reduce((sum, row) => sum + figure(row, 'open'), 0n)).toBe(CLOSING);
    expect(section('open').map((row) => row['days_late'])).toEqual(['4', '0', '0', '1', '0']);

    const { notDue, days1to30, held, onAccount } = AGEING;
    expect(section('ageing').map((row) => figure(row, 'open'))).toEqual([
      notDue,
      days1to30,
      0n,
      0n,
      0n,
      held,
      onAccount,
      CLOSING,
    ]);
    expect(notDue + days1to30 + held + onAccount).toBe(CLOSING);

    expect(section('held').map((row) => [row['ticket'], figure(row, 'held')])).toEqual([['717', HELD]]);
    expect(section('not invoiced').map((row) => [row['loads'], figure(row, 'amount')])).toEqual([
      ['1', NOT_INVOICED.settled],
      ['3', NOT_INVOICED.provisional],
      ['', NOT_INVOICED.advances],
    ]);
    expect(section('lien').map((row) => row['party'])).toEqual(['Fallow Creek Credit']);
  });

  test('what is paid settles what it is for to the cent', () => {
    for (const [name, left] of SETTLED) expect([name, left]).toEqual([name, 0n]);
  });

  test('each load is priced as demo/expected/paid-by-week.csv has it', async () => {
    const rows = (await readFile('demo/expected/paid-by-week.csv', 'utf8'))
      .trimEnd()
      .split('\n')
      .slice(1, -1);
    const settled = rows.map((row) => row.split(',')).filter(([, status]) => status === 'settled');
    expect(settled.map(([ticket, , , total]) => [ticket, cents(total ?? '')])).toEqual([...PRICES]);
  });
});

test('the example in README.md stands in the story and in the seller’s statement', async () => {
  const readme = await readFile('README.md', 'utf8');
  const example = /```\n(2026-09-29 {2}Quillback[^`]*)```/.exec(readme)?.[1] ?? '';
  const [told = '', stated = ''] = example.trimEnd().split('\n\n');
  const story = (await readFile(`${FOLDER}/money.txt`, 'utf8')).split('\n');
  expect(told.split('\n').filter((line) => !story.includes(line))).toEqual([]);
  const section = await expectedRows('seller');
  const rows = [...section('entry').slice(-3), ...section('closing')].map((row) =>
    ['date', 'name', 'detail', 'amount', 'balance'].flatMap((column) => row[column] || []).join(' '),
  );
  expect(stated.split('\n').map((line) => line.replaceAll(/ {2,}/g, ' '))).toEqual(rows);
});

describe('the product plays the story', () => {
  test.each(['seller', 'buyer'] as const)(
    'to the expected statement of the %s, byte for byte',
    async (side) => {
      const expected = await readFile(`demo/expected/paid-by-week-${side}.csv`, 'utf8');
      expect(statementCsv(await statement(side))).toBe(expected);
    },
  );

  test('and each side’s statement is the other’s with every sign turned', async () => {
    const [sellers, buyers] = [await statement('seller'), await statement('buyer')];
    expect(signsTurned(buyers)).toEqual({ ...sellers, of: buyers.of, with: buyers.with });
    expect([buyers.of, buyers.with]).toEqual([sellers.with, sellers.of]);
  });

  test('and what one period closes with, the next opens with', async () => {
    const whole = await statement('seller');
    for (const [to, from] of [
      ['2026-09-18', '2026-09-19'],
      ['2026-10-05', '2026-10-06'],
    ] as const) {
      const [before, after] = [await statement('seller', { to }), await statement('seller', { from })];
      expect(after.opening).toBe(before.closing);
      expect([...before.entries, ...after.entries]).toEqual(whole.entries);
      // Loads that wait at the end of October are no news of September.
      expect(before.notInvoiced).toEqual([]);
      expect(after.notInvoiced).toEqual(whole.notInvoiced);
      expect(before.open.reduce((sum, { open }) => sum + cents(open), 0n)).toBe(cents(before.closing));
    }
  });

  test('once, however often it is played', async () => {
    const before = statementCsv(await statement('seller'));
    expect(await playStory(record.tools, { folder: FOLDER, seller, buyer })).toEqual(played);
    expect(statementCsv(await statement('seller'))).toBe(before);
  }, 60_000);

  test.each([
    ['Quillback Acres confirms check 9', 'There is no check 9 in the story so far.'],
    ['Tarn Hollow Dairy gives advances', 'By your agreement Quillback Acres issues the invoices.'],
    ['Quillback Acres gives cake', '"gives cake" is none of the things that a story tells'],
  ])('or says at which line it cannot: %s', async (said, why) => {
    const folder = await mkdtemp(join(tmpdir(), 'huskledger-story-'));
    await cp(FOLDER, folder, { recursive: true });
    await writeFile(join(folder, 'money.txt'), `# a remark\n2026-10-30  ${said}\n`);
    const refusal = await playStory(record.tools, { folder, seller, buyer }).catch((error: Error) => error);
    await rm(folder, { recursive: true });
    expect(refusal).toBeInstanceOf(WrongUse);
    expect((refusal as Error).message).toContain(`money.txt line 2: ${why}`);
  });

  test('and leaves nothing that verify finds', async () => {
    const { settlements, faults } = await verifyRecord(record.tools);
    expect(faults).toEqual([]);
    // 19 loads, and 712 settled a second time.
    expect(settlements).toBe(20);
  });
});

/** Every amount with its sign turned; all else as it is. */
function signsTurned(value: unknown): unknown {
  if (typeof value === 'string' && /^-?\d+\.\d\d$/.test(value)) {
    return value.startsWith('-') ? value.slice(1) : /[1-9]/.test(value) ? `-${value}` : value;
  }
  if (Array.isArray(value)) return value.map(signsTurned);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, signsTurned(part)]));
}
