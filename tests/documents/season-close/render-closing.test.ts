import { PDFDocument } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import { figuresFor } from '../../../src/documents/figures.ts';
import type { PageInk, TextStyle } from '../../../src/documents/pdf/page-ink.ts';
import { PAPERS } from '../../../src/documents/pdf/paper.ts';
import { sheetFor } from '../../../src/documents/pdf/sheet.ts';
import { openFaces } from '../../../src/documents/pdf/typeface.ts';
import type { ClosingPaper } from '../../../src/documents/season-close/closing-paper.ts';
import { closingPieces } from '../../../src/documents/season-close/closing-pieces.ts';
import { renderClosing } from '../../../src/documents/season-close/render-closing.ts';
import type { ClosingStatement } from '../../../src/domain/season-close/closing-statement.ts';
import { squeezed } from '../agreement-text.ts';
import { fonts } from '../font-bytes.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from '../pdf-text.ts';
import { asItStands, crowded, drawnUp, sealed, statement } from './closing-samples.ts';

const order = { fonts, paper: 'letter', language: 'en-US' } as const;

async function printed(closing: ClosingPaper): Promise<{ bytes: Uint8Array; pages: number }> {
  const outcome = await renderClosing({ ...order, closing });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join('\n'));
  return outcome;
}

const sheet = sheetFor(PAPERS.letter, openFaces(fonts));
const figures = figuresFor('en-US');

interface Written {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** What is drawn between head and foot, with where each text begins and ends. */
function written(paper: ClosingPaper): readonly Written[] {
  const all: Written[] = [];
  const width = (text: string, { face, size }: TextStyle) => face.width(text, size);
  const ink = {
    text: (text: string, x: number, _: number, style: TextStyle) =>
      all.push({ text, from: x, to: x + width(text, style) }),
    textEndingAt: (text: string, x: number, _: number, style: TextStyle) =>
      all.push({ text, from: x - width(text, style), to: x }),
    lines: () => {},
    outline: () => {},
  } as unknown as PageInk;
  for (const piece of closingPieces({ paper, figures, sheet }).flat()) piece.draw(ink, 0);
  return all;
}

/** All of it without any blanks. */
const said = (paper: ClosingPaper) =>
  squeezed(
    written(paper)
      .map(({ text }) => text)
      .join(' '),
  );

describe('the file', () => {
  test('is the same each time, dated by the seal, with title, language and paper', async () => {
    const [{ bytes }, again] = [await printed(sealed), await printed(sealed)];
    expect(Buffer.from(bytes).equals(Buffer.from(again.bytes))).toBe(true);
    const file = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(file.getTitle()).toBe(
      'Closing statement of agreement A-26-014, Quillback Acres and Tarn Hollow Dairy',
    );
    expect(file.getCreationDate()?.toISOString()).toBe('2026-11-26T18:04:05.000Z');
    const a4 = await renderClosing({ ...order, paper: 'a4', closing: sealed });
    if (!a4.ok) throw new Error('problems');
    expect((await PDFDocument.load(a4.bytes)).getPage(0).getWidth()).toBe(595.28);
  });

  test('is dated by the statement before it is sealed', async () => {
    const file = await PDFDocument.load((await printed(drawnUp)).bytes, { updateMetadata: false });
    expect(file.getCreationDate()?.toISOString()).toBe('2026-11-25T00:00:00.000Z');
  });

  test('is not written where the fonts lack a character, or where the seal is over another journal', async () => {
    const outcome = await renderClosing({
      ...order,
      closing: { ...sealed, statement: { ...statement, buyer: 'Dairy \u{1F33D}' } },
    });
    expect(outcome).toMatchObject({ ok: false, problems: [{ place: 'closing.statement.buyer' }] });
    const journal = { ...statement.journal, root: 'f'.repeat(64) };
    await expect(printed({ ...sealed, statement: { ...statement, journal } })).rejects.toThrow(RangeError);
  });
});

/** Leaves that need not be found, each with why. */
const UNPRINTED: readonly (readonly [path: RegExp, why: string])[] = [
  [/^format$/, 'says how the data is written'],
  [/^agreement\.id$/, 'a key, which says nothing to a reader'],
  [/^committed\.(unit|weight|standing)$/, 'said in words (tried below)'],
  [/^carried\.\d+\.(kind|words)$/, 'said from kind, count and amount, with thousands marked (tried below)'],
  [/^adjustments\.\d\.rule$/, 'said by its name (tried below)'],
  [/^adjustments\.1\.issued$/, 'nothing is said to be on notes of a rule that waits'],
  [/^carried\.1\.count$/, 'a balance is one'],
  [/^differences\.1\.amount$/, 'no money differs, which is said in words (tried below)'],
];

function* leavesOf(value: unknown, path: string): Generator<readonly [path: string, leaf: string]> {
  if (typeof value === 'string') yield [path, value];
  else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value))
      yield* leavesOf(item, path === '' ? key : `${path}.${key}`);
  }
}

