/**
 * Files are known by their first bytes, and their names are made fit to show.
 */
import { describe, expect, test } from 'vitest';
import { fileKind, fileName } from '../../../src/domain/files/file-kind.ts';

const bytes = (text: string) => Uint8Array.from(text, (sign) => sign.charCodeAt(0));

describe('the kind of a file', () => {
  test.each([
    ['%PDF-1.7\n', 'application/pdf'],
    ['\x89PNG\r\n\x1a\n\0\0', 'image/png'],
    ['\xff\xd8\xff\xe0\0\x10JFIF', 'image/jpeg'],
    ['\xff\xd8\xff\xe1', 'image/jpeg'],
    ['', undefined],
    ['%PDF', undefined],
    [' %PDF-1.7', undefined],
    ['<html><script>', undefined],
    ['<svg xmlns="http://www.w3.org/2000/svg">', undefined],
    ['GIF89a', undefined],
    ['\x89PNG\n\x1a\n', undefined],
    ['MZ', undefined],
  ])('%j is %s', (start, kind) => {
    expect(fileKind(bytes(start))).toBe(kind);
  });
});

describe('the name of a file', () => {
  test.each([
    ['test.pdf', 'test.pdf'],
    ['Lot 3.PDF', 'Lot 3.pdf'],
    ['..\\..\\report.exe', 'report.exe.pdf'],
    ['../../etc/passwd', 'etc passwd.pdf'],
    ['a\r\nContent-Type: text/html', 'a Content-Type text html.pdf'],
    ['report\u202Efdp.exe', 'report fdp.exe.pdf'],
    ['"quoted"; filename=x.html', 'quoted ; filename=x.html.pdf'],
    ['', 'report.pdf'],
    ['.pdf', 'report.pdf'],
    ['ж'.repeat(400), `${'ж'.repeat(120)}.pdf`],
  ])('%j is kept as %j', (given, kept) => {
    expect(fileName(given, 'application/pdf')).toBe(kept);
  });
});
