import { PDFDocument } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import { renderStatement } from '../../../src/documents/statement/render-statement.ts';
import type { Statement } from '../../../src/domain/money/statement.ts';
import { fonts } from '../font-bytes.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from '../pdf-text.ts';
import {
  buyerStatement,
  crowdedStatement,
  emptyStatement,
  longStatement,
  sellerStatement,
} from './statement-samples.ts';

const order = { fonts, paper: 'a4', language: 'en-US' } as const;

async function printed(statement: Statement): Promise<{ bytes: Uint8Array; pages: number }> {
  const outcome = await renderStatement({ ...order, statement });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join('\n'));
  return outcome;
}

async function textOf(statement: Statement): Promise<string> {
  return pageTexts((await printed(statement)).bytes)
    .join('\n')
    .replace(/\s+/g, ' ');
}

describe('the file', () => {
  test('is the same, byte for byte, each time, and dated at its last day', async () => {
    const [first, second] = [await printed(sellerStatement), await printed(sellerStatement)];
    expect(Buffer.from(first.bytes).equals(Buffer.from(second.bytes))).toBe(true);
    const file = await PDFDocument.load(first.bytes, { updateMetadata: false });
    expect(file.getTitle()).toBe(
      'Statement for Quillback Acres with Tarn Hollow Dairy, 2026-09-01 to 2026-10-31',
    );
    expect(file.getCreationDate()?.toISOString()).toBe('2026-10-31T00:00:00.000Z');
    expect(String(file.catalog.get(file.context.obj('Lang')))).toContain('0065006E002D00550053');
    expect(file.getPage(0).getWidth()).toBe(595.28);
  });

  test('of 5,000 entries is there within seconds', { timeout: 30_000 }, async () => {
    const started = performance.now();
    const { pages } = await printed(longStatement(5000));
    expect(performance.now() - started).toBeLessThan(10_000);
    expect(pages).toBeGreaterThan(100);
  });

  test('is not made where a character cannot be printed; its place is told', async () => {
    const outcome = await renderStatement({
      ...order,
      statement: {
        ...sellerStatement,
        held: sellerStatement.held.map((held) => ({ ...held, reason: 'Too wet \u{1F33D}' })),
      },
    });
    expect(outcome).toMatchObject({
      ok: false,
      problems: [{ kind: 'missing-characters', place: 'statement.held[0].reason' }],
    });
  });
});

