/**
 * How each test lies by day of delivery, as a picture and in figures, and by truck or sample.
 */
import { figuresFor } from '../../../../documents/figures.ts';
import { dayInWords } from '../../../../domain/dates/day-words.ts';
import type { SeasonPage } from '../../../../usecases/season/read-season-page.ts';
import type { MeasureView, SpreadRow } from '../../../../usecases/season/season-view.ts';
import { UpAxis } from '../../../charts/chart-axes.tsx';
import { loadsInWords, opened } from './season-words.ts';
import { FRAME, type SpreadPicture, spreadPicture } from './spread-picture.ts';

export interface SeasonTestsProps {
  readonly page: SeasonPage;
  readonly locale: string;
}

export function SeasonTests({ page, locale }: SeasonTestsProps) {
  const { measures, others, truckless } = page.season;
  if (measures.length === 0) return null;
  return (
    <section aria-labelledby="tests">
      <h2 id="tests">How the tests lie</h2>
      <p>
        Tickets do not say which field a load came from, so nothing here is by field. It is by day of
        delivery, and by {others}
        {others === 'sample' ? ', since no ticket names a truck' : ''}.
        {truckless === 0
          ? ''
          : ` ${loadsInWords(truckless)} with no truck on the ticket ${truckless === 1 ? 'is' : 'are'} in the days alone.`}{' '}
        Each result counts once in the middle and the ends; in the mean each load counts by its dry matter, or
        by its weight as fed where the test is of the load as it came.
      </p>
      {measures.map((measure) => (
        <Measure key={measure.measure} measure={measure} page={page} locale={locale} />
      ))}
    </section>
  );
}

function Measure({ measure, page, locale }: SeasonTestsProps & { readonly measure: MeasureView }) {
  const { name, unit, whole, days, others } = measure;
  const { show } = figuresFor(locale);
  const picture = spreadPicture(days);
  const so =
    whole.results === 1
      ? `One result: ${whole.mean} ${unit}.`
      : `From ${whole.least} to ${whole.greatest}, the middle one of ${whole.results} results ${whole.median}; mean ${whole.mean} ${unit}.`;
  return (
    <section aria-label={opened(name)}>
      <h3>{opened(name)}</h3>
      <p>{so}</p>
      {picture ? (
        <figure className="chart test-chart">
          <Stalks picture={picture} show={show} today={page.today} label={`${name} by day. ${so}`} />
          <figcaption>
            {unit}, by day of delivery.{' '}
            {days.every(({ results }) => results === 1)
              ? 'Each dot is a day with one result.'
              : 'Dot: the mean of a day. Line: from its least result to its greatest, the middle one across.'}
          </figcaption>
        </figure>
      ) : null}
      <details className="more-fields">
        <summary>{opened(name)} by day, in figures</summary>
        <Spreads rows={days} first="Delivered" nameOf={({ of }) => dayInWords(of, page.today)} unit={unit} />
      </details>
      <details className="more-fields">
        <summary>
          {opened(name)} by {page.season.others}
        </summary>
        <Spreads
          rows={others}
          first={page.season.others === 'truck' ? 'Truck' : 'Sample'}
          nameOf={({ of }) => of}
          unit={unit}
        />
      </details>
    </section>
  );
}

interface SpreadsProps {
  readonly rows: readonly SpreadRow[];
  readonly first: string;
  readonly nameOf: (row: SpreadRow) => string;
  readonly unit: string;
}

function Spreads({ rows, first, nameOf, unit }: SpreadsProps) {
  return (
    <div className="table-box">
      <table className="money-table season-spreads">
        <caption>{unit}</caption>
        <thead>
          <tr>
            <th scope="col">{first}</th>
            <th scope="col" className="amount">
              Least
            </th>
            <th scope="col" className="amount">
              Middle
            </th>
            <th scope="col" className="amount">
              Greatest
            </th>
            <th scope="col" className="amount">
              Mean
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.of}>
              <th scope="row">
                {nameOf(row)}
                <span className="under">
                  {loadsInWords(row.loads)}, {row.results === 1 ? 'one result' : `${row.results} results`}
                </span>
              </th>
              {row.results === 1 ? (
                <td className="amount" colSpan={3} />
              ) : (
                <>
                  <td className="amount">{row.least}</td>
                  <td className="amount">{row.median}</td>
                  <td className="amount">{row.greatest}</td>
                </>
              )}
              <td className="amount">
                <strong>{row.mean}</strong>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface StalksProps {
  readonly picture: SpreadPicture;
  readonly show: (figure: string) => string;
  readonly today: string;
  readonly label: string;
}

function Stalks({ picture: { stalks, up, across, halfMark }, show, today, label }: StalksProps) {
  return (
    <svg viewBox={`0 0 ${FRAME.width} ${FRAME.height}`} role="img" aria-label={label}>
      <UpAxis frame={FRAME} marks={up.map(({ at, figure }) => ({ at, label: show(figure) }))} />
      {across.map(({ at, day, anchor }) => (
        <text key={anchor} className="chart-word" x={at} y={FRAME.height - 8} textAnchor={anchor}>
          {dayInWords(day, today)}
        </text>
      ))}
      {stalks.map(({ key, x, least, median, greatest, mean }) => (
        <g key={key} className="test-stalk">
          <line x1={x} x2={x} y1={least} y2={greatest} />
          {least === greatest ? null : <line x1={x - halfMark} x2={x + halfMark} y1={median} y2={median} />}
          <circle cx={x} cy={mean} r="4" />
        </g>
      ))}
    </svg>
  );
}
