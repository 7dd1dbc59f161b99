/**
 * What stands on every page of a paper: at the foot what it is of, its fingerprint and page x of y; at the head of
 * every page but the first, which paper goes on here.
 */
import type { PageInk } from './page-ink.ts';
import type { Paper } from './paper.ts';
import type { Sheet } from './sheet.ts';
import { wrapText } from './wrap-text.ts';

export interface Frame {
  /** Above every page but the first: "Invoice A-26-014/T1: Quillback Acres to Tarn Hollow Dairy". */
  readonly running: string;
  /** Below every page, each wrapped on its own. */
  readonly foot: readonly string[];
}

/** What a page is set on. */
export interface PageSetting {
  readonly frame: Frame;
  readonly sheet: Sheet;
  readonly paper: Paper;
}

type PageNumber = { readonly page: number; readonly of: number };

const FOOTER_LEADING = 9.5;
const RUNNING_LEADING = 11;
/** Width kept free for "page x of y". */
const PAGE_NUMBER_WIDTH = 80;
/** From the paper's lower edge to the last line of the foot, in points. */
const FOOT_EDGE = 20;
/** White space between the text of a page and its foot, in points. */
const ABOVE_FOOT = 5;

function footerLines({ frame, sheet }: PageSetting): string[] {
  return frame.foot.flatMap((line) => wrapText(line, sheet.width - PAGE_NUMBER_WIDTH, sheet.footer));
}

function runningLines({ frame, sheet }: PageSetting): string[] {
  return wrapText(frame.running, sheet.width, sheet.label);
}

/** Height in points from the paper's top to where the content of a page begins; page 0 is the first. */
export function contentTop(page: number, setting: PageSetting): number {
  const { margin } = setting.paper;
  if (page === 0) return margin.top;
  return margin.top + runningLines(setting).length * RUNNING_LEADING + 12;
}

/** Height in points that the content of a page has; a foot of many lines takes from it. */
export function contentRoom(page: number, setting: PageSetting): number {
  const { height, margin } = setting.paper;
  const foot = FOOT_EDGE + footerLines(setting).length * FOOTER_LEADING + ABOVE_FOOT;
  return height - Math.max(margin.bottom, foot) - contentTop(page, setting);
}

/** Draws head and foot of one page; pages count from 1 within their paper. */
export function drawFrame(ink: PageInk, setting: PageSetting & PageNumber): void {
  const { sheet, paper, page, of } = setting;
  if (page > 1) {
    const lines = runningLines(setting);
    for (const [index, line] of lines.entries()) {
      ink.text(line, sheet.left, paper.margin.top + 8 + index * RUNNING_LEADING, sheet.label);
    }
    const under = paper.margin.top + lines.length * RUNNING_LEADING + 3;
    ink.lines([[sheet.left, under, sheet.right, under]], sheet.hairline);
  }
  const lines = footerLines(setting);
  const last = paper.height - FOOT_EDGE;
  for (const [index, line] of lines.entries()) {
    ink.text(line, sheet.left, last - (lines.length - 1 - index) * FOOTER_LEADING, sheet.footer);
  }
  ink.textEndingAt(`page ${page} of ${of}`, sheet.right, last, sheet.footer);
}
