/**
 * Quotes of a file beside those that are recorded.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { readQuoteRow } from '../../domain/tables/other-rows.ts';
import { PRICES } from '../../domain/tables/table-shape.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readQuotes } from '../../store/rows/quote-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { seriesOf } from '../prices/followed-series.ts';
import { othersSeries, tellOthersSeries } from '../prices/series-terms.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';
import { isSame, type Judge, type Judgement, NEW, recordedAs, wrongRow } from './judgement.ts';

/** A price of a day that is not over, or is to come, would close the days before it. */
export function judgeQuotes(tx: Transaction, context: Context, found: FoundAgreement): Judge {
  const read = (rows: readonly InputRow[]) =>
    readInputRows(rows, { shape: PRICES, read: readQuoteRow, key: ['series', 'date'] });
  const followed = seriesOf(found);
  const today = zoneCalendar(found.agreement.timeZone).dateAt(context.now());
  return {
    read,
    compare: async (rows) => {
      const recorded = new Map(
        (await readQuotes(tx, found.row.id)).map((quote) => [`${quote.date} ${quote.series}`, quote]),
      );
      const { caller } = context;
      const others = await othersSeries(tx, { found, caller, series: followed });
      return read(rows).map(({ found: { series, date }, text }): Judgement => {
        if (!followed.includes(series)) {
          return wrongRow(
            'series',
            `must be a price that this agreement follows: ${followed.join(', ')}; found "${series}"`,
          );
        }
        const before = recorded.get(`${date} ${series}`);
        const price = text('price');
        if (before) {
          const difference = { column: 'price', recorded: before.price, given: price };
          return recordedAs(isSame(before.price, price) ? [] : [difference]);
        }
        if (others.includes(series))
          return wrongRow('series', `is not yours: ${tellOthersSeries({ found, caller }, series)}`);
        return date > today ? wrongRow('date', `is still to come; found ${date}`) : NEW;
      });
    },
  };
}
