/**
 * What the journal remembers of a quote.
 */
import type { QuoteFact } from '../../journal/facts.ts';
import type { QuoteRow } from '../../store/rows/quote-rows.ts';

export function quoteFact({ series, date, price, version, reason }: QuoteRow): QuoteFact {
  return {
    ...{ series, date, price },
    ...(version === 1 ? {} : { version: String(version) }),
    ...(reason === null ? {} : { reason }),
  };
}
