import { PDFDocument } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import type { InvoiceData } from '../../src/documents/invoice/invoice-data.ts';
import { type InvoiceOutcome, renderInvoices } from '../../src/documents/invoice/render-invoice.ts';
import { fonts } from './font-bytes.ts';
import { crowdedInvoice, fingerprint, load, loadInvoice, seasonInvoice } from './invoice-samples.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from './pdf-text.ts';

const order = { paper: 'letter', fonts, createdOn: '2026-09-21T08:00:00-06:00', language: 'en-US' } as const;

function print(...invoices: readonly InvoiceData[]): Promise<InvoiceOutcome> {
  return renderInvoices({ ...order, invoices });
}

async function printed(...invoices: readonly InvoiceData[]): Promise<{ bytes: Uint8Array; pages: number }> {
  const outcome = await print(...invoices);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join('\n'));
  return outcome;
}

describe('the file', () => {
  test('is the same, byte for byte, each time', async () => {
    const first = await printed(seasonInvoice(7), crowdedInvoice);
    const second = await printed(seasonInvoice(7), crowdedInvoice);
    expect(Buffer.from(first.bytes).equals(Buffer.from(second.bytes))).toBe(true);
    const other = await renderInvoices({
      ...order,
      createdOn: '2026-09-22T08:00:00-06:00',
      invoices: [loadInvoice],
    });
    expect(other.ok && Buffer.from(other.bytes).equals(Buffer.from(first.bytes))).toBe(false);
  });

  test('has its title, language, date and paper', async () => {
    const { bytes } = await printed(loadInvoice);
    const document = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(document.getTitle()).toBe('Invoice A-26-014/T1: Quillback Acres to Tarn Hollow Dairy');
    expect(document.getCreationDate()?.toISOString()).toBe('2026-09-21T14:00:00.000Z');
    expect(String(document.catalog.get(document.context.obj('Lang')))).toContain('0065006E002D00550053');
    expect(document.getPage(0).getSize()).toEqual({ width: 612, height: 792 });
    const a4 = await renderInvoices({ ...order, paper: 'a4', invoices: [loadInvoice] });
    if (!a4.ok) throw new Error('problems');
    expect((await PDFDocument.load(a4.bytes)).getPage(0).getSize()).toEqual({
      width: 595.28,
      height: 841.89,
    });
  });

  test('is a settlement sheet where it is called one, and nowhere an invoice', async () => {
    const { bytes } = await printed({ ...loadInvoice, paper: 'settlement' });
    const document = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(document.getTitle()).toBe('Settlement of load T1: Quillback Acres to Tarn Hollow Dairy');
  });

  test.skipIf(!hasPdftotext)(
    'says on a settlement sheet that it asks for no payment (needs pdftotext)',
    async () => {
      const [text = ''] = await pageTexts((await printed({ ...loadInvoice, paper: 'settlement' })).bytes);
      expect(text).toContain('This is not an invoice');
      expect(text).not.toMatch(/Invoice|request for payment/);
    },
  );

  test('is one page for one load, even of twelve lines', async () => {
    expect((await printed(loadInvoice)).pages).toBe(1);
    const twelve = [...load.lines, ...load.lines, ...load.lines];
    expect((await printed({ ...loadInvoice, loads: [{ ...load, lines: twelve }] })).pages).toBe(1);
  });
});

