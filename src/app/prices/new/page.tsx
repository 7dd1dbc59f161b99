/**
 * Recording a quote of a public price that an agreement follows.
 */
import { randomUUID } from 'node:crypto';
import type { AgreementView } from '../../../usecases/agreements/read-agreement-words.ts';
import { readQuotes } from '../../../usecases/prices/read-quotes.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { type Asked, askedText } from '../../place/asked.ts';
import { AgreementChoice, AgreementLine, chooseAgreement } from '../../place/chosen-agreement.tsx';
import { Told } from '../../place/told.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { openedRecord } from '../../server/record.ts';
import { toldBy } from '../../server/told.ts';
import { wallClockNow } from '../../times/wall-clock.ts';
import { quote } from './quote.ts';
import { RecordedQuotes } from './recorded-quotes.tsx';

const QUOTES_SHOWN = 10;

export const metadata = { title: 'Record a price' };

export default async function PricePage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const locale = await readerLocale();
  const { chosen, quotes } = await ask(async (context) => {
    const found = await chooseAgreement(context, { asked, locale, verb: 'record-quote' });
    const agreementId = found.agreement?.id;
    const recorded =
      agreementId === undefined
        ? []
        : await readQuotes(context, { agreementId, locale, count: QUOTES_SHOWN });
    return { chosen: found, quotes: recorded };
  });
  const { agreement, agreements } = chosen;
  const told = await toldBy(asked);
  const { now } = await openedRecord();
  return (
    <div className="narrow">
      <Told told={told} />
      <h1>{told === undefined ? 'Record a price' : 'Next price'}</h1>
      <AgreementLine chosen={chosen} path="/prices/new" />
      {!agreement ? <AgreementChoice agreements={agreements} path="/prices/new" /> : null}
      {agreement && agreement.series.length === 0 ? (
        <p>This agreement follows no public price: its prices are fixed in its own words.</p>
      ) : null}
      {agreement && agreement.series.length > 0 ? (
        <>
          <p>
            A price is recorded as it was published, before the agreement adds or takes away anything. Once
            recorded it is never changed.
          </p>
          {referenceWords(agreement).map((words) => (
            <p key={words} className="hint">
              {words}
            </p>
          ))}
          <RecordForm
            key={askedText(asked, 'seal') ?? 'first'}
            action={quote}
            submit="Record this price"
            requestKey={randomUUID()}
            fields={[
              { kind: 'hidden', name: 'agreement', value: agreement.id },
              {
                kind: 'list',
                name: 'series',
                label: 'Which price',
                value: askedText(asked, 'series') ?? agreement.series[0] ?? '',
                options: agreement.series.map((name) => ({ value: name, label: name })),
              },
              {
                kind: 'date',
                name: 'date',
                label: 'Quoted on',
                value: wallClockNow(now(), agreement.timeZone).slice(0, 10),
              },
              {
                kind: 'text',
                name: 'price',
                label: 'Price',
                keys: 'decimal',
                unit: agreement.currency,
                large: true,
              },
            ]}
          />
          <RecordedQuotes
            quotes={quotes}
            currency={agreement.currency}
            isOneOfMany={agreement.series.length > 1}
          />
        </>
      ) : null}
    </div>
  );
}

/** What the agreement says of the prices that it follows: in what they are, and for how much grain. */
function referenceWords({ sections, series }: AgreementView): readonly string[] {
  const paragraphs = sections.flatMap((section) => section.paragraphs);
  return paragraphs.filter((words) => series.some((name) => words.includes(`series ${name}`)));
}
