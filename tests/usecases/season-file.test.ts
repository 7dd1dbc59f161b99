/**
 * The file of a sealed season, and `huskledger check-seal`: it fits as it was exported, and fails for any changed byte.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkSeasonFile } from '../../src/documents/season-file/check-season-file.ts';
import { type SeasonFile, seasonFileText } from '../../src/domain/season-close/season-file.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { exportSeason } from '../../src/usecases/season-close/export-season.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { folderOf, runCli } from '../cli/run-cli.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let world: MoneyWorld;
let text: string;

beforeAll(async () => {
  record = await openTestRecord();
  world = await moneyWorld(record);
  const { agreementId, seller, buyer } = world;
  await world.deliver({ T1: '10', T2: '12' }, '2026-11-20');
  await world.invoice();
  await recordPayment(seller, {
    agreementId,
    direction: 'received',
    payment: { amount: '2200', paid_on: '2026-11-24', method: 'check' },
    confirmed: true,
  });
  expect(await refused(exportSeason(seller, { agreementId }))).toBe('not-ready');
  const drawn = await proposeClose(seller, { agreementId, carriesOver: false, name: 'Wren Alder' });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
  ({ text } = await exportSeason(seller, { agreementId }));
});
afterAll(() => record.close());

async function checked(file: string) {
  const folder = await folderOf({ 'season.json': file });
  return await runCli('check-seal', `${folder}/season.json`);
}

describe('the file of a sealed season', () => {
  test('is the same for both, and fits by itself', async () => {
    const { agreementId, buyer } = world;
    expect((await exportSeason(buyer, { agreementId })).text).toBe(text);
    const { status, output, said } = await checked(text);
    expect({ status, said }).toEqual({ status: 0, said: [] });
    expect(output).toMatch(
      /^The seal fits: agreement M-\d+, Quillback Acres \d+ and Tarn Hollow Dairy \d+, \d+ journal entries\.\nSigned by Wren Alder for Quillback Acres \d+ on 2026-11-25 and Juniper Marsh for Tarn Hollow Dairy \d+ on 2026-11-25 \(UTC\)\.\nRoot [0-9a-f]{64}\nMark [0-9a-f]{64}\n$/,
    );
  });

  test('fits no more with any one byte changed, wherever it is', () => {
    const bytes = Buffer.from(text);
    const places = Array.from(bytes.keys()).filter((place) => place % 7 === 0);
    let tried = 0;
    for (const place of places) {
      const was = bytes[place] ?? 0;
      const other = Buffer.from(bytes);
      other[place] = was === 0x61 ? 0x62 : 0x61;
      const { faults } = checkSeasonFile(new TextDecoder().decode(other));
      expect(faults, `byte ${place}`).not.toEqual([]);
      tried++;
    }
    expect(tried).toBeGreaterThan(100);
  });

  test('says what does not fit', async () => {
    const season = JSON.parse(text) as {
      entries: string[];
      signatures: { party: string; name: string; fingerprint: string }[];
      agreements: string[];
    };
    const faultsOf = (change: (file: typeof season) => void) => {
      const copy = structuredClone(season);
      change(copy);
      return checkSeasonFile(seasonFileText(copy as SeasonFile)).faults;
    };
    expect(faultsOf(() => undefined)).toEqual([]);
    expect(faultsOf(({ entries }) => entries.pop())).toContain(
      'The root over the journal is not the seal’s.',
    );
    expect(faultsOf(({ entries }) => entries.splice(1, 1))[0]).toBe(
      'Entry 2 is not the entry of that place.',
    );
    expect(faultsOf(({ entries }) => entries.push(entries[0] ?? ''))[0]).toMatch(
      /^Entry \d+ is not the entry/,
    );
    expect(
      faultsOf(({ entries }) => {
        entries[2] = (entries[2] ?? '').replace('"ticket":"T1"', '"ticket":"T8"').replace('T2', 'T9');
      }),
    ).toContain('The journal’s last fingerprint is not the one that was signed.');
    expect(faultsOf(({ signatures }) => signatures.pop()).join(' ')).toMatch(
      /signature of Tarn Hollow Dairy \d+ is missing/,
    );
    expect(
      faultsOf(({ signatures: [first] }) => {
        if (first) first.fingerprint = '0'.repeat(64);
      }),
    ).toEqual([expect.stringContaining('signed another statement')]);
    expect(
      faultsOf(({ signatures: [first] }) => {
        if (first) first.name = 'Somebody else';
      }),
    ).toEqual(['Who signed when, or over what, is not what the seal’s mark says.']);
    expect(faultsOf(({ agreements }) => agreements.pop())).toContain(
      'The agreement is not the one whose fingerprint was signed.',
    );
    expect(await checked('{}')).toMatchObject({
      status: 1,
      said: [expect.stringContaining('not the file of a sealed season')],
    });
    expect(await checked('nothing')).toMatchObject({ status: 1, said: ['It is no JSON.'] });
    expect((await runCli('check-seal')).status).toBe(1);
  });
});

test('verify names a seal that no longer fits its journal', async () => {
  const client = await record.superuser();
  await client.query('ALTER TABLE season_seal DISABLE TRIGGER ALL');
  await client.query(`UPDATE season_seal SET root = repeat('0', 64)`);
  const { faults } = await verifyRecord(record.tools);
  expect(faults.map(({ message }) => message)).toEqual([
    'is not over the journal that the statement names',
    'does not fit the journal: an entry was changed, added or taken out since both signed',
  ]);
  await client.end();
});
