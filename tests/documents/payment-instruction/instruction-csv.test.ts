/**
 * Payment instructions as CSV, read back by csv-parse.
 */
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { instructionCsv } from '../../../src/documents/payment-instruction/instruction-csv.ts';
import { INSTRUCTION } from './instructions.ts';

test('a row a payment, whole and in order', () => {
  const [head, ...rows] = instructionCsv(INSTRUCTION).split('\r\n');
  expect(head).toBe(
    'instruction,pay_on,reference,method,payer,payee,made_out_to,account_holder,account_kind,account,bank_kind,bank,currency,amount,invoices',
  );
  expect(rows).toEqual([
    'TH-2026-0007,2026-10-06,TH-7-1,transfer,Tarn Hollow Dairy,Quillback Acres,Quillback Acres,Quillback Acres LLC,iban,GB82 WEST 1234 5698 7654 32,bic,QUILGB22,USD,1880.59,17: 1961.18; 18: -80.59',
    'TH-2026-0007,2026-10-06,TH-7-2,transfer,Tarn Hollow Dairy,Sallowfen Freight,Sallowfen Freight,Sallowfen Freight,other,0004711,aba,123456780,USD,0.10,3: 0.10',
    'TH-2026-0007,2026-10-06,TH-7-3,check,Tarn Hollow Dairy,Quillback Acres,"Quillback Acres and Sallowfen Savings Bank, jointly",,,,,,USD,0.20,19: 0.20',
    '',
  ]);
});

test('no name is run as a formula', () => {
  const payments = INSTRUCTION.payments.map((payment) => ({ ...payment, payee: '=HYPERLINK("x";"y")' }));
  const rows: Record<string, string>[] = parse(instructionCsv({ ...INSTRUCTION, payments }), {
    columns: true,
    record_delimiter: '\r\n',
  });
  expect(rows.map(({ payee }) => payee)).toEqual(Array(3).fill('\'=HYPERLINK("x";"y")'));
  expect(rows[0]?.['made_out_to']).toMatch(/^'=/);
});
