import { describe, expect, test } from 'vitest';
import { PageInk, type TextStyle } from '../../src/documents/pdf/page-ink.ts';
import { PAPERS } from '../../src/documents/pdf/paper.ts';
import { PdfDocument } from '../../src/documents/pdf/pdf-document.ts';
import { tablePieces } from '../../src/documents/pdf/table.ts';
import { splitAtDecimal } from '../../src/documents/pdf/table-columns.ts';
import { type Faces, openFaces } from '../../src/documents/pdf/typeface.ts';
import { wrapText } from '../../src/documents/pdf/wrap-text.ts';
import { fonts } from './font-bytes.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from './pdf-text.ts';

const paper = PAPERS.letter;

function styleOf(faces: Faces): TextStyle {
  return { face: faces.regular, size: 10, colour: [0, 0, 0] };
}

function blank(faces: Faces): PdfDocument {
  return new PdfDocument({
    title: 'Prüfung ñ',
    language: 'en-US',
    createdOn: '2026-09-21T00:00:00Z',
    paper,
    faces,
  });
}

async function bytesWith(...texts: readonly string[]): Promise<Uint8Array> {
  const faces = openFaces(fonts);
  const document = blank(faces);
  const ink = new PageInk(paper.height);
  for (const [index, text] of texts.entries()) ink.text(text, 50, 60 + index * 20, styleOf(faces));
  document.addPage(ink);
  const outcome = await document.finish();
  if ('missing' in outcome) throw new Error('characters missing');
  return outcome.bytes;
}

describe('text on a page', () => {
  test.skipIf(!hasPdftotext)(`extracts as it was written (skipped where ${withoutPdftotext})`, async () => {
    const special = [
      'Łódź',
      'Peñasco, Győr',
      '47,120 lb − 5 × 2 ÷ 3 · 4 m²',
      'µ as micro sign, μ as Greek letter',
      'fi ffi office',
    ];
    const [page = ''] = pageTexts(await bytesWith(...special));
    for (const text of special) expect(page).toContain(text);
  });

  test.skipIf(!hasPdftotext)(`composes separate accents (skipped where ${withoutPdftotext})`, async () => {
    const [page = ''] = pageTexts(await bytesWith('Lo\u0301dz\u0301'));
    expect(page).toContain('Lódź');
  });

  test('reports a character that the font lacks, with the text it stands in', async () => {
    const faces = openFaces(fonts);
    const document = blank(faces);
    const ink = new PageInk(paper.height);
    ink.text('Corn \u{1F33D} from 玉 field', 50, 60, styleOf(faces));
    document.addPage(ink);
    const outcome = await document.finish();
    expect(outcome).toEqual({
      missing: [
        { character: '\u{1F33D}', text: 'Corn \u{1F33D} from 玉 field' },
        { character: '玉', text: 'Corn \u{1F33D} from 玉 field' },
      ],
    });
  });

  test('refuses a creation date that is no date', async () => {
    const faces = openFaces(fonts);
    const document = new PdfDocument({ title: 'x', language: 'en', createdOn: 'yesterday', paper, faces });
    await expect(document.finish()).rejects.toThrow(RangeError);
  });
});

describe('wrapping', () => {
  const { regular } = openFaces(fonts);
  const measure = { face: regular, size: 10 };

  test('keeps every word and stays within the width', () => {
    const text = 'Widows of Upper Sallowfen Cooperative Ear Corn & Silage Farm';
    const lines = wrapText(text, 120, measure);
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.join(' ')).toBe(text);
    for (const line of lines) expect(regular.width(line, 10)).toBeLessThanOrEqual(120);
  });

  test('breaks a word only if it alone is too wide, and loses no letter', () => {
    const lines = wrapText(`id ${'9f2c'.repeat(16)} end`, 100, measure);
    expect(lines.join('').replaceAll(' ', '')).toBe(`id${'9f2c'.repeat(16)}end`);
    for (const line of lines) expect(regular.width(line, 10)).toBeLessThanOrEqual(100);
  });
});

describe('a table', () => {
  const faces = openFaces(fonts);
  const text = styleOf(faces);
  const rule = { colour: [0, 0, 0], width: 1 } as const;
  const table = {
    columns: [
      { head: 'Load', align: 'left', width: 'fill' },
      { head: 'Amount', align: 'decimal', width: 'fit' },
    ],
    rows: [{ cells: ['T1', '1,986.85'], note: 'how' }, { cells: ['T2', '−4.5'] }],
    totals: [{ cells: ['All', '1,982.35'] }],
    space: { left: 50, width: 500, gap: 10, decimalMark: '.' },
    style: { head: text, body: text, note: text, total: text, rule, padding: 2 },
  } as const;

  test('ties heading to first row, note to its row, last row to total', () => {
    const ties = tablePieces(table).map((piece) => piece.keepWithNext);
    // heading, T1, its note, T2, total
    expect(ties).toEqual([true, true, false, true, false]);
  });

  test('knows the decimal mark of either locale', () => {
    expect(splitAtDecimal('1,986.85', '.')).toEqual({ whole: '1,986', fraction: '.85' });
    expect(splitAtDecimal('1.986,85', ',')).toEqual({ whole: '1.986', fraction: ',85' });
    expect(splitAtDecimal('54', '.')).toEqual({ whole: '54', fraction: '' });
  });

  test('sets figures on one decimal mark', () => {
    const ink = new PageInk(792);
    for (const piece of tablePieces(table)) piece.draw(ink, 100);
    const digit = faces.regular.width('0', 10);
    const starts = [...ink.finish().matchAll(/1 0 0 1 ([\d.]+) [\d.]+ Tm/g)].map(([, x]) => Number(x));
    // texts in order: Load, Amount, T1, its amount, note, T2, its amount, All, total
    const markOf = (start: number, whole: string): number => start + faces.regular.width(whole, 10);
    expect(markOf(starts[3] ?? 0, '1,986')).toBeCloseTo(markOf(starts[6] ?? 0, '−4'), 1);
    expect(markOf(starts[3] ?? 0, '1,986') + faces.regular.width('.', 10) + 2 * digit).toBeCloseTo(550, 1);
  });
});
