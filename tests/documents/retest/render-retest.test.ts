import { PDFDocument } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import { figuresFor } from '../../../src/documents/figures.ts';
import type { PageInk } from '../../../src/documents/pdf/page-ink.ts';
import { PAPERS } from '../../../src/documents/pdf/paper.ts';
import { sheetFor } from '../../../src/documents/pdf/sheet.ts';
import { openFaces } from '../../../src/documents/pdf/typeface.ts';
import { renderRetest } from '../../../src/documents/retest/render-retest.ts';
import { retestPieces } from '../../../src/documents/retest/retest-pieces.ts';
import type { RetestRecord } from '../../../src/domain/retests/retest-record.ts';
import { squeezed } from '../agreement-text.ts';
import { fonts } from '../font-bytes.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from '../pdf-text.ts';
import { changedLeaves } from './record-leaves.ts';
import { crowded, decided, FINGERPRINT, open, weight, withdrawn } from './retest-samples.ts';

const order = { fonts, paper: 'letter', language: 'en-US' } as const;

async function printed(record: RetestRecord): Promise<{ bytes: Uint8Array; pages: number }> {
  const outcome = await renderRetest({ ...order, record });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join('\n'));
  return outcome;
}

/** All pages as one text; where lines break says nothing. */
async function textOf(record: RetestRecord): Promise<string> {
  return pageTexts((await printed(record)).bytes)
    .join('\n')
    .replace(/\s+/g, ' ');
}

const sheet = sheetFor(PAPERS.letter, openFaces(fonts));
const figures = figuresFor('en-US');

/** What is drawn between head and foot, line by line, before it is a PDF: hundreds of papers in a moment. */
function drawn(record: RetestRecord): string {
  const lines: string[] = [];
  const text = (line: string) => lines.push(line);
  const ink = { text, textEndingAt: text, lines: () => {}, outline: () => {} } as unknown as PageInk;
  for (const piece of retestPieces({ record, figures, sheet }).flat()) piece.draw(ink, 0);
  return lines.join('\n');
}

/** The same without any blanks, to look for a sentence in. */
const said = (record: RetestRecord) => squeezed(drawn(record));

describe('the file', () => {
  test('is the same each time, dated by the last step, with title, language and paper', async () => {
    const [{ bytes }, again] = [await printed(decided), await printed(decided)];
    expect(Buffer.from(bytes).equals(Buffer.from(again.bytes))).toBe(true);
    const file = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(file.getTitle()).toBe('Retest record: starch of sample S1, asked 2026-10-05');
    expect(file.getCreationDate()?.toISOString()).toBe('2026-10-12T00:00:00.000Z');
    expect(String(file.catalog.get(file.context.obj('Lang')))).toContain('0065006E002D00550053');
    expect(file.getPage(0).getSize()).toEqual({ width: 612, height: 792 });
    const a4 = await renderRetest({ ...order, paper: 'a4', record: weight });
    if (!a4.ok) throw new Error('problems');
    expect((await PDFDocument.load(a4.bytes)).getPage(0).getWidth()).toBe(595.28);
  });

  test('is not written where the fonts lack a character, and the place is told', async () => {
    const outcome = await renderRetest({ ...order, record: { ...decided, reason: 'Wet \u{1F33D} again' } });
    expect(outcome).toMatchObject({ ok: false, problems: [{ place: 'record.reason' }] });
    const arabic = await renderRetest({ ...order, language: 'ar-EG', record: decided });
    expect(arabic).toMatchObject({ ok: false, problems: [{ place: 'language' }] });
  });
});

/** Leaves that need not print, each with why. */
const UNPRINTED: readonly (readonly [path: RegExp, why: string])[] = [
  [/(^|\.)(id|agreementId|loadId)$/, 'a key, which says nothing to a reader'],
  [/^about$/, 'its name is printed'],
  [/^(sample|ticket)$/, 'only one of the two is there; the other has no place'],
  [/^figures\.\d+\.testerName$/, 'printed where another laboratory tested than was named (tried below)'],
  [/^ending\.because$/, 'printed in words'],
  [/^calls\.testers\.\d+$/, 'printed in sentences'],
  [
    /^calls\.daysLeft$/,
    'follows from the day of printing, which must not change the paper; the last day is printed',
  ],
];

