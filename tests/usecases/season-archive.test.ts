/**
 * The archive of a sealed season: it fits as it was saved and fails for any changed byte; what is in it settles again to
 * the same cents, and goes into another record.
 */
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkSeasonArchive, seasonArchive } from '../../src/documents/season-file/season-archive.ts';
import type { Context } from '../../src/usecases/context.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { answerSeasonNote } from '../../src/usecases/season-close/answer-season-note.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { exportSeason } from '../../src/usecases/season-close/export-season.ts';
import { noteDifference } from '../../src/usecases/season-close/put-season-note.ts';
import { runCli } from '../cli/run-cli.ts';
import { importTogether, newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { everySeasonRow } from './every-season-row.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const text = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);

/** A demo season recorded by both, invoiced, closed over what is open, and saved. */
async function sealed(folder: string, count: number) {
  const { tools } = record;
  const seller = await newParty(tools, `Oddmeadow Farm ${count}`);
  const buyer = await newParty(tools, `Lanternfield Dairy ${count}`);
  const { problems, agreementId = '' } = await importTogether(tools, { folder, seller, buyer });
  expect(problems).toEqual([]);
  const [asSeller, asBuyer]: [Context, Context] = [
    { ...tools, caller: seller },
    { ...tools, caller: buyer },
  ];
  await issueInvoices(asSeller, { agreementId });
  const drawn = await proposeClose(asSeller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  await signClose(asBuyer, { ...drawn, name: 'Juniper Marsh' });
  const { text: file } = await exportSeason(asBuyer, { agreementId });
  return { agreementId, seller: asSeller, buyer: asBuyer, file, archive: seasonArchive(file) };
}

async function unpackedFolder(archive: Uint8Array): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'huskledger-archive-'));
  for (const [name, bytes] of Object.entries(unzipSync(archive))) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), bytes);
  }
  return folder;
}

/** The totals that another calculation worked out for a demo season. */
async function workedOut(season: string): Promise<readonly string[]> {
  const [head, ...rows] = (await readFile(`${season.replace('demo/', 'demo/expected/')}.csv`, 'utf8'))
    .trimEnd()
    .split(/\r?\n/)
    .map((row) => row.split(','));
  const at = (name: string) => head?.indexOf(name) ?? -1;
  return rows
    .filter((row) => row[at('status')] === 'settled')
    .map((row) => `${row[at('ticket')]} ${row[at('total')]}`)
    .sort();
}

