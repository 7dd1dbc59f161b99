/**
 * `huskledger settle --pdf`: which invoices are written, what can be read back from them, and that nothing is written
 * where something is wrong.
 */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { agreementFingerprint } from '../../src/documents/agreement-fingerprint.ts';
import { hasPdftotext, pageTexts } from '../documents/pdf-text.ts';
import { AGREEMENT, LOADS, SAMPLES, seasonWith } from './example-season.ts';
import { filesIn, folderOf, runCli } from './run-cli.ts';

async function season(files: Readonly<Record<string, string>> = {}): Promise<string> {
  const loads = `${LOADS}T3,2026-09-15T11:00:00-06:00,78000,31000,lb,S1\n`;
  return folderOf(seasonWith({ 'loads.csv': loads, ...files }));
}

async function textOf(path: string): Promise<string> {
  return pageTexts(await readFile(path)).join('\n');
}

describe('settle --pdf', () => {
  test.each([
    ['load', 'Wrote 2 invoices on 2 pages'],
    ['day', 'Wrote 2 invoices on 2 pages'],
    ['season', 'Wrote 1 invoice on 2 pages'],
  ])('writes one file by %s, the same bytes each time', async (by, said) => {
    const folder = await season();
    const out = join(folder, 'invoices.pdf');
    const first = await runCli('settle', folder, '--pdf', out, '--by', by);
    expect(first.said.join()).toContain(said);
    const bytes = await readFile(out);
    await runCli('settle', folder, '--pdf', out, '--by', by);
    expect((await readFile(out)).equals(bytes)).toBe(true);
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    expect(await filesIn(folder)).toEqual([
      'agreement.json',
      'invoices.pdf',
      'loads.csv',
      'prices.csv',
      'samples.csv',
    ]);
  });

  test('writes a file for each invoice into a folder', async () => {
    const folder = await season();
    const out = join(folder, 'invoices 2026');
    await runCli('settle', folder, '--pdf', out);
    expect(await filesIn(out)).toEqual(['A-26-014_T1.pdf', 'A-26-014_T3.pdf']);
  });

  test.skipIf(!hasPdftotext)(
    'can be read back (needs pdftotext): parties, ticket, tests, quote, lines, fingerprint',
    async () => {
      const folder = await season();
      const out = join(folder, 'invoices.pdf');
      await runCli('settle', folder, '--pdf', out, '--issued', '2026-11-30', '--paper', 'a4');
      const text = await textOf(out);
      for (const expected of [
        'Quillback Acres',
        'Tarn Hollow Dairy',
        'A-26-014/T1, drawn up 2026-11-30',
        '2026-09-14 21:40',
        '78,220 lb',
        'corn-elevator-bid',
        '1,815.82',
        '−71.83',
        'USD 1,986.85',
        '47120 lb × 59.2 % × 54 % ÷ 71 % × 4.05 ÷ 56 ÷ 84.5 % = 1815.819546867… → 1815.82 USD',
        agreementFingerprint(AGREEMENT),
        'page 1 of 1',
      ]) {
        expect(text).toContain(expected);
      }
    },
  );

  test.skipIf(!hasPdftotext)(
    'names the waiting loads on the invoice for the season (needs pdftotext)',
    async () => {
      const folder = await season();
      const out = join(folder, 'season.pdf');
      await runCli('settle', folder, '--pdf', out, '--by', 'season');
      expect((await textOf(out)).replace(/\s+/g, ' ')).toContain(
        'Not on this invoice: 1 load. T2 (waits: There is no result of sample S2 yet',
      );
    },
  );

  test('names characters that the font does not have, and writes nothing', async () => {
    const buyer = 'Tarn 🌽 Hollow 乳';
    const folder = await season({ 'agreement.json': JSON.stringify({ ...AGREEMENT, buyer }) });
    const out = join(folder, 'invoices.pdf');
    const { status, output, said } = await runCli('settle', folder, '--pdf', out, '--json');
    expect(status).toBe(1);
    expect(output).toBe('');
    expect(said.join('\n')).toContain('🌽');
    expect(said.join('\n')).toContain('乳');
    expect(await filesIn(folder)).not.toContain('invoices.pdf');
  });

  test('keeps apart the files of tickets whose safe names are the same', async () => {
    const row = (ticket: string) => `${ticket},2026-09-14T21:40:00-06:00,78220,31100,lb,S1`;
    const loads = ['ticket,delivered_at,gross,tare,unit,sample', row('a b'), row('a_b-3'), row('a_b')].join(
      '\n',
    );
    const folder = await season({ 'loads.csv': loads });
    await runCli('settle', folder, '--pdf', join(folder, 'out'));
    expect(await filesIn(join(folder, 'out'))).toHaveLength(3);
  });

  test('writes no file of a folder where one invoice cannot be printed', async () => {
    const row = (ticket: string) => `${ticket},2026-09-14T21:40:00-06:00,78220,31100,lb,S1`;
    const loads = ['ticket,delivered_at,gross,tare,unit,sample', row('T1'), row('乳')].join('\n');
    const folder = await season({ 'loads.csv': loads });
    expect((await runCli('settle', folder, '--pdf', join(folder, 'out'))).status).toBe(1);
    expect(await filesIn(folder)).not.toContain('out');
  });

  test('says why a place cannot be written to, and leaves nothing there', async () => {
    const folder = await season();
    await mkdir(join(folder, 'taken.pdf'));
    const taken = await runCli('settle', folder, '--pdf', join(folder, 'taken.pdf'));
    expect(taken.status).toBe(1);
    expect(taken.said.join()).toContain('taken.pdf cannot be written');
    await writeFile(join(folder, 'a file'), '');
    const under = await runCli('settle', folder, '--pdf', join(folder, 'a file', 'x.pdf'));
    expect(under.status).toBe(1);
    expect((await filesIn(folder)).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  test('says so where no load has settled, and settles as it would without', async () => {
    const folder = await season({ 'samples.csv': SAMPLES.replace('S1', 'S9') });
    const out = join(folder, 'x.pdf');
    const { status, said, output } = await runCli('settle', folder, '--json', '--pdf', out);
    expect(status).toBe(2);
    expect(output).toBe((await runCli('settle', folder, '--json')).output);
    expect(said).toEqual([`No load has settled yet, so no invoice was written to ${out}.`]);
    expect(await filesIn(folder)).not.toContain('x.pdf');
  });

  test('writes nothing where the ticket to explain is not there', async () => {
    const folder = await season();
    const { status } = await runCli('settle', folder, '--explain', 'T9', '--pdf', join(folder, 'x.pdf'));
    expect(status).toBe(1);
    expect(await filesIn(folder)).not.toContain('x.pdf');
  });

  test.each(['no/such/folder', 'no/such/file.pdf'])('makes no way to a place: %s', async (place) => {
    const folder = await season();
    const { status, said } = await runCli('settle', folder, '--pdf', join(folder, place));
    expect(status).toBe(1);
    expect(said.join()).toContain('the folder that it would stand in is not there');
  });

  test('cuts names that are too long for a disk, and keeps them apart', async () => {
    const row = (ticket: string) => `${ticket},2026-09-14T21:40:00-06:00,78220,31100,lb,S1`;
    const long = 'é'.repeat(300);
    const loads = `ticket,delivered_at,gross,tare,unit,sample\n${row(`${long}1`)}\n${row(`${long}2`)}`;
    const folder = await season({ 'loads.csv': loads });
    expect((await runCli('settle', folder, '--pdf', join(folder, 'out'))).status).toBe(0);
    expect(await filesIn(join(folder, 'out'))).toHaveLength(2);
  });
});
