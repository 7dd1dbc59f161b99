/**
 * `huskledger words --pdf`: an agreement's file as an unsigned copy on paper.
 */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { agreementFingerprint } from '../../src/documents/agreement-fingerprint.ts';
import { attachedFiles, hasPdftotext, pageTexts } from '../documents/pdf-text.ts';
import { AGREEMENT, seasonWith } from './example-season.ts';
import { filesIn, folderOf, runCli } from './run-cli.ts';

function collapsed(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

describe('words --pdf', () => {
  test('writes the same bytes each time, and nothing on standard output', async () => {
    const folder = await folderOf(seasonWith());
    const out = join(folder, 'agreement.pdf');
    const { status, output, said } = await runCli('words', folder, '--pdf', out);
    expect({ status, output }).toEqual({ status: 0, output: '' });
    expect(said.join('\n')).toMatch(/^Wrote agreement A-26-014, unsigned, on \d pages to .*agreement\.pdf$/);
    const bytes = await readFile(out);
    await runCli('words', join(folder, 'agreement.json'), '--pdf', out);
    expect((await readFile(out)).equals(bytes)).toBe(true);
    expect(await filesIn(folder)).not.toContain('agreement.pdf.part');
  });

  test.skipIf(!hasPdftotext)('says what the words say, unsigned (needs poppler-utils)', async () => {
    // Blanks and line breaks of the file are not part of the agreement.
    const folder = await folderOf(seasonWith());
    const out = join(folder, 'agreement.pdf');
    await runCli('words', folder, '--pdf', out, '--paper', 'a4');
    const bytes = await readFile(out);
    const pages = pageTexts(bytes);
    const text = collapsed(pages.map((page) => page.replace(/^ *(Agreement A-|SHA-256).*$/gm, '')).join(' '));
    const { output } = await runCli('words', folder);
    for (const paragraph of output.split(/\n\n+/).slice(1)) expect(text).toContain(collapsed(paragraph));
    for (const page of pages) expect(page).toContain('Agreement A-26-014, unsigned copy');
    for (const page of pages) expect(page).toContain(agreementFingerprint(AGREEMENT));
    expect(text.match(/Name and signature/g)).toHaveLength(2);
    expect(text).not.toContain('not signed yet');
    const file = attachedFiles(bytes).get('agreement.json')?.toString('utf8') ?? '';
    expect(JSON.parse(file)).toEqual(AGREEMENT);
  });

  test('names characters that the font does not have, and writes nothing', async () => {
    const folder = await folderOf(
      seasonWith({ 'agreement.json': JSON.stringify({ ...AGREEMENT, buyer: 'Tarn 🌽 Dairy' }) }),
    );
    const { status, said } = await runCli('words', folder, '--pdf', join(folder, 'x.pdf'));
    expect(status).toBe(1);
    expect(said.join('\n')).toContain('“🌽” (U+1F33D) in “Tarn 🌽 Dairy”');
    expect(await filesIn(folder)).not.toContain('x.pdf');
  });

  test('writes nothing where the agreement has faults', async () => {
    const folder = await folderOf(
      seasonWith({ 'agreement.json': JSON.stringify({ ...AGREEMENT, buyer: '' }) }),
    );
    expect((await runCli('words', folder, '--pdf', join(folder, 'x.pdf'))).status).toBe(1);
    expect(await filesIn(folder)).not.toContain('x.pdf');
  });

  test('leaves what was there where the place cannot be written to', async () => {
    const folder = await folderOf(seasonWith());
    await mkdir(join(folder, 'taken.pdf'));
    await writeFile(join(folder, 'taken.pdf', 'kept'), '');
    const taken = await runCli('words', folder, '--pdf', join(folder, 'taken.pdf'));
    expect(taken.status).toBe(1);
    expect(taken.said.join()).toContain('taken.pdf cannot be written: it is a folder');
    expect(await filesIn(join(folder, 'taken.pdf'))).toEqual(['kept']);
    expect((await filesIn(folder)).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  test.each([
    [['--paper', 'a4'], '--paper goes with --pdf OUT.'],
    [['--pdf', 'agreement.txt'], 'a file that ends in .pdf; found "agreement.txt"'],
    [['--pdf', 'x.pdf', '--paper', 'a5'], '--paper takes letter, a4; found "a5"'],
  ])('refuses %j', async (options, expected) => {
    const folder = await folderOf(seasonWith());
    const { status, said } = await runCli('words', folder, ...options);
    expect(status).toBe(1);
    expect(said.join()).toContain(expected);
  });
});
