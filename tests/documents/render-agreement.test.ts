import { createHash } from 'node:crypto';
import { PDFDocument } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import type { AgreementPaper } from '../../src/documents/agreement/agreement-paper.ts';
import { type AgreementOrder, renderAgreement } from '../../src/documents/agreement/render-agreement.ts';
import { agreementInWords } from '../../src/domain/words/agreement-words.ts';
import { sha256 } from '../../src/journal/fingerprint.ts';
import { buyerSigned, DEMOS, demoDocument, paperOf, sellerSigned } from './agreement-samples.ts';
import { fonts } from './font-bytes.ts';
import { attachedFiles, hasPdftotext, pageTexts, withoutPdftotext } from './pdf-text.ts';

const setting = { paper: 'letter', fonts, language: 'en-US', createdOn: '2026-08-16T05:40:09Z' } as const;
const quillback = demoDocument('quillback-tarn-hollow');

async function printed(
  paper: AgreementPaper,
  more: Partial<Pick<AgreementOrder, 'paper' | 'createdOn'>> = {},
): Promise<{ bytes: Uint8Array; pages: number }> {
  const outcome = await renderAgreement({ ...paper, ...setting, ...more });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join('\n'));
  return outcome;
}

function collapsed(text: string): string {
  return text.normalize('NFC').replace(/\s+/g, ' ').trim();
}

/** The lines of a page without its head and foot. */
function contentLines(page: string, { title, agreement }: AgreementPaper): string[] {
  const lines = page.split('\n').map((line) => line.trim());
  return lines.filter(
    (line) =>
      line !== '' &&
      !/^SHA-256 [0-9a-f]{64} +page \d+ of \d+$/.test(line) &&
      !line.startsWith(`Agreement ${agreement.id}`) &&
      line !== `${title}: ${agreement.seller} to ${agreement.buyer}`,
  );
}

function readThrough(bytes: Uint8Array, paper: AgreementPaper): string {
  return collapsed(
    pageTexts(bytes)
      .flatMap((page) => contentLines(page, paper))
      .join(' '),
  );
}

const REASON =
  'because fibre that the cows cannot use displaces grain in the ration, as both sides know'.repeat(2);

/** An agreement with this many schedules, each a paragraph of half a dozen lines. */
function withTerms(count: number): Record<string, unknown> {
  const [, , schedule] = quillback['price'] as Record<string, unknown>[];
  const price = Array.from({ length: count }, (_, index) => ({
    ...schedule,
    label: `Fibre rule ${index}, ${REASON}`,
  }));
  return { ...quillback, price };
}

describe('the file', () => {
  test('is the same, byte for byte, each time, and another on another date', async () => {
    const paper = paperOf(quillback, { signatures: [sellerSigned] });
    const first = await printed(paper);
    expect(Buffer.from((await printed(paper)).bytes).equals(Buffer.from(first.bytes))).toBe(true);
    const later = await printed(paper, { createdOn: '2026-08-17T00:00:00Z' });
    expect(Buffer.from(later.bytes).equals(Buffer.from(first.bytes))).toBe(false);
  });

  test.each([
    ['letter', { width: 612, height: 792 }],
    ['a4', { width: 595.28, height: 841.89 }],
  ] as const)('has its title, language, date and paper: %s', async (paper, size) => {
    const { bytes } = await printed(paperOf(quillback, { title: 'Agreement 14' }), { paper });
    const document = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(document.getTitle()).toBe('Agreement 14: Quillback Acres to Tarn Hollow Dairy');
    expect(document.getCreationDate()?.toISOString()).toBe('2026-08-16T05:40:09.000Z');
    expect(String(document.catalog.get(document.context.obj('Lang')))).toContain('0065006E002D00550053');
    expect(document.getPage(0).getSize()).toEqual(size);
  });

  test.skipIf(!hasPdftotext).each(DEMOS)(
    `of %s carries its canonical file, which gives the fingerprint (skipped where ${withoutPdftotext})`,
    async (folder) => {
      const paper = paperOf(demoDocument(folder));
      const files = attachedFiles((await printed(paper)).bytes);
      expect([...files.keys()]).toEqual(['agreement.json']);
      const file = files.get('agreement.json') ?? Buffer.alloc(0);
      expect(file.toString('utf8')).toBe(paper.canonical);
      expect(sha256(file.toString('utf8'))).toBe(paper.fingerprint);
      // The digits that anybody's own program gives for the saved file.
      expect(createHash('sha256').update(file).digest('hex')).toBe(paper.fingerprint);
    },
  );

  test('is refused where agreement, canonical text and fingerprint are not one', async () => {
    const paper = paperOf(quillback);
    const other = paperOf({ ...quillback, currency: 'CAD' });
    const orders = [
      { ...paper, fingerprint: other.fingerprint },
      { ...paper, canonical: other.canonical },
      { ...paper, canonical: other.canonical, fingerprint: other.fingerprint },
    ];
    for (const order of orders)
      await expect(renderAgreement({ ...order, ...setting })).rejects.toThrow(RangeError);
  });

  test('is refused where a signature has no readable time', async () => {
    const paper = paperOf(quillback, { signatures: [{ ...sellerSigned, signedAt: '2026-08-14 15:04' }] });
    await expect(renderAgreement({ ...paper, ...setting })).rejects.toThrow(RangeError);
  });
});

describe('what cannot be printed', () => {
  test('is reported with its place and code, and nothing is printed', async () => {
    const document = {
      ...quillback,
      buyer: 'Tarn \u{1F33D} Dairy',
      conditions: { '\u{1F33D}ears': 'none', notes: '乳 only' },
    };
    const paper = paperOf(document, { signatures: [{ ...sellerSigned, name: 'Ottilie 玉' }] });
    const outcome = await renderAgreement({ ...paper, ...setting });
    if (outcome.ok) throw new Error('printed');
    expect(outcome.problems.map(({ place }) => place)).toEqual([
      'signatures[0].name',
      'agreement.buyer',
      'agreement.conditions.\u{1F33D}ears',
      'agreement.conditions.notes',
    ]);
    expect(outcome.problems[0]?.message).toContain('“玉” (U+7389)');
  });
});

