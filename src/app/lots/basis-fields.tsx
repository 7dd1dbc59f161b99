/**
 * On what footing a reader looks at prices: the quotes that asking formulas follow, and what their own haulage costs.
 */
import { type FeedTexts, QUOTE_TEXT } from '../../usecases/lots/feed-request.ts';
import type { AskedQuote } from '../../usecases/lots/lot-quotes.ts';
import type { Problem } from '../../usecases/refusal.ts';
import { AskedField, AskedList } from './asked-field.tsx';

export interface BasisFieldsProps {
  readonly texts: FeedTexts;
  readonly problems: readonly Problem[];
  readonly quotes: readonly AskedQuote[];
  readonly currency: string;
  readonly isMetric: boolean;
}

export function BasisFields({ texts, problems, quotes, currency, isMetric }: BasisFieldsProps) {
  const at = (name: string) => ({
    name,
    value: texts.get(name) ?? '',
    fault: problems.find(({ column }) => column === name)?.message,
  });
  const distanceUnit = isMetric ? 'km' : 'mile';
  return (
    <>
      {quotes.length === 0 ? null : (
        <fieldset>
          <legend>Prices to reckon with</legend>
          <p className="hint">Asking prices follow these. What you type is used on these pages alone.</p>
          <div className="asked">
            {quotes.map(({ key, quote, from, on }) => (
              <AskedField
                key={key}
                {...at(`${QUOTE_TEXT}${key}`)}
                label={`If ${key}, is at`}
                placeholder={from === 'recorded' ? quote : undefined}
                hint={quoteHint(quote, from, on)}
                isWide
              />
            ))}
          </div>
        </fieldset>
      )}
      <details
        className="more-fields"
        open={texts.has('rate') || problems.some(({ column }) => column === 'load')}
      >
        <summary>Your haulage, where the buyer hauls</summary>
        <div className="asked">
          <AskedField {...at('rate')} label="It costs" />
          <AskedField {...at('currency')} value={texts.get('currency') ?? currency} label="in" isText />
          <AskedList
            {...at('per')}
            value={texts.get('per') ?? distanceUnit}
            label="a loaded"
            options={DISTANCES}
          />
          <AskedField {...at('load')} label="with loads of" placeholder={isMetric ? '22000' : '48000'} />
          <AskedList
            {...at('loadUnit')}
            value={texts.get('loadUnit') ?? (isMetric ? 'kg' : 'lb')}
            label="weighed in"
            options={WEIGHTS}
          />
        </div>
      </details>
    </>
  );
}

function quoteHint(
  quote: AskedQuote['quote'],
  from: AskedQuote['from'],
  on: AskedQuote['on'],
): string | undefined {
  if (quote === undefined) return 'not known yet';
  return from === 'recorded' ? `${quote} until you type another: recorded for ${on}` : undefined;
}

export const DISTANCES = [
  { value: 'mile', label: 'mile' },
  { value: 'km', label: 'km' },
];

const WEIGHTS = [
  { value: 'lb', label: 'lb' },
  { value: 'short-ton', label: 'short tons' },
  { value: 'kg', label: 'kg' },
  { value: 'tonne', label: 'tonnes' },
];
