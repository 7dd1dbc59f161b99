/**
 * The value of each week as a bar, the season before beside it, and every week in figures.
 */
import { figuresFor } from '../../../../documents/figures.ts';
import type { SeasonPage } from '../../../../usecases/season/read-season-page.ts';
import { UpAxis } from '../../../charts/chart-axes.tsx';
import { opened, TONS, weekInWords, weeksAlternative } from './season-words.ts';
import { FRAME, type WeekBars, weekBars } from './week-bars.ts';

export interface SeasonWeeksProps {
  readonly page: SeasonPage;
  readonly locale: string;
}

export function SeasonWeeks({ page, locale }: SeasonWeeksProps) {
  const { season, last, currency, ton, today } = page;
  const { weeks } = season;
  const isComparable = last !== undefined && last.currency === currency;
  const bars = weekBars(weeks, isComparable ? last.weeks : []);
  return (
    <section aria-labelledby="weeks">
      <h2 id="weeks">Week by week</h2>
      {bars ? (
        <figure className="chart week-chart">
          <Bars bars={bars} show={figuresFor(locale).show} label={weeksAlternative(weeks, page)} />
          <figcaption>
            Settled value in {currency}, by the week of delivery, counted from the first.{' '}
            {isComparable ? `Filled: this season. Outlined: the one before, ${last.number}.` : ''}
          </figcaption>
        </figure>
      ) : null}
      <table className="money-table">
        <thead>
          <tr>
            <th scope="col">Week, Monday to Sunday</th>
            <th scope="col" className="amount">
              Loads
            </th>
            <th scope="col" className="amount">
              {opened(TONS[ton])} as fed
            </th>
            <th scope="col" className="amount">
              Settled, {currency}
            </th>
          </tr>
        </thead>
        <tbody>
          {weeks.map((week) => (
            <tr key={week.monday}>
              <th scope="row">
                {weekInWords(week, today)} <span className="under">week {week.nth}</span>
              </th>
              <td className="amount">{week.loads}</td>
              <td className="amount">
                {week.wetTons}{' '}
                <span className="under">
                  {week.untestedLoads === week.loads
                    ? 'not tested'
                    : `${week.dryTons} dry${week.untestedLoads === 0 ? '' : `, ${week.untestedLoads} not tested`}`}
                </span>
              </td>
              <td className="amount">
                {week.unsettledLoads === week.loads ? '' : week.value}
                {week.unsettledLoads === 0 ? null : (
                  <span className="under">{week.unsettledLoads} not settled</span>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface BarsProps {
  readonly bars: WeekBars;
  readonly show: (figure: string) => string;
  readonly label: string;
}

function Bars({ bars: { now, before, zero, up, across }, show, label }: BarsProps) {
  const floor = FRAME.height - FRAME.bottom;
  return (
    <svg viewBox={`0 0 ${FRAME.width} ${FRAME.height}`} role="img" aria-label={label}>
      <UpAxis frame={FRAME} marks={up.map(({ at, figure }) => ({ at, label: show(figure) }))} />
      {now.map(({ key, ...box }) => (
        <rect key={key} className="week-now" {...box} />
      ))}
      {before.map(({ key, ...box }) => (
        <rect key={key} className="week-before" {...box} />
      ))}
      <line className="chart-tick" x1={FRAME.left} x2={FRAME.width - FRAME.right} y1={zero} y2={zero} />
      {across.map(({ at, nth }) => (
        <text key={nth} className="chart-word" x={at} y={floor + 18} textAnchor="middle">
          {nth}
        </text>
      ))}
      <text
        className="chart-word"
        x={(FRAME.left + FRAME.width - FRAME.right) / 2}
        y={FRAME.height - 4}
        textAnchor="middle"
      >
        week
      </text>
    </svg>
  );
}
