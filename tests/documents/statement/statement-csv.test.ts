import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { safeCsvRow } from '../../../src/documents/csv.ts';
import { type JournalExportRow, journalCsv } from '../../../src/documents/journal-csv.ts';
import { statementCsv } from '../../../src/documents/statement/statement-csv.ts';
import { emptyStatement, sellerStatement } from './statement-samples.ts';

type Row = Record<string, string>;

function rowsOf(text: string): Row[] {
  return parse(text, { columns: true, record_delimiter: '\r\n' }) as Row[];
}

describe('a safe row', () => {
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx', '\nx', '＝1+1', '-2+3+cmd|calc!A0'])(
    'marks the text %j as text',
    (text) => {
      const [[cell] = []] = parse(safeCsvRow([text]), { record_delimiter: '\r\n' }) as string[][];
      expect(cell).toBe(`'${text}`);
    },
  );

  test('leaves other texts and figures as they are, a negative figure too', () => {
    expect(safeCsvRow(['T-1', 'a=b', '', { figure: '-71.83' }, { figure: '0' }])).toBe(
      'T-1,a=b,,-71.83,0\r\n',
    );
  });

  test('quotes commas, quotes and line breaks', () => {
    expect(safeCsvRow(['a,b', 'say "no"', 'two\nlines'])).toBe('"a,b","say ""no""","two\nlines"\r\n');
    expect(safeCsvRow(['=HYPERLINK("x","y")'])).toBe('"\'=HYPERLINK(""x"",""y"")"\r\n');
  });

  test.each(['=1', '', '1e5', '1,000.00', '+1', '1\n', '--1'])('takes %j for no figure', (figure) => {
    expect(() => safeCsvRow([{ figure }])).toThrow(RangeError);
  });
});

describe('a statement as CSV', () => {
  const rows = rowsOf(statementCsv(sellerStatement));
  const of = (section: string) => rows.filter((row) => row['section'] === section);

  test('has every entry between the opening and the closing balance', () => {
    expect(of('entry').map((row) => [row['date'], row['name'], row['amount'], row['balance']])).toEqual([
      ['2026-09-20', 'Invoice 17', '1986.85', '3221.41'],
      ['2026-09-28', 'Credit note 21', '-35.57', '3185.84'],
      ['2026-10-02', 'Payment, check 1043', '-1234.56', '1951.28'],
      ['2026-10-05', 'Invoice 18', '5041.18', '6992.46'],
    ]);
    expect(of('opening').map((row) => row['balance'])).toEqual(['1234.56']);
    expect(of('closing').map((row) => row['balance'])).toEqual(['6992.46']);
    expect(new Set(rows.map((row) => row['currency']))).toEqual(new Set(['USD']));
  });

  test('says whose it is and which way its signs go', () => {
    expect(of('about')[0]).toMatchObject({
      name: 'Statement for Quillback Acres with Tarn Hollow Dairy, 2026-09-01 to 2026-10-31',
      detail: 'Amounts above zero are owed to Quillback Acres, amounts below zero to Tarn Hollow Dairy.',
    });
  });

  test('has the other sections', () => {
    expect(of('ageing').map((row) => row['open'])).toEqual(Object.values(sellerStatement.ageing));
    expect(
      of('open').map((row) => [row['name'], row['due_on'], row['days_late'], row['open'], row['held']]),
    ).toContainEqual(['Invoice 17', '2026-10-20', '11', '1951.28', '0.00']);
    expect(of('held')[0]).toMatchObject({ ticket: 'T2', party: 'Tarn Hollow Dairy', held: '400.00' });
    expect(of('not invoiced').map((row) => [row['loads'], row['amount']])).toEqual([
      ['12', '23841.20'],
      ['5', '7800.00'],
      ['', '3900.00'],
    ]);
    expect(of('lien')[0]).toMatchObject({ party: 'Sallowfen Farm Lending' });
  });

  test('runs nothing of what somebody wrote', () => {
    const evil = '=HYPERLINK("http://127.0.0.1","Pay")';
    const [held] = sellerStatement.held;
    if (!held) throw new Error('no held amount');
    const text = statementCsv({
      ...sellerStatement,
      entries: sellerStatement.entries.map((entry) => ({ ...entry, detail: evil, name: '@x' })),
      held: [{ ...held, reason: '+1', ticket: '-T2', by: '\tx' }],
      liens: [{ agreement: '=A', lender: '＝B', conditions: evil }],
    });
    for (const row of rowsOf(text)) {
      for (const [column, cell] of Object.entries(row)) {
        if (/^-?\d+(\.\d+)?$/.test(cell)) continue;
        expect(cell, column).not.toMatch(/^[=+\-@\t\r＝]/);
      }
    }
    expect(text).toContain(`"'=HYPERLINK(""http://127.0.0.1"",""Pay"")"`);
  });

  test('of nothing has its header and balances still', () => {
    const empty = rowsOf(statementCsv(emptyStatement));
    expect(empty.filter((row) => row['section'] === 'entry')).toEqual([]);
    expect(empty.map((row) => row['section'])).toContain('closing');
  });
});

describe('the journal as CSV', () => {
  const row: JournalExportRow = {
    date: '2026-09-20',
    entryNumber: '412',
    document: 'Invoice 17',
    accountCode: '1200',
    accountName: 'Receivable, Tarn Hollow Dairy',
    memo: '=2+3',
    debit: '1986.85',
    credit: '',
    currency: 'USD',
  };

  test('has one side of each row, and no formula', () => {
    const text = journalCsv([
      row,
      { ...row, accountCode: '4000', accountName: 'Sales', debit: '', credit: '1986.85' },
    ]);
    expect(text).toBe(
      'date,entry_number,document,account_code,account_name,memo,debit,credit,currency\r\n' +
        `2026-09-20,412,Invoice 17,1200,"Receivable, Tarn Hollow Dairy",'=2+3,1986.85,,USD\r\n` +
        `2026-09-20,412,Invoice 17,4000,Sales,'=2+3,,1986.85,USD\r\n`,
    );
  });

  test.each([
    ['both sides', { debit: '1.00', credit: '1.00' }],
    ['neither side', { debit: '', credit: '' }],
    ['a side below zero', { debit: '-1.00', credit: '' }],
    ['nothing', { debit: '', credit: '0.00' }],
    ['no figure', { debit: '=1', credit: '' }],
  ])('refuses %s', (_, sides) => {
    expect(() => journalCsv([{ ...row, ...sides }])).toThrow(RangeError);
  });
});
