import { PDFDocument } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import { renderMoneyDocument } from '../../../src/documents/money-document/render-money-document.ts';
import type { DocumentLine, MoneyDocument } from '../../../src/domain/money/money-document.ts';
import { fonts } from '../font-bytes.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from '../pdf-text.ts';
import {
  creditNote,
  crowdedInvoice,
  FINGERPRINT,
  fullInvoice,
  interestInvoice,
  invoice,
  loadLines,
  longInvoice,
  yenInvoice,
} from './money-samples.ts';

const order = { fonts, paper: 'letter', language: 'en-US' } as const;

function print(document: MoneyDocument) {
  return renderMoneyDocument({ ...order, document });
}

async function printed(document: MoneyDocument): Promise<{ bytes: Uint8Array; pages: number }> {
  const outcome = await print(document);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join('\n'));
  return outcome;
}

/** All pages as one text; where lines break says nothing. */
async function textOf(document: MoneyDocument): Promise<string> {
  return pageTexts((await printed(document)).bytes)
    .join('\n')
    .replace(/\s+/g, ' ');
}

describe('the file', () => {
  test('is the same, byte for byte, each time', async () => {
    const [first, second] = [await printed(fullInvoice), await printed(fullInvoice)];
    expect(Buffer.from(first.bytes).equals(Buffer.from(second.bytes))).toBe(true);
    const other = await printed({ ...fullInvoice, issuedOn: '2026-09-21' });
    expect(Buffer.from(other.bytes).equals(Buffer.from(first.bytes))).toBe(false);
  });

  test('has its title, language and paper, and the day of issue as its date', async () => {
    const { bytes } = await printed(creditNote);
    const file = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(file.getTitle()).toBe('Credit note 21: Quillback Acres to Tarn Hollow Dairy');
    expect(file.getCreationDate()?.toISOString()).toBe('2026-09-20T00:00:00.000Z');
    expect(String(file.catalog.get(file.context.obj('Lang')))).toContain('0065006E002D00550053');
    expect(file.getPage(0).getSize()).toEqual({ width: 612, height: 792 });
    const a4 = await renderMoneyDocument({ ...order, paper: 'a4', document: creditNote });
    if (!a4.ok) throw new Error('problems');
    expect((await PDFDocument.load(a4.bytes)).getPage(0).getWidth()).toBe(595.28);
  });

  test('tells of each page of 500 loads, within seconds', { timeout: 30_000 }, async () => {
    const told: number[] = [];
    const started = performance.now();
    const outcome = await renderMoneyDocument({
      ...order,
      document: longInvoice(500),
      onPage: (pages) => told.push(pages),
    });
    // About a second; ten times that would be a fault.
    expect(performance.now() - started).toBeLessThan(10_000);
    if (!outcome.ok) throw new Error('problems');
    expect(outcome.pages).toBeGreaterThan(100);
    expect(told).toEqual(Array.from({ length: outcome.pages }, (_, index) => index + 1));
  });
});

describe('what cannot be printed', () => {
  test('is reported with its place and code, and nothing is printed', async () => {
    const outcome = await print({
      ...fullInvoice,
      buyer: 'Tarn \u{1F33D} Dairy',
      deductions: fullInvoice.deductions.map((line) => ({ ...line, payee: '玉 Board' })),
    });
    if (outcome.ok) throw new Error('printed');
    const places = outcome.problems.map(({ place }) => place);
    expect(places[0]).toBe('document.buyer');
    expect(places).toContain('document.deductions[2].payee');
    expect(outcome.problems[0]).toMatchObject({ kind: 'missing-characters', characters: ['\u{1F33D}'] });
    expect(outcome.problems[0]?.message).toContain('U+1F33D');
  });

  test('includes marks of a language that the fonts lack', async () => {
    const outcome = await renderMoneyDocument({ ...order, language: 'ar-EG', document: invoice });
    expect(outcome).toMatchObject({ ok: false, problems: [{ place: 'language' }] });
  });

  test('includes a feed named by the one word that means two feeds', async () => {
    expect(await print({ ...invoice, feed: 'Earlage' })).toMatchObject({
      ok: false,
      problems: [{ kind: 'vague-feed', place: 'document.feed' }],
    });
  });
});

