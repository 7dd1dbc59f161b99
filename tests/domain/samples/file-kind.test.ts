/**
 * What a file is, by its first bytes: "%PDF-" (ISO 32000), the PNG signature (RFC 2083), JPEG's start (ITU-T T.81).
 */
import { expect, test } from 'vitest';
import { fileKind, fileName } from '../../../src/domain/files/file-kind.ts';

test.each([
  [[0x25, 0x50, 0x44, 0x46, 0x2d, 0x31], 'application/pdf'],
  [[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a], 'image/png'],
  [[0xff, 0xd8, 0xff, 0xe0], 'image/jpeg'],
  [[0x3c, 0x73, 0x76, 0x67], undefined],
  [[0x4d, 0x5a], undefined],
  [[], undefined],
])('%j is %s', (bytes, kind) => expect(fileKind(Uint8Array.from(bytes))).toBe(kind));

test('a name is kept fit to show, and ends as its kind does', () => {
  expect(fileName('..\\up\\report.exe', 'application/pdf')).toBe('up report.exe.pdf');
  expect(fileName('', 'image/png')).toBe('report.png');
});
