/**
 * The first questions about feed to sell: its kind, with the parts of the ear in it, and from which template its price
 * begins. Only asks; nothing is written down yet.
 */
import { FEED_KINDS } from '../../../domain/agreement/measures.ts';
import { TEMPLATES } from '../../../domain/templates/templates.ts';
import type { LotDefaults } from '../../../usecases/lots/lot-defaults.ts';
import { type Asked, askedText } from '../../place/asked.ts';
import { AskedField, AskedList } from '../asked-field.tsx';
import { feedTitle } from '../lot-words.ts';

export interface BeginFormProps {
  readonly asked: Asked;
  readonly defaults: LotDefaults;
  readonly faults: Readonly<Record<string, string>>;
}

export function BeginForm({ asked, defaults, faults }: BeginFormProps) {
  const at = (name: 'feed' | 'currency' | 'timeZone' | 'ton', usual: string) => ({
    name,
    value: askedText(asked, name) ?? defaults[name] ?? usual,
    fault: faults[name],
  });
  const template = askedText(asked, 'template') ?? TEMPLATES[0]?.id;
  return (
    <>
      <h1>Sell feed</h1>
      <p>
        First: what is it, and how do you want to price it? Every figure of the price can be changed on the
        next page.
      </p>
      <form method="get" action="/lots/new" className="begin-lot">
        <div className="asked">
          <AskedList
            {...at('feed', 'whole-ear-corn')}
            label="Kind of feed"
            options={FEED_KINDS.map((kind) => ({ value: kind, label: feedTitle(kind) }))}
            isWide
          />
          <AskedList
            {...at('ton', 'short-ton')}
            label="Amounts in"
            options={[
              { value: 'short-ton', label: 'short tons (2,000 lb)' },
              { value: 'tonne', label: 'tonnes (1,000 kg)' },
            ]}
          />
          <AskedField {...at('currency', 'USD')} label="Currency" isText />
          <AskedField
            {...at('timeZone', '')}
            label="Time zone"
            hint="Like America/Boise: by its clock a day ends."
            isText
            isWide
          />
        </div>
        <fieldset className="field">
          <legend>Begin the price from</legend>
          {faults['template'] === undefined ? null : <p className="fault">A beginning must be chosen</p>}
          <div className="template-options">
            {TEMPLATES.map(({ id, name, suits, leavesToLuck }) => (
              <label key={id} className="option" htmlFor={`template-${id}`}>
                <input
                  type="radio"
                  id={`template-${id}`}
                  name="template"
                  value={id}
                  defaultChecked={id === template}
                />
                <span>
                  <strong>{name}</strong>
                  <br />
                  {suits} <span className="quiet-word">{leavesToLuck}</span>
                </span>
              </label>
            ))}
          </div>
        </fieldset>
        <button type="submit" className="act">
          Go on
        </button>
      </form>
    </>
  );
}