describe.skipIf(!hasPdftotext)(`the pages as read back (skipped where ${withoutPdftotext})`, () => {
  test('carry document, agreement, version, fingerprint and page x of y, each one', async () => {
    const { bytes, pages } = await printed(fullInvoice);
    const texts = pageTexts(bytes);
    expect(pages).toBe(2);
    texts.forEach((text, index) => {
      expect(text).toContain(`page ${index + 1} of ${pages}`);
      expect(text).toContain('Invoice 18, issued 2026-09-20. Agreement A-26-014, version 2');
      expect(text).toContain(FINGERPRINT);
    });
  });

  test('show every figure, name and derivation', async () => {
    const text = await textOf(fullInvoice);
    const wanted = [
      'The buyer owes the seller',
      'USD 5,041.18',
      'due 2026-10-20',
      'Quillback Acres',
      'Tarn Hollow Dairy',
      'whole-ear corn (the ground ear: grain, cob and husk; also called snaplage)',
      '2026-09-14 to 2026-09-15',
      'Load T1, delivered 2026-09-14',
      'Load T3, delivered 2026-09-15',
      'Grain, by its starch 21,215.945915 lb 0.0855875 1,815.82',
      '47,120 lb ÷ 2,000 × −4.25 USD',
      'Fibre above range 13.94752 short ton −5.15 −71.83',
      'Load T3, total 1,986.85',
      'Corn check-off, paid on to Fenwright Corn Board',
      'Corn check-off, total 11.37',
      'Scale fee, kept by the buyer',
      'Load T1, delivered 2026-09-14 3 2026-09-15 900.00',
      'Goods 5,960.55',
      'Less deductions −19.37',
      'Less advances −900.00',
      'To pay the buyer owes the seller, due 2026-10-20 USD 5,041.18',
      'Due 30 days after the invoice is issued.',
      'bears 6.5 % interest a year',
    ];
    for (const part of wanted) expect(text).toContain(part);
  });

  test('say who drew it up where that is the buyer, and only there', async () => {
    expect(await textOf(fullInvoice)).toContain(
      'Self-billing: Tarn Hollow Dairy, the buyer, draws up this invoice in the name of Quillback Acres, the seller, as they agreed.',
    );
    expect(await textOf(invoice)).not.toContain('Self-billing');
  });

  test('say to whom payment is made out, at the top and beside the total', async () => {
    const words =
      'Make payment out to Quillback Acres and Sallowfen Farm Lending together. A lien notice is recorded.';
    expect((await textOf(fullInvoice)).split(words)).toHaveLength(3);
    expect(await textOf(invoice)).not.toContain('together');
    const three = await textOf({ ...invoice, jointPayees: ['Sallowfen Farm Lending', 'Oddmere Bank'] });
    expect(three).toContain(
      'Quillback Acres, Sallowfen Farm Lending and Oddmere Bank together. Lien notices',
    );
    const noted = await textOf({ ...creditNote, jointPayees: ['Sallowfen Farm Lending'] });
    expect(noted).not.toContain('Make payment');
    expect(noted).toContain('Payments for this feed are made out to Quillback Acres and Sallowfen Farm');
  });

  test('say what a credit note corrects, why, and that it lowers what is owed', async () => {
    const text = await textOf(creditNote);
    for (const part of [
      'Lowers what the buyer owes by Credit note 21 USD 35.57',
      'Total lowers what the buyer owes by USD 35.57',
      'Corrects Invoice 17 of 2026-09-20',
      'Why: The retest of sample S1 found NDF at 33.0 % of dry matter.',
      'It lowers what Tarn Hollow Dairy, the buyer, owes Quillback Acres, the seller, by USD 35.57. A credit note has no due date.',
      '−35.57',
    ]) {
      expect(text).toContain(part);
    }
    expect(text).not.toContain('2026-10-20');
    expect(text).not.toContain('To pay');
  });

  test('name deductions that a credit note gives back', async () => {
    const text = await textOf({
      ...creditNote,
      deductions: fullInvoice.deductions.slice(0, 1).map((line) => ({ ...line, amount: '-3.79' })),
      totals: { goods: '-35.57', deductions: '-3.79', advances: '0.00', payable: '-31.78' },
    });
    expect(text).toContain('Deductions given back 3.79');
    expect(text).toContain('USD 31.78');
  });

  test('say that the seller owes where advances were more than the goods', async () => {
    const text = await textOf({
      ...fullInvoice,
      totals: { ...fullInvoice.totals, advances: '6000.00', payable: '-58.82' },
    });
    expect(text).toContain('Total the seller owes the buyer USD 58.82');
    expect(text).not.toContain('due 2026-10-20');
    expect(text).not.toContain('To pay');
  });

  test('print interest without a load, and what it is about', async () => {
    const text = await textOf(interestInvoice);
    for (const part of [
      'Interest invoice 9',
      'Is about Invoice 17 of 2026-09-20',
      '1986.85 × 10 days × 6.5 %',
      'Interest 3.59',
    ])
      expect(text).toContain(part);
    expect(text).not.toContain('Delivered');
    expect(text).not.toContain('Not of one load');
  });

  test('print yen without decimals, and figures as the language groups them', async () => {
    expect(await textOf(yenInvoice)).toContain('JPY 294,011');
    expect(await textOf(yenInvoice)).not.toMatch(/294,011\.\d/);
    const outcome = await renderMoneyDocument({ ...order, language: 'de-DE', document: invoice });
    if (!outcome.ok) throw new Error('problems');
    expect(pageTexts(outcome.bytes).join('')).toContain('21.215,945915');
  });

  test('print long names, tickets and reasons whole', async () => {
    const text = (await textOf(crowdedInvoice)).replaceAll(' ', '');
    for (const part of [
      crowdedInvoice.seller,
      crowdedInvoice.buyer,
      crowdedInvoice.reason ?? '',
      'SCALEHOUSE-NORTH-2026-000000000000000001-REWEIGHED-AND-CORRECTED-BY-BOTH-PARTIES',
      '1,234,561,815.82',
    ]) {
      expect(text).toContain(part.replaceAll(' ', ''));
    }
  });

  test('repeat the heading of the lines on each page, and name the load that goes on', async () => {
    const texts = pageTexts((await printed(longInvoice(40))).bytes);
    const withLines = texts.filter((text) => /Hauling +23\.56/.test(text));
    expect(withLines.length).toBeGreaterThan(5);
    for (const text of withLines) expect(text).toMatch(/Quantity +Unit +Rate, USD a unit +Amount, USD/);
    const many = {
      ...invoice,
      lines: longInvoice(20).lines.map((line) => ({
        ...line,
        load: { ticket: 'T9', deliveredOn: '2026-09-14' },
      })),
    };
    const [first = '', second = ''] = pageTexts((await printed(many)).bytes);
    expect(first).not.toContain('Load T9, continued');
    expect(second).toMatch(/Load T9, continued +Quantity/);
  });

  describe('never leave a total without the row before it', () => {
    /** Lines of one load, each as high as a total. */
    const lines = (count: number): DocumentLine[] =>
      Array.from({ length: count }, (_, index) => ({
        load: { ticket: 'T9', deliveredOn: '2026-09-14' },
        label: `Line ${index + 1}`,
        quantity: '1',
        unit: 'load',
        rate: '1',
        amount: '1.00',
        how: '',
      }));
    /** The first count of lines that needs a second page. */
    const turnOf = async (make: (count: number) => MoneyDocument): Promise<number> => {
      let turn = 20;
      expect((await printed(make(turn))).pages).toBe(1);
      while ((await printed(make(turn))).pages === 1) turn += 1;
      return turn;
    };

    test('of the whole', async () => {
      const make = (count: number) => ({ ...invoice, terms: [], lines: lines(count) });
      const turn = await turnOf(make);
      for (const count of [turn - 1, turn, turn + 1]) {
        const texts = pageTexts((await printed(make(count))).bytes);
        const end = texts.find((text) => text.includes('Goods')) ?? '';
        expect(end).toContain('To pay');
        expect(end).toMatch(new RegExp(`Line ${count} `));
      }
    });

    test('of a load', async () => {
      const make = (count: number) => ({
        ...invoice,
        terms: [],
        lines: [...lines(count), ...loadLines('T10').slice(0, 1)],
      });
      const turn = await turnOf(make);
      // The second load and the total go over first, then the end of the load itself.
      let atEnd = 0;
      for (let count = turn; count <= turn + 12; count += 1) {
        const texts = pageTexts((await printed(make(count))).bytes);
        const page = texts.findIndex((text) => text.includes('Load T9, total'));
        expect(texts[page]).toMatch(new RegExp(`Line ${count} `));
        if (page === 1) atEnd += 1;
      }
      expect(atEnd).toBeGreaterThan(1);
    });
  });
});
