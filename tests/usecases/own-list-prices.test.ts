/**
 * Amounts of an own list that were worked out by the quote of another day, by another load's test, or without taking the
 * water off: each is found with its cause. The planted amounts come from the same season as files, changed in that one place
 * and settled by the command line.
 */
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest';
import type { ListNames } from '../../src/domain/words/matching-words.ts';
import { outcomeInWords } from '../../src/domain/words/matching-words.ts';
import type { Context } from '../../src/usecases/context.ts';
import { keepOwnList } from '../../src/usecases/season-close/keep-own-list.ts';
import { readMatching } from '../../src/usecases/season-close/read-matching.ts';
import { runCli } from '../cli/run-cli.ts';
import { importTogether, newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

const SEASON = 'demo/quillback-tarn-hollow';

let record: TestRecord;
let agreementId: string;
let buyer: Context;
beforeAll(async () => {
  record = await openTestRecord();
  const caller = await newParty(record.tools, 'Tarn Hollow Dairy');
  const seller = await newParty(record.tools, 'Quillback Acres');
  const imported = await importTogether(record.tools, { folder: SEASON, seller, buyer: caller });
  expect(imported.problems).toEqual([]);
  agreementId = imported.agreementId ?? '';
  buyer = { ...record.tools, caller };
});
afterAll(() => record.close());

/** Rows of the season by ticket, with some of its files changed: day, net and amount of each that settles. */
async function settled(changes: Readonly<Record<string, (text: string) => string>>) {
  const folder = await mkdtemp(join(tmpdir(), 'huskledger-prices-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  await cp(SEASON, folder, { recursive: true });
  for (const [name, change] of Object.entries(changes)) {
    const text = await readFile(join(folder, name), 'utf8').catch(() => '');
    expect(change(text)).not.toBe(text);
    await writeFile(join(folder, name), change(text));
  }
  const { output, status } = await runCli('settle', folder, '--csv');
  expect(status).not.toBe(1);
  const [head = [], ...rows] = output
    .trimEnd()
    .split('\r\n')
    .map((row) => row.split(','));
  const at = (name: string) => head.indexOf(name);
  return new Map(
    rows.flatMap((row) => {
      const [ticket = '', day = '', net = '', total = ''] = ['ticket', 'delivered_on', 'net', 'total'].map(
        (name) => row[at(name)],
      );
      return row[at('status')] === 'settled' ? [[ticket, { day, net, total }]] : [];
    }),
  );
}

const NAMES: ListNames = { mine: 'your list', record: 'the record', load: () => 'a load', currency: 'USD' };

test('each amount that comes from another figure is told with that figure', async () => {
  const asAgreed = await settled({});
  const byDay = await settled({
    'loads.csv': (text) => text.replace(/^1001,2026-10-12/m, '1001,2026-10-15'),
  });
  const byTest = await settled({ 'loads.csv': (text) => text.replace(/^(1002,.*),S-1002,/m, '$1,S-1010,') });
  const asFed = await settled({
    'samples.csv': (text) => text.replace(/^S-1003,dry-matter,53\.62/m, 'S-1003,dry-matter,100'),
    'choices.csv': (text) => `${text === '' ? 'ticket,choice\n' : text}1003,accept\n`,
  });
  const planted: Readonly<Record<string, string | undefined>> = {
    '1001': byDay.get('1001')?.total,
    '1002': byTest.get('1002')?.total,
    '1003': asFed.get('1003')?.total,
    // No figure of the season gives this one.
    '1004': '12.34',
  };
  // One scale of the season weighs in kg; this list is in pounds.
  const inPounds = [...asAgreed].filter(([ticket]) => !ticket.startsWith('K'));
  const rows = inPounds.map(([ticket, { day, net, total }]) => {
    const amount = planted[ticket] ?? total;
    if (ticket in planted) expect(amount).not.toBe(total);
    return `${ticket},${day},${net},${amount}`;
  });
  await keepOwnList(buyer, {
    agreementId,
    fileName: 'books.csv',
    bytes: new TextEncoder().encode(`Ticket,Day,Net,Amount\n${rows.join('\n')}\n`),
    match: {
      kind: 'own-loads',
      columns: {
        ticket: { column: 0 },
        date: { column: 1 },
        net: { column: 2 },
        amount: { column: 3 },
        unit: { constant: 'lb' },
      },
      dateOrder: 'year-first',
      decimalMark: '.',
      timeOffset: 'agreement',
    },
  });
  const matching = await readMatching(buyer, { agreementId });
  const told = new Map(
    (matching?.open ?? []).flatMap((outcome) =>
      outcome.kind === 'pair' ? [[outcome.record.ticket, outcomeInWords(outcome, NAMES).join(' ')]] : [],
    ),
  );
  expect([...told.keys()].sort()).toEqual(Object.keys(planted));
  expect(told.get('1001')).toContain('used the quote of 15 October');
  expect(told.get('1002')).toContain('used another test (sample S-1010)');
  expect(told.get('1003')).toContain('reckoned with the weight as fed');
  const last = matching?.open.find((one) => one.kind === 'pair' && one.record.ticket === '1004');
  expect(last).toMatchObject({ differences: [{ aspect: 'amount', causes: [] }] });
});
