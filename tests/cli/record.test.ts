/**
 * `huskledger import` and `huskledger verify`, as whole commands on a data folder of their own.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { type OpenRecord, openRecord } from '../../src/usecases/open-record.ts';
import { createFirstPerson } from '../../src/usecases/people/create-first-person.ts';
import { invitePartner } from '../../src/usecases/people/invite.ts';
import { joinParty } from '../../src/usecases/people/join-party.ts';
import { RECORDS_FOLDER } from '../store/records-folder.ts';
import { fillFolder } from '../store/test-record.ts';
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
  dataFolder = await mkdtemp(join(RECORDS_FOLDER, 'huskledger-test-'));
  fillFolder(dataFolder, 'migrated');
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
  expect(first.output).toBe('Recorded. 1 load settled now, 0 refused, 1 waiting.\n');
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
    /^The agreement asks for an owner of Oddmeadow Farm or Tarn Hollow Dairy; ana@example.org is an owner of Quillback Acres/,
  );
});

test('what only the other side decides is passed over, unless they import it too', async () => {
  const choices = 'ticket,choice\nT1,accept\n';
  const loads = String(seasonWith()['loads.csv']).replaceAll('T1,', 'T8,').replaceAll('S1', 'S8');
  const samples = 'sample,basis,dry_matter,starch,ndf\nS8,dry-matter,40,54,31.34\n';
  const agreement = JSON.parse(String(seasonWith()['agreement.json'])) as object;
  const folder = await folderOf(
    seasonWith({
      'agreement.json': JSON.stringify({ ...agreement, id: 'A-26-015' }),
      'loads.csv': loads,
      'samples.csv': samples,
      'choices.csv': choices.replace('T1', 'T8'),
    }),
  );
  const alone = await runCli('import', folder, '--as', ANA.email);
  expect(alone.output).toBe('Recorded. 0 loads settled now, 0 refused, 2 waiting.\n');
  expect(alone.said.join()).toContain(
    'choices.csv: 1 passed over, since these are for Tarn Hollow Dairy to decide',
  );

  const record = await openRecord({ databaseUrl: undefined, dataFolder }, process.cwd());
  const owner = await readPersonOf(record, ANA.email);
  const { secret } = await invitePartner({ ...record, caller: owner }, { party: 'Tarn Hollow Dairy' });
  await joinParty(record, { ...BEN, secret, address: '192.0.2.1' });
  await record.close();
  const both = await runCli('import', folder, '--as', ANA.email, '--and', BEN.email);
  expect(both.said).toEqual([]);
  expect(both.output).toBe('Recorded. 1 load settled now, 0 refused, 1 waiting.\n');
});

const BEN = { name: 'Ben', email: 'ben@example.org', password: 'cows before breakfast' };

async function readPersonOf({ store }: OpenRecord, email: string) {
  const person = await store.atDoor((tx) =>
    tx.person.findUnique({ where: { email }, include: { members: true } }),
  );
  return { personId: person?.id ?? '', partyId: person?.members[0]?.partyId ?? '', role: 'owner' as const };
}
