/**
 * The end of every paper whose data was checked for missing characters before it was drawn.
 */
import type { PdfDocument } from './pdf-document.ts';

/** The document's bytes. Throws where the font lacks a character of the form's own words, which is a defect of ours. */
export async function finishedBytes(document: PdfDocument): Promise<Uint8Array> {
  const outcome = await document.finish();
  if ('missing' in outcome) {
    const characters = outcome.missing.map(({ character }) => character).join(' ');
    throw new Error(`the font lacks ${characters} of the form itself`);
  }
  return outcome.bytes;
}
