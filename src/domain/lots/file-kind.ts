/**
 * What a file is, by its own first bytes and never by its name: reports come as PDF, PNG or JPEG, and nothing else is
 * kept. The name that it came with is for people alone.
 */

export const FILE_KINDS = ['application/pdf', 'image/png', 'image/jpeg'] as const;
export type FileKind = (typeof FILE_KINDS)[number];

/** Longest file that is kept, in bytes: 10 MB. */
export const MOST_FILE_BYTES = 10 * 1024 * 1024;

/** How a kind is called in a sentence, and how its names end. */
export const FILE_KIND_NAMES: Readonly<Record<FileKind, { readonly word: string; readonly ending: string }>> =
  {
    'application/pdf': { word: 'PDF', ending: '.pdf' },
    'image/png': { word: 'PNG picture', ending: '.png' },
    'image/jpeg': { word: 'JPEG picture', ending: '.jpg' },
  };

/** First bytes: "%PDF-" (ISO 32000), the PNG signature (RFC 2083), a JPEG's start of image and next marker (T.81). */
const STARTS: readonly (readonly [FileKind, readonly number[]])[] = [
  ['application/pdf', [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ['image/png', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
  ['image/jpeg', [0xff, 0xd8, 0xff]],
];

/** The kind of a file; undefined for one that is none of ours. */
export function fileKind(bytes: Uint8Array): FileKind | undefined {
  return STARTS.find(([, start]) => start.every((byte, index) => bytes[index] === byte))?.[0];
}

const LONGEST_NAME = 120;
/** No part of a file's name: control characters, what turns text around, and what separates folders. */
const NOT_IN_NAMES = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\\/:*?"<>|]+/gu;

/** A name fit to show and to save under, which ends as its kind does: "..\\report.exe" of a PDF is "report.exe.pdf". */
export function fileName(given: string, kind: FileKind): string {
  const { ending } = FILE_KIND_NAMES[kind];
  const plain = given.normalize('NFC').replace(NOT_IN_NAMES, ' ').replace(/\s+/g, ' ').trim();
  const stem = plain
    .replace(/\.(pdf|png|jpe?g)$/i, '')
    .replace(/^[. ]+/, '')
    .trim();
  return `${Array.from(stem === '' ? 'report' : stem)
    .slice(0, LONGEST_NAME)
    .join('')}${ending}`;
}
