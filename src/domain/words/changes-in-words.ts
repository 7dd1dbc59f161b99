/**
 * What differs between two versions of an agreement, in its own words: the sentences that went and those that came,
 * section by section. Two versions that say the same have no changes.
 */
import type { Agreement } from '../agreement/document.ts';
import { agreementInWords, type Section } from './agreement-words.ts';

export interface WordChange {
  /** Of the section in the later version; in the earlier one where the section went. */
  readonly heading: string;
  /** Paragraphs that are in the earlier version alone, in its order. */
  readonly before: readonly string[];
  /** Paragraphs that are in the later version alone, in its order. */
  readonly after: readonly string[];
}

/** One change for each section that differs, in the order of the later version; sections that went come last. */
export function changesInWords(before: Agreement, after: Agreement): readonly WordChange[] {
  const earlier = named(agreementInWords(before));
  const later = named(agreementInWords(after));
  const headings = [...later.keys(), ...[...earlier.keys()].filter((key) => !later.has(key))];
  return headings.flatMap((key) => {
    const change = changeOf(earlier.get(key), later.get(key));
    return change ? [change] : [];
  });
}

/** Sections by heading; the first is headed by the agreement's own number, so it goes by its place. */
function named(sections: readonly Section[]): ReadonlyMap<string, Section> {
  return new Map(sections.map((section, index) => [index === 0 ? '' : section.heading, section]));
}

function changeOf(earlier: Section | undefined, later: Section | undefined): WordChange | undefined {
  const heading = later?.heading ?? earlier?.heading ?? '';
  const renamed = earlier && later && earlier.heading !== later.heading;
  const kept = keptParagraphs({
    before: earlier?.paragraphs ?? [],
    after: later?.paragraphs ?? [],
    comparable: heading === NUMBERED ? withoutNumber : (paragraph) => paragraph,
  });
  const before = (earlier?.paragraphs ?? []).filter((_, index) => !kept.earlier.has(index));
  const after = (later?.paragraphs ?? []).filter((_, index) => !kept.later.has(index));
  if (before.length === 0 && after.length === 0 && !renamed) return undefined;
  return {
    heading,
    before: renamed ? [earlier.heading, ...before] : before,
    after: renamed ? [later.heading, ...after] : after,
  };
}

/** The longest run of paragraphs, in order but not without gaps, that both sides have; by their places. */
function keptParagraphs({
  before,
  after,
  comparable,
}: {
  readonly before: readonly string[];
  readonly after: readonly string[];
  readonly comparable: (paragraph: string) => string;
}): { readonly earlier: ReadonlySet<number>; readonly later: ReadonlySet<number> } {
  const [from, to] = [before, after].map((paragraphs) => paragraphs.map(comparable));
  const same = (i: number, j: number) => from?.[i] === to?.[j];
  // lengths[i][j]: how many paragraphs from i and j on can be kept.
  const lengths = Array.from({ length: before.length + 1 }, () =>
    new Array<number>(after.length + 1).fill(0),
  );
  const at = (i: number, j: number) => lengths[i]?.[j] ?? 0;
  for (let i = before.length - 1; i >= 0; i--) {
    const row = lengths[i];
    if (!row) continue;
    for (let j = after.length - 1; j >= 0; j--) {
      row[j] = same(i, j) ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const earlier = new Set<number>();
  const later = new Set<number>();
  for (let i = 0, j = 0; i < before.length && j < after.length; ) {
    if (same(i, j)) {
      earlier.add(i++);
      later.add(j++);
    } else if (at(i + 1, j) >= at(i, j + 1)) i++;
    else j++;
  }
  return { earlier, later };
}

/** The section whose paragraphs are numbered. */
const NUMBERED = 'The price of a load';

/** A line that only got another number, since one was put before it, is the same line. */
function withoutNumber(paragraph: string): string {
  return paragraph.replace(/^\d+\. /, '');
}
