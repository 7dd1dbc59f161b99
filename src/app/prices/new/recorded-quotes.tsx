/**
 * The prices that were recorded last, so that nobody records one twice or wonders which days are missing.
 */
import type { QuoteView } from '../../../usecases/prices/read-quotes.ts';

export interface RecordedQuotesProps {
  readonly quotes: readonly QuoteView[];
  readonly currency: string;
  /** Whether the agreement follows several series, which are then named. */
  readonly isOneOfMany: boolean;
}

export function RecordedQuotes({ quotes, currency, isOneOfMany }: RecordedQuotesProps) {
  if (quotes.length === 0) return null;
  return (
    <section aria-labelledby="recorded">
      <h2 id="recorded">Recorded last</h2>
      <dl className="facts">
        {quotes.map(({ series, date, price }) => (
          <div key={`${series} ${date}`}>
            <dt>{isOneOfMany ? `${date}, ${series}` : date}</dt>
            <dd>
              {price} {currency}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
