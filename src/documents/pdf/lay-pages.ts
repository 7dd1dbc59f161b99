/**
 * Groups of pieces laid on the pages of one paper, each page with its head and foot, counted within that paper.
 */
import { type Piece, paginate } from './flow.ts';
import { contentRoom, contentTop, drawFrame, type PageSetting } from './page-frame.ts';
import { PageInk } from './page-ink.ts';
import type { PdfDocument } from './pdf-document.ts';

export interface PagesToLay {
  /** Placed top down; what is tied within a group stays together. */
  readonly groups: readonly (readonly Piece[])[];
  /** Told of each page as it has been drawn. */
  readonly onPage?: () => void;
}

/** Adds the pages to the document and gives how many. */
export function layPages(
  document: PdfDocument,
  { groups, onPage, ...setting }: PageSetting & PagesToLay,
): number {
  const pages = paginate(groups, (page) => contentRoom(page, setting));
  for (const [index, placed] of pages.entries()) {
    const ink = new PageInk(setting.paper.height);
    const top = contentTop(index, setting);
    for (const { piece, top: below } of placed) piece.draw(ink, top + below);
    drawFrame(ink, { ...setting, page: index + 1, of: pages.length });
    document.addPage(ink);
    onPage?.();
  }
  return pages.length;
}