describe('what cannot be printed', () => {
  test('is reported with its place and code, and nothing is printed', async () => {
    const outcome = await print(loadInvoice, {
      ...loadInvoice,
      buyer: 'Tarn \u{1F33D} Dairy',
      loads: [{ ...load, truck: '玉 4' }],
    });
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.problems.map(({ place }) => place)).toEqual([
      'invoices[1].buyer',
      'invoices[1].loads[0].truck',
    ]);
    expect(outcome.problems[0]).toMatchObject({ kind: 'missing-characters', characters: ['\u{1F33D}'] });
    expect(outcome.problems[0]?.message).toContain('U+1F33D');
    expect(outcome.problems[1]).toMatchObject({ characters: ['玉'] });
  });

  test('includes a feed named by the one word that means two feeds', async () => {
    const outcome = await print({ ...loadInvoice, feed: ' Earlage' });
    expect(outcome).toMatchObject({
      ok: false,
      problems: [{ kind: 'vague-feed', place: 'invoices[0].feed' }],
    });
  });

  test('is refused as a fault of the caller where there is no invoice', async () => {
    await expect(print()).rejects.toThrow(RangeError);
  });
});

describe.skipIf(!hasPdftotext)(`the pages as read back (skipped where ${withoutPdftotext})`, () => {
  test('carry agreement, version, fingerprint and page x of y, each one', async () => {
    const { bytes, pages } = await printed(seasonInvoice(12), loadInvoice);
    const texts = pageTexts(bytes);
    expect(texts).toHaveLength(pages);
    const season = texts.slice(0, -1);
    season.forEach((text, index) => {
      expect(text).toContain(`page ${index + 1} of ${season.length}`);
    });
    expect(texts.at(-1)).toContain('page 1 of 1');
    for (const text of texts) {
      expect(text).toContain('Agreement A-26-014, version 2');
      expect(text).toContain(fingerprint);
    }
  });

  test('show every figure of the load, its unit and how it came about', async () => {
    const [page = ''] = pageTexts((await printed(loadInvoice)).bytes);
    const wanted = [
      'Quillback Acres',
      'Tarn Hollow Dairy',
      'The buyer owes the seller',
      'USD 1,986.85',
      '78,220 lb',
      '31,100 lb',
      'Red Kettle 4',
      'water 40.8 %',
      'the rest 8.6 %',
      'Sample S1',
      '31.3 % of dry matter',
      'corn: corn-elevator-bid',
      '21,215.945915',
      '−71.83',
      '−4.25',
      '47,120 lb ÷ 2,000 × −4.25 USD',
      'Load T1, total',
    ];
    for (const text of wanted) expect(page).toContain(text);
  });

  test('print long names, every measure and pounds beside kilograms', async () => {
    const text = pageTexts((await printed(crowdedInvoice)).bytes).join('\n');
    for (const word of [
      'Łódź-Peñasco-Győr',
      'Sallowfen',
      '21,373 kg',
      '47,120 lb',
      '2 µg/kg as-fed',
      '1,180 µm',
    ]) {
      expect(text).toContain(word);
    }
    expect(text).toContain('the rest, fibre (NDF) not tested 27.2 %');
    expect(text).toContain('Not on this invoice: 1 load. T2 (waits for its laboratory result)');
  });

  test('repeat the heading of the loads on each page of the table', async () => {
    const texts = pageTexts((await printed(seasonInvoice(80))).bytes);
    const tablePages = texts.filter((text) => /^T\d+ .*1,986\.85$/m.test(text));
    expect(tablePages.length).toBeGreaterThan(1);
    for (const text of tablePages) expect(text).toContain('Water, starch, fibre, rest');
  });

  test('never leave a total without the row before it, however many loads there are', async () => {
    for (let count = 24; count <= 40; count += 1) {
      const texts = pageTexts((await printed(seasonInvoice(count))).bytes);
      const page = texts.find((text) => text.includes(`All ${count} loads`)) ?? '';
      expect(page).toMatch(new RegExp(`^T${count} .*1,986\\.85$`, 'm'));
      const last = texts.at(-1) ?? '';
      expect(last).toContain('Invoice total');
      expect(last).toContain(`Load T${count}, total`);
    }
  });

  test('call a negative total what it is', async () => {
    const [page = ''] = pageTexts((await printed(seasonInvoice(2))).bytes);
    expect(page).toContain('The seller owes the buyer');
    expect(page).toContain('−79,474.00');
  });
});
