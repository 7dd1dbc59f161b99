/**
 * Reads a PDF back with poppler's pdftotext and pdfdetach, so that the tests see what a reader sees.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const hasPdftotext = spawnSync('pdftotext', ['-v']).error === undefined;

/** Why a test that needs it is skipped. */
export const withoutPdftotext = 'pdftotext (poppler-utils) is not installed';

/** Runs one of poppler's programs in a folder that holds the document, and gives what it printed. */
function read<Result>(
  bytes: Uint8Array,
  [program, ...args]: readonly [string, ...string[]],
  take: (stdout: string, folder: string) => Result,
): Result {
  const folder = mkdtempSync(join(tmpdir(), 'huskledger-pdf-'));
  try {
    writeFileSync(join(folder, 'document.pdf'), bytes);
    const { status, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8', cwd: folder });
    if (status !== 0) throw new Error(`${program}: ${stderr}`);
    return take(stdout, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The text of each page, in layout order. */
export function pageTexts(bytes: Uint8Array): string[] {
  return read(bytes, ['pdftotext', '-layout', '-enc', 'UTF-8', 'document.pdf', '-'], (stdout) =>
    stdout.split('\f').slice(0, -1),
  );
}

/** The files attached to a document, by name. */
export function attachedFiles(bytes: Uint8Array): Map<string, Buffer> {
  return read(bytes, ['pdfdetach', '-saveall', 'document.pdf'], (_, folder) => {
    const names = readdirSync(folder).filter((name) => name !== 'document.pdf');
    return new Map(names.map((name) => [name, readFileSync(join(folder, name))]));
  });
}
