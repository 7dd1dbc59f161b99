/**
 * One series of the ticket book: which numbers are missing, which are no load and why, and every number that is there.
 */
import type { SeriesBook, TicketEntry } from '../../../../usecases/loads/read-ticket-book.ts';

export interface SeriesViewProps {
  readonly book: SeriesBook;
  readonly index: number;
}

export function SeriesView({ book, index }: SeriesViewProps) {
  const { prefix, first, next, entries, missing } = book;
  const count = missing.reduce((sum, gap) => sum + gap.count, 0);
  return (
    <section aria-labelledby={`series-${index}`}>
      <h2 id={`series-${index}`}>
        {prefix === '' ? 'Plain numbers' : `Numbers that begin with ${prefix}`}, from {first} on
      </h2>
      <p>
        {entries.length === 0 ? 'None is used yet.' : standing(entries)} The next is {next}.
      </p>
      {count === 0 ? null : (
        <>
          <p className="fault">
            {count === 1 ? 'One number is' : `${count} numbers are`} missing: nothing accounts for{' '}
            {count === 1 ? 'it' : 'them'}.
          </p>
          <ul>
            {missing.map(({ from, to, count: many }) => (
              <li key={from}>{many === 1 ? from : `${from} to ${to}: ${many} numbers`}</li>
            ))}
          </ul>
        </>
      )}
      <EntryTable
        entries={entries.filter(({ use }) => use !== 'load')}
        label={`Numbers without a load, series ${index}`}
      />
      <details className="more-fields">
        <summary>Every number with a load</summary>
        <p>
          {entries
            .filter(({ use }) => use === 'load')
            .map(({ ticket, loadId }, at) => (
              <span key={ticket}>
                {at > 0 ? ', ' : ''}
                <a href={`/loads/${loadId}`}>{ticket}</a>
              </span>
            ))}
        </p>
      </details>
    </section>
  );
}

function standing(entries: readonly TicketEntry[]): string {
  const of = (use: TicketEntry['use']) => entries.filter((entry) => entry.use === use).length;
  const parts = [
    [of('load'), 'a load', 'loads'],
    [of('weighing'), 'a truck that has yet to weigh out', 'trucks that have yet to weigh out'],
    [of('void'), 'void', 'void'],
    [of('elsewhere'), 'used elsewhere', 'used elsewhere'],
  ] as const;
  const told = parts
    .filter(([count]) => count > 0)
    .map(([count, one, many]) => `${count} ${count === 1 ? 'is' : 'are'} ${count === 1 ? one : many}`);
  return `Of the numbers used, ${told.join(', ')}.`;
}

const USES: Readonly<Record<TicketEntry['use'], string>> = {
  load: 'A load',
  void: 'Void',
  elsewhere: 'Used elsewhere',
  weighing: 'Weighed in, not out',
};

/** Numbers with what became of each. */
export function EntryTable({
  entries,
  label,
}: {
  readonly entries: readonly TicketEntry[];
  readonly label: string;
}) {
  if (entries.length === 0) return null;
  return (
    <section className="table-box" aria-label={label}>
      <table className="record-table">
        <thead>
          <tr>
            <th scope="col">Ticket</th>
            <th scope="col">What became of it</th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {entries.map(({ ticket, use, reason, loadId }) => (
            <tr key={ticket}>
              <th scope="row">{loadId === null ? ticket : <a href={`/loads/${loadId}`}>{ticket}</a>}</th>
              <td>{USES[use]}</td>
              <td>{reason ?? ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
