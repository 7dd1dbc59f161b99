/**
 * `settle --pdf`: invoices drawn up, printed and put on disk, whole or not at all.
 */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { agreementFingerprint } from '../documents/agreement-fingerprint.ts';
import { figuresFor } from '../documents/figures.ts';
import { drawUpInvoices, type InvoiceKind } from '../documents/invoice/draw-up-invoices.ts';
import type { InvoiceData } from '../documents/invoice/invoice-data.ts';
import { renderInvoices } from '../documents/invoice/render-invoice.ts';
import type { InvoiceProblem } from '../documents/invoice/text-problems.ts';
import type { PaperName } from '../documents/pdf/paper.ts';
import { readerUnits } from '../domain/agreement/reader-units.ts';
import type { Outcome } from '../domain/settlement/outcome.ts';
import { readFonts } from '../files/read-fonts.ts';
import type { SettledSeason } from '../usecases/settle-folder.ts';
import { WrongUse } from './exit-status.ts';
import { makeFolder, type PrintedFile, writeWhole } from './write-whole.ts';

export interface InvoiceWriting {
  readonly settled: SettledSeason;
  /** Told how many pages have been printed so far. */
  readonly onPages: (pages: number) => void;
  /** A file where it ends in `.pdf`, else a folder that gets a file for each invoice. */
  readonly out: string;
  readonly by: InvoiceKind;
  /** Where not given, letter for pounds and A4 for metric agreements. */
  readonly paper: PaperName | undefined;
  readonly issuedOn: string | undefined;
}

/** The words on the paper are English, and figures are written the English way whatever machine prints them. */
const LANGUAGE = 'en-US';

/** What was written. */
export interface WrittenInvoices {
  readonly invoices: number;
  readonly pages: number;
  /** PDF files in the folder that were there before and are none of these. */
  readonly others: number;
}

/** Writes the invoices, if there are any. Throws `WrongUse`, with nothing written, where a character cannot be printed or the place cannot be written to. */
export async function writeInvoices({
  settled,
  onPages,
  out,
  by,
  paper,
  issuedOn,
}: InvoiceWriting): Promise<WrittenInvoices> {
  const { agreement, document } = settled.season;
  const all: Outcome[] = [];
  for await (const batch of settled.outcomes()) for (const outcome of batch) all.push(outcome);
  const invoices = drawUpInvoices({
    agreement,
    fingerprint: agreementFingerprint(document),
    money: settled.money,
    outcomes: all,
    by,
    figures: figuresFor(LANGUAGE),
    issuedOn,
  });
  if (invoices.length === 0) return { invoices: 0, pages: 0, others: 0 };
  const fonts = await readFonts();
  const newest = all
    .map(({ load }) => load.deliveredOn)
    .sort()
    .at(-1);
  let pages = 0;
  let others = 0;
  const print = async (printed: readonly InvoiceData[]): Promise<Uint8Array> => {
    const before = pages;
    const result = await renderInvoices({
      invoices: printed,
      fonts,
      language: LANGUAGE,
      paper: paper ?? (readerUnits(agreement).weight === 'kg' ? 'a4' : 'letter'),
      // The same season gives the same bytes on any day, so the file is dated by what it holds.
      createdOn: `${issuedOn ?? newest}T00:00:00Z`,
      onPage: (done) => onPages(before + done),
    });
    if (!result.ok) throw new WrongUse(tellProblems(result.problems));
    pages += result.pages;
    return result.bytes;
  };

  if (/\.pdf$/i.test(out)) {
    await writeWhole([{ path: out, bytes: await print(invoices) }]);
  } else {
    const names = fileNames(invoices);
    // All are printed before the first is written, so that one that cannot be printed leaves none behind.
    const printed: PrintedFile[] = [];
    for (const [index, invoice] of invoices.entries()) {
      printed.push({ path: join(out, names[index] ?? ''), bytes: await print([invoice]) });
    }
    await makeFolder(out);
    await writeWhole(printed);
    others = await otherInvoices(out, names);
  }
  return { invoices: invoices.length, pages, others };
}

function tellProblems(problems: readonly InvoiceProblem[]): string {
  return ['No invoice was written.', ...new Set(problems.map(({ message }) => message))].join('\n');
}

async function otherInvoices(folder: string, written: readonly string[]): Promise<number> {
  const names = await readdir(folder);
  return names.filter((name) => /\.pdf$/i.test(name) && !written.includes(name)).length;
}

/** Characters of a file's name: disks allow 255 bytes, and a letter can take three. */
const LONGEST_NAME = 80;

/**
 * A name of its own for each invoice. Characters that a file name may not have on some system become "_";
 * where two come to the same name, the later ones get their place in the list.
 */
function fileNames(invoices: readonly InvoiceData[]): string[] {
  const taken = new Set<string>();
  return invoices.map(({ number }, index) => {
    const safe = number.replace(/[^\p{L}\p{N}._-]+/gu, '_').slice(0, LONGEST_NAME);
    let name = safe;
    for (let next = index + 1; taken.has(name.toLowerCase()); next++) name = `${safe}-${next}`;
    taken.add(name.toLowerCase());
    return `${name}.pdf`;
  });
}