describe.skipIf(!hasPdftotext)(`the pages as read back (skipped where ${withoutPdftotext})`, () => {
  for (const folder of DEMOS) {
    for (const paper of ['letter', 'a4'] as const) {
      test(`say every paragraph of ${folder} on ${paper}`, async () => {
        const data = paperOf(demoDocument(folder));
        const text = readThrough((await printed(data, { paper })).bytes, data);
        for (const { paragraphs } of agreementInWords(data.agreement))
          for (const paragraph of paragraphs) expect(text).toContain(collapsed(paragraph));
        expect(text).toContain(data.agreement.seller);
        expect(text).toContain(data.agreement.buyer);
      });
    }
  }

  test('carry page x of y, agreement, version, who signed and the fingerprint, each of forty and more', async () => {
    const paper = paperOf(withTerms(400), { signatures: [sellerSigned] });
    const { bytes, pages } = await printed(paper);
    expect(pages).toBeGreaterThanOrEqual(40);
    const texts = pageTexts(bytes);
    expect(texts).toHaveLength(pages);
    for (const [index, text] of texts.entries()) {
      expect(text).toContain(`page ${index + 1} of ${pages}`);
      expect(text).toContain('Agreement A-26-014, version 2, signed by the seller only');
      expect(text).toContain(paper.fingerprint);
    }
    const text = readThrough(bytes, paper);
    for (const { paragraphs } of agreementInWords(paper.agreement))
      for (const paragraph of paragraphs) expect(text).toContain(collapsed(paragraph));
  });

  test('never end with a heading or begin with the last line of a paragraph, whatever the length', async () => {
    // Each line that the opening sentence takes moves all that follows by a line.
    for (let lines = 0; lines <= 60; lines += 2) {
      const standing = 'No side has signed this offer, which stands until somebody takes it back. '.repeat(
        lines,
      );
      const paper = paperOf(withTerms(12), { standing });
      const headings = [
        ...agreementInWords(paper.agreement).map(({ heading }) => heading),
        'Signatures',
        'The fingerprint',
      ];
      const pages = pageTexts((await printed(paper)).bytes).map((page) => contentLines(page, paper));
      for (const lines of pages.slice(0, -1)) expect(headings).not.toContain(lines.at(-1));
      for (const lines of pages.slice(1)) {
        // Every schedule's paragraph ends so: alone at the head of a page it would belong to nothing.
        const end = lines.findIndex((line) => /with their fractions\.$/.test(line));
        const begins = lines.findIndex((line) => /^\d+\. /.test(line));
        if (end >= 0 && (begins < 0 || end < begins)) expect(end).toBeGreaterThanOrEqual(1);
      }
    }
  });

  test('leave a line for both sides where nobody has signed', async () => {
    const paper = paperOf(quillback);
    const text = readThrough((await printed(paper)).bytes, paper);
    expect(text.match(/not signed yet/g)).toHaveLength(2);
    expect(text.match(/Name and signature/g)).toHaveLength(2);
    expect(text).toContain('Nobody had signed version 2 of this text when this was printed.');
    expect(text).toContain('Offer, not signed');
  });

  test('name the one who signed, at both clocks, and who has not', async () => {
    const paper = paperOf(quillback, { signatures: [buyerSigned] });
    const { bytes } = await printed(paper);
    const text = readThrough(bytes, paper);
    // 05:40 UTC is 23:40 of the day before in Boise, six hours behind in summer.
    for (const part of ['Bram Őrley', '2026-08-15 23:40', '2026-08-16 05:40:09 UTC', 'America/Boise'])
      expect(text).toContain(part);
    expect(text.match(/not signed yet/g)).toHaveLength(1);
    expect(pageTexts(bytes)[0]).toContain('signed by the buyer only');
  });

  test('name both, the seller first, with number and effective date', async () => {
    const paper = paperOf(quillback, {
      title: 'Agreement 14',
      serial: '14',
      effectiveFrom: '2026-08-20',
      standing: 'Signed by both sides.',
      signatures: [buyerSigned, sellerSigned],
    });
    const { bytes } = await printed(paper);
    const text = readThrough(bytes, paper);
    expect(text).not.toContain('not signed');
    expect(text.indexOf('Ottilie Zwerń')).toBeLessThan(text.indexOf('Bram Őrley'));
    expect(text.indexOf('Ottilie Zwerń')).toBeGreaterThan(0);
    for (const part of [
      '2026-08-14 15:04',
      '2026-08-14 21:04:27 UTC',
      '2026-08-20 on',
      'Signed by both sides.',
    ])
      expect(text).toContain(part);
    for (const page of pageTexts(bytes)) expect(page).toContain('version 2, signed by both');
  });

  test('wrap words that are wider than the page, and keep the breaks of a text', async () => {
    const long = `Feld${'scheunentor'.repeat(40)}`;
    const paper = paperOf({
      ...quillback,
      seller: long,
      conditions: { notes: `First rule.\nSecond ${long}` },
    });
    const { bytes } = await printed(paper);
    const pages = pageTexts(bytes);
    const whole = pages.join('').replace(/\s+/g, '');
    expect(whole).toContain(`${long}sells`);
    expect(whole).toContain(`Second${long}`);
    expect(pages.join('\n')).toMatch(/First rule\.\n/);
    for (const page of pages) expect(page).toContain(paper.fingerprint);
  });
});