/**
 * Leaves that another value of would mean nothing in these samples: a reason of what nobody contested, an agreement on no
 * figure, a laboratory’s part of a scale.
 */
const EMPTY: Readonly<Record<string, readonly RegExp[]>> = {
  decided: [/^figures\.1\.contested$/, /^figures\.0\.isUnanswered$/],
  open: [/^figures\.0\.(contested|isUnanswered)$/, /^proposals\.0\.(ending|value|answeredOn|answerReason)$/],
  withdrawn: [/^proposals\.0\.(ending|value)$/],
  weight: [/^figures\.0\.(contested|method|seal|tester)$/],
};

describe('every leaf of the record', () => {
  test.each(Object.entries({ decided, open, withdrawn, weight }))(
    '%s changes what is drawn',
    (name, record) => {
      const before = drawn(record);
      const silent = [...changedLeaves(record)]
        .filter(({ changed }) => drawn(changed) === before)
        .map(({ path }) => path)
        .filter((path) => !UNPRINTED.some(([shape]) => shape.test(path)))
        .filter((path) => !EMPTY[name]?.some((shape) => shape.test(path)));
      expect(silent).toEqual([]);
    },
  );

  test('includes who was named, where somebody else tested', () => {
    expect(said(decided)).toContain(squeezed('Bell Reach Referees (the referee)'));
    const figures = decided.figures.map((figure) => ({ ...figure, testedBy: 'Alder Bench' }));
    expect(said({ ...decided, figures })).toContain(
      squeezed('Alder Bench (for the referee, Bell Reach Referees)'),
    );
  });
});

describe.skipIf(!hasPdftotext)(`the pages as read back (skipped where ${withoutPdftotext})`, () => {
  test('carry question, state, agreement, version, fingerprint and page x of y, each one', async () => {
    const { bytes, pages } = await printed(crowded);
    expect(pages).toBeGreaterThan(3);
    pageTexts(bytes).forEach((text, index) => {
      expect(text).toContain(`page ${index + 1} of ${pages}`);
      expect(text).toContain(
        'Retest record: starch of sample S1, asked 2026-10-05, decided as of 2026-10-12. Agreement A-26-014, version 2',
      );
      expect(text).toContain(FINGERPRINT);
    });
  });

  test('of a decided question show figures, laboratories, seals, rule, steps and money', async () => {
    const text = await textOf(decided);
    for (const wanted of [
      'This question is',
      'Decided',
      'Tarn Hollow Dairy questions the starch of sample S1. It was reported as 54.0 % of dry matter by Alder Bench',
      'Decided by the agreed rule: 52.40 % of dry matter counts in place of 54.0.',
      'By it Tarn Hollow Dairy owes Quillback Acres USD 80.00 less for the feed.',
      'The tests cost USD 45.00; Quillback Acres bears all of it.',
      'near infrared',
      'Why Tarn Hollow Dairy asks: “Our own test of a scoop from the same face came to less”.',
      'Sample S1 was taken at 2026-10-01 21:40 (America/Boise) by Wren: five scoops from the stream.',
      'The seller’s part (Quillback Acres): seal Q-7739, not airtight',
      'The referee’s part: seal Q-7741, airtight',
      '2026-10-06 09:05 Marrow Creek Courier cool box not said whole',
      '2026-10-07 15:30 Bell Reach Referees, desk cold room 2 2027-01-15 whole',
      'Contested by Quillback Acres on 2026-10-08: “The report is of another sample”.',
      '1.60 below',
      'It cost USD 40.50, paid by Tarn Hollow Dairy.',
      decided.figures[0]?.report ?? '',
      'Enters 52.40 by Bell Reach Referees, tested on 2026-10-08.',
      'Refuses the proposal to agree on 53.2: “The referee has tested”.',
      'Credit note 18 2026-10-12 Tarn Hollow Dairy owes so much less 80.00',
      'Credit note 19 2026-10-12 Tarn Hollow Dairy owes so much less 45.00',
      'T1 2026-10-01 1,620.00 1,572.00 48.00 less',
      'All 2 loads 2,700.00 2,620.00 80.00 less',
      ...decided.rule,
    ]) {
      expect(text).toContain(wanted.replaceAll('\u00a0', ' '));
    }
  });

  test('show the loads of a long list under a repeated heading, and no heading alone', async () => {
    const more = crowded.loads.map((load) => ({ ...load, ticket: `${load.ticket}b` }));
    const many = { ...crowded, loads: [...crowded.loads, ...more] };
    const pages = pageTexts((await printed(many)).bytes);
    for (const { ticket } of many.loads) expect(pages.join('\n')).toContain(ticket);
    expect(pages.at(-1)).toContain('Load (continued)');
    expect(pages.at(-1)).toContain('All 60 loads');
    // A heading that ends a page, above the two lines of the foot, would stand alone.
    const headings = /^(The (question|sample|figures|rule|steps|outcome|money)|What it waits for)/;
    for (const page of pages) {
      const lines = page.split('\n').filter((line) => line.trim() !== '');
      expect(lines.at(-3)).not.toMatch(headings);
    }
  });
});

