/**
 * How the value of deliveries became money: delivered and settled, invoiced, paid. Each line has a stroke of its own and its
 * name at its end; the sentence above and the table below hold the figures.
 */
import { figuresFor } from '../../documents/figures.ts';
import { dayInWords } from '../../domain/dates/day-words.ts';
import type { SeasonMoney } from '../../usecases/money/season-money.ts';
import { UpAxis } from '../charts/chart-axes.tsx';
import { FRAME, type SeasonLine, type SeasonPicture, seasonPicture } from './season-picture.ts';

const NAMES: Readonly<Record<SeasonLine, string>> = {
  delivered: 'Settled',
  invoiced: 'Invoiced',
  paid: 'Paid',
};

export interface SeasonChartProps {
  readonly season: SeasonMoney;
  readonly today: string;
  readonly locale: string;
}

export function SeasonChart({ season, today, locale }: SeasonChartProps) {
  const { currency, days } = season;
  const { show } = figuresFor(locale);
  const last = days.at(-1);
  if (!last) return null;
  const picture = seasonPicture(season, today);
  const so = `So far ${show(last.delivered)} ${currency} is delivered and settled, ${show(last.invoiced)} is invoiced, and ${show(last.paid)} is paid.`;
  return (
    <section aria-labelledby={`season-${currency}`}>
      <h2 id={`season-${currency}`}>The season in {currency}</h2>
      <p>{so}</p>
      {picture ? (
        <figure className="chart season-chart">
          <Lines picture={picture} show={show} label={so} today={today} />
        </figure>
      ) : null}
      <details className="more-fields">
        <summary>The same in figures, day by day</summary>
        <table className="money-table">
          <thead>
            <tr>
              <th scope="col">Until</th>
              <th scope="col" className="amount">
                Settled
              </th>
              <th scope="col" className="amount">
                Invoiced
              </th>
              <th scope="col" className="amount">
                Paid
              </th>
            </tr>
          </thead>
          <tbody>
            {days.map((day) => (
              <tr key={day.day}>
                <th scope="row">{dayInWords(day.day, today)}</th>
                <td className="amount">{show(day.delivered)}</td>
                <td className="amount">{show(day.invoiced)}</td>
                <td className="amount">{show(day.paid)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}

interface LinesProps {
  readonly picture: SeasonPicture;
  readonly show: (figure: string) => string;
  readonly label: string;
  readonly today: string;
}

function Lines({ picture: { lines, up, across }, show, label, today }: LinesProps) {
  return (
    <svg viewBox={`0 0 ${FRAME.width} ${FRAME.height}`} role="img" aria-label={label}>
      <UpAxis frame={FRAME} marks={up.map(({ at, figure }) => ({ at, label: show(figure) }))} />
      {across.map(({ at, day }, index) => (
        <text
          key={day}
          className="chart-word"
          x={at}
          y={FRAME.height - 8}
          textAnchor={index === 0 ? 'start' : 'end'}
        >
          {dayInWords(day, today)}
        </text>
      ))}
      {lines.map(({ line, points, end, nameAt }) => (
        <g key={line} className={`season-${line}`}>
          <polyline points={points} fill="none" />
          <text className="chart-name" x={end.x + 8} y={nameAt + 4}>
            {NAMES[line]}
          </text>
        </g>
      ))}
    </svg>
  );
}
