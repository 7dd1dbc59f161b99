/**
 * A new lot: first what it is and how it is to be priced, then all the rest.
 */
import { randomUUID } from 'node:crypto';
import { FEED_KINDS } from '../../../domain/agreement/measures.ts';
import { isTimeZone } from '../../../domain/dates/instant.ts';
import { NO_ONE_YET } from '../../../domain/lots/lot-document.ts';
import { currencyDecimals } from '../../../domain/money/currency.ts';
import { TEMPLATES } from '../../../domain/templates/templates.ts';
import { type LotDefaults, readLotDefaults } from '../../../usecases/lots/lot-defaults.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { type Asked, askedText } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { GasCaution, SamplingCaution } from '../cautions.tsx';
import { lotFields } from '../form/lot-fields.ts';
import { saveLot } from '../form/save-lot.ts';
import { feedTitle } from '../lot-words.ts';
import { BeginForm } from './begin-form.tsx';

export const metadata = { title: 'Sell feed' };

export default async function NewLotPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const defaults = await ask(readLotDefaults);
  const locale = await readerLocale();
  const begun = readBeginning(asked);
  if (!begun || 'faults' in begun) {
    return <BeginForm asked={asked} defaults={defaults} faults={begun?.faults ?? {}} />;
  }
  const { feed, currency, timeZone, ton, template } = begun;
  const asking = template.draw({ ...NO_ONE_YET, feed, currency, timeZone, metric: ton === 'tonne' });
  return (
    <div className="lot-form">
      <h1>Sell feed</h1>
      <p>
        {feedTitle(feed)}. Prices in {currency}, days by the clock of {timeZone}.{' '}
        <a href="/lots/new">Another kind</a>
      </p>
      <SamplingCaution />
      <GasCaution />
      <RecordForm
        action={saveLot}
        submit="Write it down as a draft"
        requestKey={randomUUID()}
        fields={lotFields({
          lot: { ...defaults, feed, currency, timeZone, ton },
          asking,
          address: '',
          files: [],
          lotTests: [],
          quotes: {},
          locale,
        })}
      />
    </div>
  );
}

interface Beginning extends Required<Pick<LotDefaults, 'feed' | 'currency' | 'timeZone' | 'ton'>> {
  readonly template: (typeof TEMPLATES)[number];
}

/** What was chosen first; faults by field; undefined where nothing was. */
function readBeginning(
  asked: Asked,
): Beginning | { readonly faults: Readonly<Record<string, string>> } | undefined {
  const chosen = askedText(asked, 'feed');
  if (chosen === undefined) return undefined;
  const feed = FEED_KINDS.find((kind) => kind === chosen);
  const currency = (askedText(asked, 'currency') ?? '').trim().toUpperCase();
  const timeZone = (askedText(asked, 'timeZone') ?? '').trim();
  const template = TEMPLATES.find(({ id }) => id === askedText(asked, 'template'));
  const ton = askedText(asked, 'ton') === 'tonne' ? 'tonne' : 'short-ton';
  const faults = {
    ...(feed ? {} : { feed: 'must be chosen' }),
    ...(currencyDecimals(currency) === undefined ? { currency: 'must be its three letters, like USD' } : {}),
    ...(isTimeZone(timeZone) ? {} : { timeZone: 'must be a time zone, like America/Boise' }),
    ...(template ? {} : { template: 'must be chosen' }),
  };
  if (!feed || !template || Object.keys(faults).length > 0) return { faults };
  return { feed, currency, timeZone, ton, template };
}