/** The statement with one leaf another. */
function withOther<Value>(value: Value, [key, ...rest]: readonly string[], other: string): Value {
  if (key === undefined) return other as Value;
  const copy = (Array.isArray(value) ? [...value] : { ...value }) as Record<string, unknown>;
  copy[key] = withOther(copy[key], rest, other);
  return copy as Value;
}

const otherThan = (leaf: string) => {
  if (/^[0-9a-f]{64}$/.test(leaf)) return `${leaf.slice(0, 63)}${leaf.endsWith('0') ? '1' : '0'}`;
  return /^\d{4}-\d{2}-\d{2}$/.test(leaf)
    ? '2031-01-17'
    : /^-?\d+(\.\d+)?$/.test(leaf)
      ? `${leaf}7`
      : `${leaf} X`;
};

const shown = (leaf: string) => squeezed(/^-?\d+(\.\d+)?$/.test(leaf) ? figures.show(leaf) : leaf);

describe('every leaf of the statement', () => {
  test.each(Object.entries({ asItStands, drawnUp, sealed }))(
    '%s is drawn, and drawn as it is',
    (name, paper) => {
      const before = said(paper);
      const lost = [...leavesOf(statement, '')]
        .filter(([path]) => !UNPRINTED.some(([shape]) => shape.test(path)))
        .filter(([path]) => !(name === 'sealed' && path === 'journal.root'))
        .filter(([path, leaf]) => {
          const other = otherThan(leaf);
          const after = said({
            ...paper,
            statement: withOther<ClosingStatement>(statement, path.split('.'), other),
          });
          return !before.includes(shown(leaf)) || after === before || !after.includes(shown(other));
        });
      expect(lost).toEqual([]);
    },
  );

  test('of a difference that is left standing, in words', () => {
    const text = said(sealed);
    expect(text).toContain(
      squeezed(
        'Load T-118: by the books of Quillback Acres, Tarn Hollow Dairy owes 83.25 USD more than the record says. “Our slip has 20,800 lb”',
      ),
    );
    expect(text).toContain(
      squeezed(
        'The season as a whole: the books of Tarn Hollow Dairy say something else, and no money differs.',
      ),
    );
    const { differences: _, ...without } = statement;
    expect(said({ ...sealed, statement: without })).not.toContain(squeezed('Differences that both leave'));
    const turned = said({
      ...sealed,
      statement: {
        ...statement,
        differences: [{ ticket: null, by: 'Tarn Hollow Dairy', amount: '-7', words: 'Rounding' }],
      },
    });
    expect(turned).toContain(
      squeezed(
        'The season as a whole: by the books of Tarn Hollow Dairy, it owes 7 USD less than the record says.',
      ),
    );
  });

  test('of the agreed rules by their names, and of none where none is agreed on', () => {
    const text = said(sealed);
    expect(text).toContain(
      squeezed(
        'Short of the agreed volume Tarn Hollow Dairy owes 1,250.50 USD, on notes: Tarn Hollow Dairy owes 1,000.25 USD',
      ),
    );
    expect(text).toContain(squeezed('Priced again by the season’s averages cannot be worked out yet'));
    expect(text).toContain(
      squeezed('By the agreed rules for the season Short of the agreed volume: 7412.345 short tons came'),
    );
    const { adjustments: _, ...without } = statement;
    expect(said({ ...sealed, statement: without })).not.toContain(squeezed('By the agreed rules'));
    // What was issued in full is said once, and what the seller owes is said of the seller.
    const issued = { rule: 'surplus', words: 'Over.', amount: '-40.00', issued: '-40.00' } as const;
    expect(said({ ...sealed, statement: { ...statement, adjustments: [issued] } })).toContain(
      squeezed(
        'Beyond the agreed volume Quillback Acres owes 40.00 USD Invoiced, with notes, fees and advances',
      ),
    );
  });

  test('that is said in words', () => {
    expect(said(sealed)).toContain(squeezed('Committed 7,500 short tons as-fed, ± 10 %'));
    expect(said(sealed)).toContain(squeezed('Delivered of it 7,412.345 short tons as-fed, as agreed'));
    const dry = { ...statement.committed, unit: 'tonne', weight: 'dry-matter', standing: 'under' } as const;
    const other = said({
      ...sealed,
      statement: {
        ...statement,
        committed: { ...dry, amount: '7500', delivered: '7', tolerancePercent: null },
      },
    });
    expect(other).toContain(squeezed('Committed 7,500 tonnes of dry matter'));
    expect(other).toContain(squeezed('7 tonnes of dry matter, less than agreed'));
    expect(said(sealed)).toContain(
      squeezed('Carried over 2 loads have not settled; Tarn Hollow Dairy owes 1,111.11 USD.'),
    );
  });

  test('that is none: said so, not left out', () => {
    const none = {
      ...statement,
      committed: null,
      carried: [],
      loads: { ...statement.loads, unsettled: '0' },
    };
    const money = { ...statement.money, balance: '0.00' };
    const text = said({ ...sealed, statement: { ...none, money } });
    for (const wanted of ['Loads not settled 0', 'Left at the close nothing', 'Nothing is carried over.'])
      expect(text).toContain(squeezed(wanted));
    expect(text).not.toContain('Committed');
  });

  test('that goes the other way: said by whom, without a minus sign', () => {
    const money = { settled: '-1.00', invoiced: '-2.00', paid: '-3.00', balance: '-4.00' };
    const text = said({ ...sealed, statement: { ...statement, money } });
    for (const wanted of [
      'The loads came to 1.00 USD in favour of Tarn Hollow Dairy',
      'Invoiced, with notes, fees and advances 2.00 USD in favour of Tarn Hollow Dairy',
      'Paid 3.00 USD by Quillback Acres',
      'Left at the close Quillback Acres owes 4.00 USD',
    ])
      expect(text).toContain(squeezed(wanted));
    expect(text).not.toMatch(/[−-]\d\.00/);
  });
});

