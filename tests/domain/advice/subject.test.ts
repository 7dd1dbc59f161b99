/**
 * How what advice is about is called, to either side and to whoever has only a link.
 */
import { expect, test } from 'vitest';
import { type OtherSide, type SubjectKind, subjectInWords } from '../../../src/domain/advice/subject.ts';

const SELLER: OtherSide = { name: 'Quillback Acres', side: 'seller' };
const BUYER: OtherSide = { name: 'Tarn Hollow Dairy', side: 'buyer' };

test.each<[SubjectKind, number | null, string | null, OtherSide | undefined, string]>([
  ['lot', 3, null, undefined, 'lot 3'],
  ['lot', 3, null, SELLER, 'lot 3 of Quillback Acres'],
  ['lot', null, null, undefined, 'the lot'],
  ['offer', 3, null, undefined, 'the offer on lot 3'],
  ['offer', 3, null, SELLER, 'the offer on lot 3 of Quillback Acres'],
  ['offer', 3, null, BUYER, 'the offer of Tarn Hollow Dairy on lot 3'],
  ['offer', null, 'L3-A7F2', BUYER, 'the proposal on agreement L3-A7F2 with Tarn Hollow Dairy'],
  ['offer', null, null, undefined, 'the offer'],
  ['agreement', null, 'L3-A7F2', undefined, 'agreement L3-A7F2'],
  ['agreement', null, 'L3-A7F2', SELLER, 'agreement L3-A7F2 with Quillback Acres'],
  ['agreement', null, null, undefined, 'the agreement'],
])('%s %s %s %o is %s', (kind, lotNumber, agreementNumber, other, words) => {
  expect(subjectInWords(kind, { lotNumber, agreementNumber }, other)).toBe(words);
});
