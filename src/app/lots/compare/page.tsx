/**
 * Up to five lots side by side: a chart of price against starch, and a table of all that tells them apart.
 */
import { readFeedRequest } from '../../../usecases/lots/feed-request.ts';
import { compareLots, MOST_BESIDE } from '../../../usecases/lots/read-feed-for-sale.ts';
import { type Asked, addressOf } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { StripLegend } from '../../strip/load-strip-picture.tsx';
import { basisParts, feedTexts } from '../asked-lots.ts';
import { lotName } from '../lot-words.ts';
import { BesideTable, type LetteredLot } from './beside-table.tsx';
import { PriceStarchChart } from './price-starch-chart.tsx';

export const metadata = { title: 'Lots side by side' };

const LETTERS = 'ABCDE';

export default async function ComparePage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const locale = await readerLocale();
  const texts = feedTexts(asked);
  const { request } = readFeedRequest(texts);
  const lotIds = [...new Set([asked['lot'] ?? []].flat())];
  const { lots } = await ask((context) => compareLots(context, { lotIds, basis: request, locale }));
  const basis = basisParts(texts);
  const back = addressOf('/lots', basis);
  const lettered = lots.map((lot, index): LetteredLot => ({ letter: LETTERS[index] ?? '', lot }));
  return (
    <>
      <h1>Lots side by side</h1>
      <p>
        <a href={back}>Back to feed for sale</a>
      </p>
      {lotIds.length > MOST_BESIDE ? (
        <p className="refused" role="alert">
          You ticked {lotIds.length} lots; these are the first {MOST_BESIDE}. Tick fewer to see the others.
        </p>
      ) : null}
      {lettered.length < 2 ? (
        <p>Tick two lots or more in the list, up to {MOST_BESIDE}, and they stand beside one another here.</p>
      ) : null}
      {lettered.length === 0 ? null : (
        <>
          <Chart lots={lettered} />
          <StripLegend length="wet tons" />
          <BesideTable lots={lettered} basis={basis} />
        </>
      )}
    </>
  );
}

/** Prices in one money, by one ton; others are named beneath. */
function Chart({ lots }: { readonly lots: readonly LetteredLot[] }) {
  const first = lots.find(({ lot }) => lot.worth.status === 'priced')?.lot;
  if (!first) {
    return (
      <p>
        None of these has a price yet. Give the quotes that they need on the list, and a chart shows here.
      </p>
    );
  }
  const drawn = lots.filter(
    ({ lot }) => lot.worth.status === 'priced' && lot.currency === first.currency && lot.ton === first.ton,
  );
  const untested = drawn.filter(({ lot }) => !lot.starch.isTested);
  const unhauled = drawn.filter(
    ({ lot: { worth } }) => worth.status === 'priced' && worth.haulLacks.length > 0,
  );
  const others = lots.filter((lot) => !drawn.includes(lot));
  return (
    <>
      <PriceStarchChart
        unit={`${first.currency} a ${first.ton} of dry matter`}
        figures={drawn.flatMap(({ letter, lot: { worth, starch } }) =>
          worth.status === 'priced'
            ? [{ letter, starch: Number(starch.plain), price: Number(worth.plain.dry) }]
            : [],
        )}
      />
      {unhauled.length === 0 ? null : (
        <p>
          <strong>{unhauled.map(({ letter }) => letter).join(', ')}: your haulage comes on top.</strong> The
          others are prices delivered.
        </p>
      )}
      {untested.length === 0 ? null : (
        <p className="hint">
          {untested.map(({ letter }) => letter).join(', ')}: starch is not tested; it stands where such feed
          usually does.
        </p>
      )}
      {others.length === 0 ? null : (
        <p className="hint">
          Not on the chart, for want of a price in {first.currency} a {first.ton}:{' '}
          {others.map(({ letter, lot }) => `${letter}, ${lotName(lot)}`).join('; ')}.
        </p>
      )}
    </>
  );
}