describe('what is said', () => {
  test('of an open question: what is called for until when, what waits, and what is held', () => {
    const text = said(open);
    for (const wanted of [
      'Nothing is decided yet.',
      'Called for since 2026-10-05, to be reported by 2026-10-19: The referee, Bell Reach Referees, tests its sealed part.',
      'Reported already: 52.40 by Bell Reach Referees, which waits for Quillback Acres. Without a word from Quillback Acres the rule takes it in from 2026-10-15 on.',
      'A proposal of Tarn Hollow Dairy to end it waits for Quillback Acres.',
      'USD 95.00 of invoices is held for this question: open, and not due until it ends.',
    ]) {
      expect(text).toContain(squeezed(wanted));
    }
    const obstacle = 'By its rule 52.40 counts: load T1 could not settle';
    expect(said({ ...open, calls: undefined, obstacle })).toContain(squeezed(obstacle));
  });

  test('of a withdrawn one: the first figure stands and nothing follows', () => {
    const text = said(withdrawn);
    for (const wanted of [
      'Withdrawn: 54.0 % of dry matter, as first reported, stands. Both sides confirmed it.',
      'It changes nothing of what Tarn Hollow Dairy owes Quillback Acres for the feed.',
      'No test has cost anything.',
      'No note or invoice followed from it.',
    ]) {
      expect(text).toContain(squeezed(wanted));
    }
  });

  test('of a weight: both weighings, each scale, how far apart they lie and may', () => {
    const text = said(weight);
    for (const wanted of [
      'Gross on Yard scale (class III L, division 20 lb, legal for trade, certificate W-2210); tare on Gate scale (class III L, division 20 lb, NOT legal for trade, no certificate recorded).',
      'Gross and tare on Ferry Road scale (class III L, division 20 lb, legal for trade, certificate W-3001).',
      'The two net weights lie 180 lb apart. The second counts only if they lie more than 480 lb apart.',
      'first gross 160 lb, second gross 160 lb, first tare 80 lb, second tare 80 lb.',
      'Tarn Hollow Dairy has said nothing to 47,300 lb by Ferry Road scale for 5 days, so that it is taken in.',
      'Quillback Acres bears USD 15.00 and Tarn Hollow Dairy USD 15.00.',
      'Fee invoice 20',
    ]) {
      expect(text).toContain(squeezed(wanted));
    }
    expect(text).not.toContain(squeezed('The sample and its seals'));
  });

  test('in kilograms where the ticket is, though the rule counts pounds', () => {
    const metric = {
      ...weight,
      unit: 'kg',
      weights: { apart: '396.832072', allowed: '440.924524', tolerances: undefined },
    };
    expect(said(metric)).toContain(
      squeezed('lie 180 kg apart. The second counts only if they lie more than 200 kg apart.'),
    );
  });

  test('of a sample without seals, and of loads without a price, is said so', () => {
    const bare = {
      ...open,
      parts: [],
      taking: undefined,
      loads: open.loads.map((load) => ({ ...load, before: null, now: null })),
    };
    const text = said(bare);
    for (const wanted of [
      'How sample S1 was taken is not recorded.',
      'No sealed part of it is recorded.',
      'not all are priced; see the list of loads',
      'not priced',
    ]) {
      expect(text).toContain(squeezed(wanted));
    }
    const broken = {
      ...open,
      parts: open.parts.map((part) => ({
        ...part,
        handovers: part.handovers.map((one) => ({ ...one, isSealIntact: false })),
      })),
    };
    expect(said(broken)).toContain('BROKEN');
  });
});
