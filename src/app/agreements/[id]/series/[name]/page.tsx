/**
 * A public price that an agreement follows: where it comes from and who enters it, its chart, and every quote with what
 * it priced.
 */
import { randomUUID } from 'node:crypto';
import { readSeries, type SeriesView } from '../../../../../usecases/prices/read-series.ts';
import type { Field } from '../../../../forms/field.ts';
import { RecordForm } from '../../../../forms/record-form.tsx';
import type { Asked } from '../../../../place/asked.ts';
import { mayAct } from '../../../../place/may-act.ts';
import { Told } from '../../../../place/told.tsx';
import { ask } from '../../../../server/ask.ts';
import { readerLocale } from '../../../../server/current-caller.ts';
import { toldBy } from '../../../../server/told.ts';
import { QuoteList } from './quote-list.tsx';
import { settleSeries } from './series-actions.ts';
import { SeriesChart } from './series-chart.tsx';
import { seriesPicture } from './series-picture.ts';

export const metadata = { title: 'Price' };

export interface SeriesPageProps {
  readonly params: Promise<{ readonly id: string; readonly name: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function SeriesPage({ params, searchParams }: SeriesPageProps) {
  const { id, name } = await params;
  const locale = await readerLocale();
  const { view, role } = await ask(async (context) => ({
    view: await readSeries(context, { agreementId: id, series: decoded(name), locale }),
    role: context.caller.role,
  }));
  const told = await toldBy(await searchParams);
  const picture = seriesPicture(view.points);
  const mayRecord = !view.isSealed && mayAct(view.side, role, 'record-quote');
  const unit = view.units.length === 1 ? `${view.currency} per ${view.units[0]}` : view.currency;
  return (
    <>
      <Told told={told} />
      <h1>{view.series}</h1>
      <p className="quiet-word">
        A public price of <a href={`/agreements/${view.agreementId}`}>agreement {view.number}</a>, {unit}
      </p>
      <p>{sourceWords(view)}</p>
      {mayRecord && view.mayEnter ? (
        <ul className="pick">
          <li>
            <a
              className="plain-link"
              href={`/prices/new?agreement=${view.agreementId}&series=${encodeURIComponent(view.series)}`}
            >
              Record a price
            </a>
          </li>
          <li>
            <a className="plain-link" href={`/import?agreement=${view.agreementId}`}>
              Bring in a file
            </a>
          </li>
        </ul>
      ) : null}
      {picture ? <SeriesChart picture={picture} unit={unit} /> : null}
      {view.missing.length === 0 ? null : (
        <p>
          Weekdays without a quote: {view.missing.join(', ')}. Each is a holiday, or a quote that nobody
          entered.
        </p>
      )}
      <section aria-labelledby="quotes">
        <h2 id="quotes">Quotes</h2>
        {view.quotes.length === 0 ? (
          <p>None is recorded yet.</p>
        ) : (
          <QuoteList view={view} mayCorrect={!view.isSealed && mayAct(view.side, role, 'correct')} />
        )}
      </section>
      {mayRecord ? (
        <section aria-labelledby="series-terms">
          <h2 id="series-terms">Where it comes from</h2>
          <p>Your side can give away what is its own: who enters quotes, and the days to contest one.</p>
          <RecordForm
            action={settleSeries}
            submit="Settle it so"
            scope="terms"
            requestKey={randomUUID()}
            quiet
            fields={termFields(view)}
          />
        </section>
      ) : null}
    </>
  );
}

/** A name in an address; one that is no text is nothing that there is. */
function decoded(name: string): string {
  try {
    return decodeURIComponent(name);
  } catch {
    return '';
  }
}

function sourceWords({ source, enteredBy, contestDays, seller, buyer }: SeriesView): string {
  const published = source === '' ? 'Where it is published was not settled yet.' : `Published: ${source}.`;
  if (enteredBy === 'both') return `${published} Either side enters its quotes.`;
  const [enterer, other] = enteredBy === 'seller' ? [seller, buyer] : [buyer, seller];
  const days = contestDays === 1 ? 'one day' : `${contestDays} days`;
  const right = contestDays === 0 ? '' : ` ${other} may contest one for ${days} after its entry.`;
  return `${published} ${enterer} enters its quotes.${right}`;
}

function termFields({
  agreementId,
  series,
  source,
  enteredBy,
  contestDays,
  seller,
  buyer,
}: SeriesView): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'series', value: series },
    {
      kind: 'text',
      name: 'source',
      label: 'Where it is published',
      hint: 'So that both sides read the same figure: which market, which place, what time of day.',
      value: source,
    },
    {
      kind: 'choice',
      name: 'entered_by',
      label: 'Who enters quotes',
      value: enteredBy,
      options: [
        { value: 'both', label: 'either side' },
        { value: 'seller', label: seller },
        { value: 'buyer', label: buyer },
      ],
    },
    {
      kind: 'text',
      name: 'contest_days',
      label: 'Days for which the other side may contest a quote',
      keys: 'decimal',
      unit: 'days',
      value: String(contestDays),
    },
  ];
}