describe.skipIf(!hasPdftotext)(`the pages as read back (skipped where ${withoutPdftotext})`, () => {
  test('say in words who owes whom, to either reader', async () => {
    const seller = await textOf(sellerStatement);
    expect(seller).toContain(
      'Tarn Hollow Dairy owes you, Quillback Acres, USD 6,992.46 at the end of 2026-10-31.',
    );
    expect(seller).toContain(
      'Owed to you: USD 1,951.28 overdue, USD 100.00 due on 2026-10-31, USD 4,641.18 not due yet and USD 400.00 held while it is questioned. On account, not used yet: USD 100.00 paid by Tarn Hollow Dairy.',
    );
    const buyer = await textOf(buyerStatement);
    expect(buyer).toContain('You, Tarn Hollow Dairy, owe Quillback Acres USD 6,992.46 at the end');
    expect(buyer).toContain('You owe: USD 1,951.28 overdue, USD 100.00 due on 2026-10-31');
    expect(buyer).toContain('USD 100.00 paid by you.');
    expect(buyer).not.toContain('owed to you');
    // Every amount has its way in words, so no sign is left to be overlooked.
    expect(seller).not.toContain('−');
    expect(buyer).not.toContain('−');
  });

  test('tell apart what goes either way', async () => {
    const text = await textOf({
      ...sellerStatement,
      closing: '-50.00',
      ageing: {
        ...sellerStatement.ageing,
        notDue: '-70.00',
        days1to30: '20.00',
        held: '0.00',
        onAccount: '0.00',
        total: '-50.00',
      },
      open: [],
    });
    expect(text).toContain('You, Quillback Acres, owe Tarn Hollow Dairy USD 50.00');
    expect(text).toContain('Owed to you: USD 20.00 overdue. You owe: USD 70.00 not due yet.');
  });

  test('show each entry between the opening and the closing balance', async () => {
    const text = await textOf(sellerStatement);
    for (const part of [
      '2026-09-01 Opening balance 1,234.56 owed to you',
      '2026-09-20 A-26-014 Invoice 17 1,986.85 3,221.41 owed to you',
      '2026-09-28 A-26-014 Credit note 21 35.57 3,185.84 owed to you corrects Invoice 17',
      '2026-10-02 A-26-014 Payment, check 1043 1,234.56 1,951.28 owed to you paid on 2026-10-01',
      '2026-10-31 Closing balance 7,028.03 1,270.13 6,992.46 owed to you',
    ]) {
      expect(text).toContain(part);
    }
  });

  test('put a change into the column of the one whom it favours', async () => {
    const columnOf = (text: string, figure: string) => {
      const line = text.split('\n').find((candidate) => candidate.includes(figure)) ?? '';
      return line.indexOf(figure) + figure.length;
    };
    const [seller = ''] = pageTexts((await printed(sellerStatement)).bytes);
    const [buyer = ''] = pageTexts((await printed(buyerStatement)).bytes);
    // The invoice stands left of the credit note for the seller, and right of it for the buyer.
    expect(columnOf(seller, '1,986.85')).toBeLessThan(columnOf(seller, ' 35.57'));
    expect(columnOf(buyer, '1,986.85')).toBeGreaterThan(columnOf(buyer, ' 35.57'));
    expect(seller).toMatch(/In your\s[\s\S]*In their/);
  });

  test('show the ageing, open documents, what is held, what is not invoiced, and liens', async () => {
    const text = await textOf(sellerStatement);
    for (const part of [
      '1 to 30 days late 1,951.28 owed to you',
      'Paid on account, to be set against the rest 100.00 paid to you',
      'Invoice 17 A-26-014 2026-09-20 2026-10-20 11 1,986.85 1,951.28 owed to you',
      'USD 400.00 of what is open is questioned and not due',
      'On account, check 1050 A-26-014 100.00 100.00 paid to you',
      '2026-10-06 A-26-015 Invoice 18, load T2 Tarn Hollow Dairy 400.00 owed to you',
      'Why: The moisture of this load is questioned.',
      '12 loads are settled and on no invoice yet: USD 23,841.20 in your favour, once invoiced.',
      '4 of them are thought to come to about USD 7,800.00 in your favour: this is an estimate, and not owed.',
      'Advances of USD 3,900.00 are invoiced already',
      'a lien notice of Sallowfen Farm Lending is recorded. It says of payment: Payment is made out to the seller and the lender together.',
    ]) {
      expect(text).toContain(part);
    }
    expect(text).not.toContain('31 to 60 days');
  });

  test('say of a statement with nothing in it that there is nothing, and leave the rest out', async () => {
    const { bytes, pages } = await printed(emptyStatement);
    expect(pages).toBe(1);
    const text = pageTexts(bytes).join('').replace(/\s+/g, ' ');
    expect(text).toContain('You, Quillback Acres, and Tarn Hollow Dairy owe each other nothing');
    expect(text).toContain('Nothing was recorded from 2026-09-01 to 2026-10-31.');
    for (const part of ['How late', 'Open documents', 'Held', 'on no invoice', 'Liens', 'Owed to you:'])
      expect(text).not.toContain(part);
  });

  test('carry the heading of the table and page x of y on each page of a long one', async () => {
    const { bytes, pages } = await printed(longStatement(300));
    const texts = pageTexts(bytes);
    expect(pages).toBeGreaterThan(4);
    texts.forEach((text, index) => {
      expect(text).toContain(`page ${index + 1} of ${pages}`);
      expect(text).toContain('Agreement A-26-014. Amounts in USD');
      if (/^20\d\d-\d\d-\d\d +Invoice \d+/m.test(text)) expect(text).toMatch(/Day +What[\s\S]*Balance, USD/);
    });
    expect(texts.filter((text) => text.includes('Balance, USD')).length).toBeGreaterThan(4);
    // Every entry is on one page or another.
    expect(texts.join('').match(/^20\d\d-\d\d-\d\d +(Invoice|Payment)/gm)).toHaveLength(300);
  });

  test('never leave the closing balance without the row before it', async () => {
    // Nothing follows the table, so that a second page is the table's; all rows are as high as the last.
    const alone = (count: number): Statement => {
      const { entries, ...rest } = longStatement(count);
      const bare = entries.map((entry) => ({ ...entry, detail: '' }));
      return { ...rest, entries: bare, ageing: emptyStatement.ageing };
    };
    let turn = 28;
    expect((await printed(alone(turn))).pages).toBe(1);
    while ((await printed(alone(turn))).pages === 1) turn += 1;
    // The first that needs a second page, and one on either side.
    for (const count of [turn - 1, turn, turn + 1]) {
      const texts = pageTexts((await printed(alone(count))).bytes);
      const page = texts.find((text) => text.includes('Closing balance')) ?? '';
      expect(page).toMatch(new RegExp(`(Invoice ${count}|check ${1000 + count - 1}) `));
    }
  });

  test('print yen without decimals', async () => {
    const text = await textOf({
      ...emptyStatement,
      currency: 'JPY',
      opening: '0',
      closing: '1250000',
      ageing: {
        notDue: '1250000',
        days1to30: '0',
        days31to60: '0',
        days61to90: '0',
        over90: '0',
        held: '0',
        onAccount: '0',
        total: '1250000',
      },
    });
    expect(text).toContain('JPY 1,250,000 at the end');
    expect(text).not.toContain('1,250,000.');
  });

  test('print long names, numbers and reasons whole', async () => {
    const text = (await textOf(crowdedStatement)).replaceAll(' ', '');
    for (const part of [
      crowdedStatement.of,
      crowdedStatement.with,
      crowdedStatement.held[0]?.reason ?? '',
      crowdedStatement.entries[0]?.detail ?? '',
      '1,234,561,986.85',
    ]) {
      expect(text).toContain(part.replaceAll(' ', ''));
    }
    expect(text).toContain('6agreements,namedonpage1');
  });
});
