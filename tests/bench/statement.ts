/**
 * A statement of 5,000 entries as PDF, beside a bare pdf-lib script that draws the same cells' texts with one call each
 * in the same typeface: no wrapping, no headings, no page numbers.
 */
import { create } from 'fontkit';
import { PDFDocument } from 'pdf-lib';
import { figuresFor } from '../../src/documents/figures.ts';
import { PAPERS } from '../../src/documents/pdf/paper.ts';
import { sheetFor } from '../../src/documents/pdf/sheet.ts';
import { type FontBytes, openFaces } from '../../src/documents/pdf/typeface.ts';
import { entryCells } from '../../src/documents/statement/entries-table.ts';
import { renderStatement } from '../../src/documents/statement/render-statement.ts';
import { readFonts } from '../../src/files/read-fonts.ts';
import { longStatement } from '../documents/statement/statement-samples.ts';

const ENTRIES = 5000;
const ROUNDS = 5;
const ROWS_ON_A_PAGE = 48;
const LANGUAGE = 'en-US';
const statement = longStatement(ENTRIES);

async function product(fonts: FontBytes): Promise<{ bytes: number; pages: number }> {
  const printed = await renderStatement({ statement, fonts, paper: 'letter', language: LANGUAGE });
  if (!printed.ok) throw new Error(printed.problems.map(({ message }) => message).join('\n'));
  return { bytes: printed.bytes.length, pages: printed.pages };
}

/** The texts of each entry that are not empty, its detail with them. */
function cellTexts(fonts: FontBytes): string[][] {
  const sheet = sheetFor(PAPERS.letter, openFaces(fonts));
  const setting = { statement, sheet, figures: figuresFor(LANGUAGE) };
  return statement.entries.map((entry) =>
    [...entryCells(entry, setting), entry.detail].filter((text) => text !== ''),
  );
}

/** pdf-lib was made for fontkit 1, whose subset came as a stream. */
function fontkitForPdfLib(isSubset: boolean): Parameters<PDFDocument['registerFontkit']>[0] {
  const open = (bytes: Uint8Array) => {
    const font = create(bytes);
    if (!isSubset) return font;
    const createSubset = font.createSubset.bind(font);
    return Object.assign(font, {
      createSubset: () => {
        const subset = createSubset();
        const stream = {
          on: (event: string, take: (bytes?: Uint8Array) => void) => {
            if (event === 'data') take(subset.encode());
            if (event === 'end') take();
            return stream;
          },
        };
        return Object.assign(subset, { encodeStream: () => stream });
      },
    });
  };
  return { create: open } as unknown as Parameters<PDFDocument['registerFontkit']>[0];
}

async function bare(rows: readonly string[][], fonts: FontBytes, subset: boolean): Promise<number> {
  const document = await PDFDocument.create();
  document.registerFontkit(fontkitForPdfLib(subset));
  const font = await document.embedFont(fonts.regular, { subset });
  let page = document.addPage([PAPERS.letter.width, PAPERS.letter.height]);
  for (const [index, cells] of rows.entries()) {
    if (index > 0 && index % ROWS_ON_A_PAGE === 0)
      page = document.addPage([PAPERS.letter.width, PAPERS.letter.height]);
    const y = 750 - (index % ROWS_ON_A_PAGE) * 14;
    for (const [column, text] of cells.entries())
      page.drawText(text, { x: 48 + column * 90, y, size: 9, font });
  }
  return (await document.save()).length;
}

/** Seconds of the median round. */
async function median<Result>(work: () => Promise<Result>): Promise<{ seconds: number; result: Result }> {
  const rounds: { seconds: number; result: Result }[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const started = performance.now();
    const result = await work();
    rounds.push({ seconds: (performance.now() - started) / 1000, result });
  }
  const middle = rounds.sort((a, b) => a.seconds - b.seconds)[Math.floor(ROUNDS / 2)];
  if (!middle) throw new RangeError('At least one round');
  return middle;
}

/** Measures both and says the figures. */
export async function measureStatement(say: (line: string) => void): Promise<void> {
  const fonts = await readFonts();
  const rows = cellTexts(fonts);
  const texts = rows.reduce((sum, cells) => sum + cells.length, 0);
  const ours = await median(() => product(fonts));
  const { pages, bytes } = ours.result;
  say(
    `Statement of ${ENTRIES} entries, median of ${ROUNDS} in one process: ${ours.seconds.toFixed(2)} s, ${pages} pages, ${(bytes / 1024).toFixed(0)} KiB`,
  );
  for (const subset of [true, false]) {
    const plain = await median(() => bare(rows, fonts, subset));
    const font = subset ? 'the glyphs drawn' : 'the whole font';
    say(
      `bare pdf-lib, ${texts} cell texts, a drawText each, ${font} embedded: ${plain.seconds.toFixed(2)} s, ${(plain.result / 1024).toFixed(0)} KiB; the statement takes ${(ours.seconds / plain.seconds).toFixed(2)} of its time`,
    );
  }
}