describe('signatures and seal', () => {
  test('are all there once it is sealed', () => {
    const text = said(sealed);
    const { seal } = sealed;
    for (const wanted of [
      'For the seller Signed by, as typed Signed on Quillback Acres Wren Alder 2026-11-25',
      'For the buyer Signed by, as typed Signed on Tarn Hollow Dairy Juniper Marsh 2026-11-26',
      sealed.fingerprint ?? '',
      `Root ${seal?.root}`,
      `Mark ${seal?.mark}`,
      'huskledger check-seal FILE',
      'Sealed at 2026-11-26 18:04:05 UTC.',
    ]) {
      for (const word of wanted.split(' ')) expect(text).toContain(squeezed(word));
    }
    expect(text).toContain(`Root${seal?.root}Mark${seal?.mark}`);
    expect(text).not.toMatch(/NOTS(EALED|IGNED)/);
  });

  test('are missing in words before', () => {
    expect(said(drawnUp)).toContain(
      squeezed('NOT SEALED YET. The signature of Tarn Hollow Dairy is missing.'),
    );
    expect(said(drawnUp)).toContain(squeezed('NOT SIGNED YET'));
    expect(said(drawnUp)).not.toContain('check-seal');
    expect(said(asItStands)).toContain(squeezed('NOT SEALED, AND NOT SIGNED BY ANYBODY.'));
    expect(said(asItStands)).toContain(squeezed('To settle first 3 questions are open.'));
    expect(said(asItStands)).not.toContain('Signatures');
  });
});

test.each(Object.entries({ asItStands, drawnUp, sealed, crowded }))(
  '%s stays within the sheet',
  (_, paper) => {
    const outside = written(paper).filter(
      ({ from, to }) => from < sheet.left - 0.1 || to > sheet.right + 0.1,
    );
    expect(outside).toEqual([]);
  },
);

describe.skipIf(!hasPdftotext)(`the pages as read back (skipped where ${withoutPdftotext})`, () => {
  test('of a sealed season carry agreement, state, mark and page x of y, each one', async () => {
    const { bytes, pages } = await printed(crowded);
    expect(pages).toBeGreaterThan(1);
    pageTexts(bytes).forEach((text, index) => {
      expect(text).toContain(`page ${index + 1} of ${pages}`);
      expect(squeezed(text)).toContain(squeezed('sealed on 2026-11-26'));
      expect(text).toContain(`Mark ${crowded.seal?.mark}`);
    });
  });

  test('of a season that is not sealed say so, each one', async () => {
    const versions = crowded.statement.agreement.versions;
    const many = { ...statement, agreement: { ...statement.agreement, versions } };
    for (const [paper, state] of [
      [asItStands, 'not sealed yet: nobody has signed it'],
      [drawnUp, 'not sealed yet: signed for Quillback Acres only'],
    ] as const) {
      const texts = pageTexts((await printed({ ...paper, statement: many })).bytes);
      expect(texts.length).toBeGreaterThan(1);
      for (const text of texts) expect(text).toContain(`Closing statement of agreement A-26-014, ${state}`);
      for (const text of texts.slice(1)) expect(text).toContain(state.toUpperCase());
    }
  });
});