describe.each([
  ['demo/bushels-dry', 1],
  ['demo/feldmark-metric', 2],
] as const)('the archive of %s', (season, count) => {
  let world: Awaited<ReturnType<typeof sealed>>;
  let folder: string;
  beforeAll(async () => {
    world = await sealed(season, count);
    folder = await unpackedFolder(world.archive);
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test('settles again to the same rows as the season that was recorded', async () => {
    const rowsOf = async (from: string) => {
      const { output, said } = await runCli('settle', from, '--csv');
      expect(said.filter((line) => !line.startsWith('Please check'))).toEqual([]);
      return output.trimEnd().split('\r\n').sort();
    };
    const [again, was] = [await rowsOf(join(folder, 'season')), await rowsOf(season)];
    expect(again).toEqual(was);
    expect(again.length).toBeGreaterThan(5);
  });

  test('has the totals of its journal, to the cent', async () => {
    const totals = text(unzipSync(world.archive)['accounts/settlements.csv'])
      .split('\r\n')
      .filter((row) => row.includes(',settled,total,'))
      .map((row) => row.split(','))
      .map(([ticket, , , , , , , total]) => `${ticket} ${total}`)
      .sort();
    expect(totals).toEqual(await workedOut(season));
    expect(totals.length).toBeGreaterThan(5);
  });

  test('is imported into another record', async () => {
    const other = await openTestRecord();
    try {
      const [seller, buyer] = [await newParty(other.tools, 'Seller'), await newParty(other.tools, 'Buyer')];
      const { problems, agreementId = '' } = await importTogether(other.tools, {
        folder: join(folder, 'season'),
        seller,
        buyer,
      });
      expect(problems).toEqual([]);
      const shown = async (context: Context, id: string) =>
        (await readLoadList(context, { agreementId: id, status: 'all', locale: 'en-US' })).loads
          .map(({ ticket, standing }) => [ticket, standing])
          .sort();
      expect(await shown({ ...other.tools, caller: seller }, agreementId)).toEqual(
        await shown(world.seller, world.agreementId),
      );
    } finally {
      await other.close();
    }
  });

  test('fits by the command, and by the sums in it', async () => {
    const path = join(folder, 'saved.zip');
    await writeFile(path, world.archive);
    expect(await runCli('check-seal', path)).toMatchObject({
      status: 0,
      said: [],
      output: expect.stringMatching(/^The seal fits: agreement /),
    });
    const files = unzipSync(world.archive);
    const sums = text(files['checksums.txt']).trimEnd().split('\n');
    expect(sums.map((line) => line.slice(66)).sort()).toEqual(
      Object.keys(files)
        .filter((name) => name !== 'checksums.txt')
        .sort(),
    );
    const { createHash } = await import('node:crypto');
    for (const line of sums) {
      const bytes = await readFile(join(folder, line.slice(66)));
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(line.slice(0, 64));
    }
  });

  test('fits no more with any one byte changed, wherever it is', () => {
    const { archive } = world;
    const step = Math.max(1, Math.floor(archive.length / 150));
    let tried = 0;
    for (const place of [...Array(40).keys(), ...Array.from({ length: 140 }, (_, nth) => nth * step)]) {
      for (const at of [place, archive.length - 1 - place]) {
        const other = Uint8Array.from(archive);
        other[at] = (other[at] ?? 0) ^ 1;
        expect(checkSeasonArchive(other).faults, `byte ${at}`).not.toEqual([]);
        tried++;
      }
    }
    expect(tried).toBe(360);
  });

  test('says which file does not fit', () => {
    const files = unzipSync(world.archive);
    const with_ = (change: (held: Record<string, Uint8Array>) => void) => {
      const copy = { ...files };
      change(copy);
      return checkSeasonArchive(zipSync(copy, { level: 0 })).faults;
    };
    expect(
      with_((held) => {
        held['season/loads.csv'] = new TextEncoder().encode('ticket\r\n');
      }),
    ).toEqual(['season/loads.csv is not what was exported.']);
    expect(with_((held) => delete held['accounts/payments.csv'])).toEqual([
      'accounts/payments.csv is missing.',
    ]);
    expect(
      with_((held) => {
        held['more.txt'] = new Uint8Array([65]);
      }),
    ).toEqual(['more.txt was not exported.']);
    expect(with_(() => undefined)).toEqual([
      'The zip file is not as it was exported, though all that is in it is.',
    ]);
    expect(with_((held) => delete held['season.json'])).toEqual(['There is no season.json in it.']);
    expect(checkSeasonArchive(new Uint8Array([0x50, 0x4b, 1, 2]))).toMatchObject({
      faults: ['It is no zip file that can be read.'],
    });
  });
});

test('an archive tells of differences left standing and of an earlier season, and has no such tables without them', async () => {
  const { past, next } = await everySeasonRow(record);
  const { agreementId, seller, buyer } = next;
  const before = unzipSync(
    seasonArchive((await exportSeason(buyer, { agreementId: past.agreementId })).text),
  );
  expect(Object.keys(before).filter((name) => name.includes('season-'))).toEqual([]);
  expect(text(before['about.txt'])).not.toContain('season-notes');
  const { noteId } = await noteDifference(seller, { agreementId, amount: '-3', reason: 'Two cents a load' });
  await answerSeasonNote(buyer, { noteId, answer: 'confirmed' });
  await issueInvoices(seller, { agreementId, includeOpenPeriods: true });
  const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
  const archive = seasonArchive((await exportSeason(buyer, { agreementId })).text);
  expect(checkSeasonArchive(archive).faults).toEqual([]);
  const files = unzipSync(archive);
  expect(text(files['about.txt'])).toContain('season-notes');
  expect(text(files['accounts/season-documents.csv']).trimEnd().split('\r\n')).toEqual([
    'number,rule,of_agreement,payable,currency',
    `2,brought-forward,${past.agreementId},2200.00,USD`,
    `3,past-season,${past.agreementId},-85.50,USD`,
  ]);
  const [head, ...rows] = text(files['accounts/season-notes.csv']).trimEnd().split('\r\n');
  expect(head).toBe('kind,put_by,ticket,of_agreement,of_load,amount,reason,answer,answer_reason,document');
  expect(rows.map((row) => row.replace(/[0-9a-f-]{36}/g, 'ID').replace(/ \d+,/, ','))).toEqual([
    'past-season,Tarn Hollow Dairy,,ID,ID,-85.50,The second scale,confirmed,,3',
    'difference,Tarn Hollow Dairy,T3,,,12.00,Tare,refused,It was right,',
    'difference,Quillback Acres,,,,-3.00,Two cents a load,confirmed,,',
  ]);
});
