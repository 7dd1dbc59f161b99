/**
 * The paper that a laboratory or a scale gives with a figure, as a small PDF: the same figures give the same bytes, so that
 * a story that is played again is known again.
 */
import { PDFDocument, StandardFonts } from 'pdf-lib';
import type { GivenFile } from '../src/usecases/files/keep-file.ts';

const [WIDTH, HEIGHT, MARGIN] = [420, 300, 40];

/** A page with a heading and lines below it. */
export async function paperReport(
  name: string,
  [heading = '', ...lines]: readonly string[],
): Promise<GivenFile> {
  const pdf = await PDFDocument.create({ updateMetadata: false });
  const [bold, plain] = [
    await pdf.embedFont(StandardFonts.HelveticaBold),
    await pdf.embedFont(StandardFonts.Helvetica),
  ];
  const page = pdf.addPage([WIDTH, HEIGHT]);
  page.drawText(heading, { x: MARGIN, y: HEIGHT - MARGIN - 16, size: 16, font: bold });
  for (const [index, line] of lines.entries()) {
    page.drawText(line, { x: MARGIN, y: HEIGHT - MARGIN - 48 - 18 * index, size: 11, font: plain });
  }
  return { name, bytes: await pdf.save() };
}
