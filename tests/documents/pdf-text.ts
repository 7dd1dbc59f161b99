/**
 * Reads a PDF back with poppler's pdftotext, so that the tests see what a reader sees.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const hasPdftotext = spawnSync('pdftotext', ['-v']).error === undefined;

/** Why a test that needs it is skipped. */
export const withoutPdftotext = 'pdftotext (poppler-utils) is not installed';

/** The text of each page, in layout order. */
export function pageTexts(bytes: Uint8Array): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'huskledger-pdf-'));
  try {
    const file = join(folder, 'document.pdf');
    writeFileSync(file, bytes);
    const { status, stdout, stderr } = spawnSync('pdftotext', ['-layout', '-enc', 'UTF-8', file, '-'], {
      encoding: 'utf8',
    });
    if (status !== 0) throw new Error(`pdftotext: ${stderr}`);
    return stdout.split('\f').slice(0, -1);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
