/**
 * `huskledger import` and `huskledger verify`, as whole commands on a data folder of their own.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { openRecord } from '../../src/usecases/open-record.ts';
import { createFirstPerson } from '../../src/usecases/people/create-first-person.ts';
import { seasonWith } from './example-season.ts';
import { folderOf, runCli } from './run-cli.ts';

let dataFolder: string;
const ANA = {
  name: 'Ana',
  email: 'ana@example.org',
  password: 'wet corn in the wind',
  party: 'Quillback Acres',
};

beforeAll(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'huskledger-test-'));
  const record = await openRecord({ databaseUrl: undefined, dataFolder }, process.cwd());
  await createFirstPerson(record, ANA);
  await record.close();
});
afterAll(() => rm(dataFolder, { recursive: true, force: true }));
beforeEach(() => {
  process.env['HUSKLEDGER_DATA'] = dataFolder;
});
afterEach(() => {
  delete process.env['HUSKLEDGER_DATA'];
});

test('a folder with faults records nothing, and lists them as settle does', async () => {
  const folder = await folderOf(seasonWith({ 'loads.csv': 'ticket\nT1\n' }));
  const { said: settling } = await runCli('settle', folder);
  const { status, said, output } = await runCli('import', folder, '--as', ANA.email);
  expect(status).toBe(1);
  expect(output).toBe('');
  expect(said.slice(0, -1)).toEqual(settling.slice(0, -1));
  expect(said.at(-1)).toMatch(/nothing was recorded/);
  expect((await runCli('verify')).output).toBe(
    'Everything fits: 0 agreements, 0 journal entries and 0 settlements.\n',
  );
});

test('a good folder is recorded and settled, once however often it is imported', async () => {
  const folder = await folderOf(seasonWith());
  const first = await runCli('import', folder, '--as', 'Ana@Example.org');
  expect(first.output).toBe('Recorded. 1 loads settled now, 0 refused, 1 waiting.\n');
  expect(first.status).toBe(2);
  expect(first.said.join()).toMatch(/Tarn Hollow Dairy had no place in the record.*\/join\/\S{40,}/);
  const again = await runCli('import', folder, '--as', ANA.email);
  expect(again.output).toBe('Recorded. 0 loads settled now, 0 refused, 1 waiting.\n');
  expect(again.said).toEqual([]);
  // The agreement, two quotes, two loads, a result and a settlement.
  expect((await runCli('verify')).output).toBe(
    'Everything fits: 1 agreement, 7 journal entries and 1 settlement.\n',
  );
});

test('what differs from the record is refused in words', async () => {
  const changed = seasonWith({ 'loads.csv': String(seasonWith()['loads.csv']).replace('78220', '78240') });
  const { status, said } = await runCli('import', await folderOf(changed), '--as', ANA.email);
  expect(status).toBe(1);
  expect(said[0]).toMatch(/^Ticket T1 was recorded before, with gross 78220 and tare 31100 lb/);
});

test('whoever has no part in it is told so', async () => {
  const folder = await folderOf(seasonWith());
  expect((await runCli('import', folder, '--as', 'nobody@example.org')).said[0]).toMatch(/^Nobody here has/);
  expect((await runCli('import', folder)).said[0]).toMatch(/^Say as whom/);
  const agreement = JSON.parse(String(seasonWith()['agreement.json'])) as object;
  const other = seasonWith({ 'agreement.json': JSON.stringify({ ...agreement, seller: 'Oddmeadow Farm' }) });
  expect((await runCli('import', await folderOf(other), '--as', ANA.email)).said[0]).toMatch(
    /^The agreement is between Oddmeadow Farm and Tarn Hollow Dairy; ana@example.org is an owner of Quillback Acres/,
  );
});
