/**
 * Every quote of a series, newest first: its price, how it was put right, what it priced, and what can be done about it.
 */
import { randomUUID } from 'node:crypto';
import type { SeriesQuoteView, SeriesView } from '../../../../../usecases/prices/read-series.ts';
import type { Field } from '../../../../forms/field.ts';
import { RecordForm } from '../../../../forms/record-form.tsx';
import { contest, putQuoteRight } from './series-actions.ts';

export interface QuoteListProps {
  readonly view: SeriesView;
  /** Whether the reader's role may put anything right. */
  readonly mayCorrect: boolean;
}

const MOST_NAMED = 12;

export function QuoteList({ view, mayCorrect }: QuoteListProps) {
  return (
    <ol className="quote-list" reversed>
      {view.quotes.map((quote) => (
        <li key={quote.id}>
          <div className="quote-line">
            <span>{quote.date}</span>
            <span className="amount">
              {quote.price} {view.currency}
            </span>
            <span className="quiet-word">
              <Uses usedBy={quote.usedBy} agreementId={view.agreementId} />
            </span>
          </div>
          {quote.versions.length > 1 ? <Versions quote={quote} /> : null}
          {quote.proposed ? <Proposed proposed={quote.proposed} /> : null}
          {mayCorrect && !quote.proposed && view.side !== 'adviser' ? (
            <PutRight quote={quote} view={view} />
          ) : null}
        </li>
      ))}
    </ol>
  );
}

function Uses({ usedBy }: { readonly usedBy: SeriesQuoteView['usedBy']; readonly agreementId: string }) {
  if (usedBy.length === 0) return <>priced no load yet</>;
  const named = usedBy.slice(0, MOST_NAMED);
  return (
    <>
      priced {usedBy.length === 1 ? 'load' : `${usedBy.length} loads:`}{' '}
      {named.map(({ loadId, ticket }, index) => (
        <span key={loadId}>
          {index === 0 ? '' : ', '}
          <a href={`/loads/${loadId}`}>{ticket}</a>
        </span>
      ))}
      {usedBy.length > named.length ? ` and ${usedBy.length - named.length} more` : ''}
    </>
  );
}

function Versions({ quote }: { readonly quote: SeriesQuoteView }) {
  return (
    <ul>
      {quote.versions.map(({ version, price, reason, enteredAt }) => (
        <li key={version}>
          {enteredAt}: {price}
          {reason === null ? ', as first entered' : ` in place of the one before: “${reason}”`}
        </li>
      ))}
    </ul>
  );
}

function Proposed({ proposed }: { readonly proposed: NonNullable<SeriesQuoteView['proposed']> }) {
  return (
    <p>
      {proposed.isYours ? 'Your side proposes' : 'The other side proposes'} <strong>{proposed.price}</strong>{' '}
      in its place: “{proposed.reason}”.{' '}
      <a href="/corrections">{proposed.isYours ? 'See the correction' : 'Confirm or refuse it'}</a>
    </p>
  );
}

function PutRight({ quote, view }: { readonly quote: SeriesQuoteView; readonly view: SeriesView }) {
  const isContest = !view.mayEnter;
  if (isContest && quote.contestUntil === undefined) return null;
  const other = view.side === 'seller' ? view.buyer : view.seller;
  const fields: readonly Field[] = [
    { kind: 'hidden', name: 'agreement', value: view.agreementId },
    { kind: 'hidden', name: 'series', value: view.series },
    { kind: 'hidden', name: 'quote', value: quote.id },
    { kind: 'text', name: 'price', label: 'What it should be', keys: 'decimal', unit: view.currency },
    { kind: 'text', name: 'reason', label: 'What was wrong', hint: 'Both sides read it.' },
  ];
  const summary = isContest ? `Contest this quote (until ${quote.contestUntil})` : 'Put this quote right';
  const words = isContest
    ? `${other} confirms or refuses the price that you propose.`
    : quote.usedBy.length > 0
      ? `Loads have settled from it: ${other} has to confirm, and then they settle anew.`
      : 'The quote before it stays to be read.';
  return (
    <details className="more-fields">
      <summary>{summary}</summary>
      <p>{words}</p>
      <RecordForm
        action={isContest ? contest : putQuoteRight}
        submit={isContest ? 'Contest it' : 'Put it right'}
        scope={quote.date}
        requestKey={randomUUID()}
        quiet
        fields={fields}
      />
    </details>
  );
}
