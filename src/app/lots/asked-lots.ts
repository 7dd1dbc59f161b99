/**
 * What an address asks of the lots for sale, and addresses that carry on from there on the same footing.
 */
import { BASIS_TEXTS, type FeedTexts, FILTER_TEXTS, QUOTE_TEXT } from '../../usecases/lots/feed-request.ts';
import { tidyFigure } from '../builder/figure-text.ts';
import { type Asked, askedText } from '../place/asked.ts';

const FIGURES: readonly string[] = ['rate', 'load', 'within', 'dryFrom', 'dryTo', 'starchFrom', 'ndfTo'];

/** The texts that ask for something, figures as the format writes them. */
export function feedTexts(asked: Asked): FeedTexts {
  const names = [...BASIS_TEXTS, ...FILTER_TEXTS, ...Object.keys(asked).filter(isQuoteName)];
  return new Map(
    names.flatMap((name): [string, string][] => {
      const text = askedText(asked, name)?.trim();
      if (text === undefined || text === '') return [];
      return [[name, isQuoteName(name) || FIGURES.includes(name) ? tidyFigure(text) : text]];
    }),
  );
}

function isQuoteName(name: string): boolean {
  return name.startsWith(QUOTE_TEXT);
}

/** Those of the texts that say on what footing prices are looked at, for the next address. */
export function basisParts(texts: FeedTexts): Readonly<Record<string, string>> {
  const isBasis = (name: string) => isQuoteName(name) || BASIS_TEXTS.some((known) => known === name);
  return Object.fromEntries([...texts].filter(([name]) => isBasis(name)));
}
