/**
 * Each day with its trucks and tons, and its tested loads as one strip; the newest day first.
 */
import type { DayView } from '../../../../usecases/agreements/progress-view.ts';
import { LoadStripPicture } from '../../../strip/load-strip-picture.tsx';
import { TON_WORDS } from './progress-words.ts';

export interface ProgressDaysProps {
  readonly days: readonly DayView[];
  readonly ton: 'short-ton' | 'tonne';
  readonly currency: string;
}

export function ProgressDays({ days, ton, currency }: ProgressDaysProps) {
  return (
    <ol className="progress-days" reversed>
      {days.toReversed().map((day) => (
        <li key={day.date} className="progress-day">
          <div className="progress-line">
            <strong>{day.date}</strong>
            <span>{day.loads === 1 ? 'one load' : `${day.loads} loads`}</span>
            <span>
              {day.wetTons} {TON_WORDS[ton]} as fed, {day.dryTons} dry
            </span>
            <span className="quiet-word">{trucks(day)}</span>
            <span className="value">
              {day.loads > day.unsettledLoads ? (
                <>
                  <strong className="amount">{day.value}</strong> {currency}
                </>
              ) : null}
              {day.unsettledLoads === 0 ? null : ` ${day.unsettledLoads} not settled`}
            </span>
          </div>
          {day.untestedLoads === 0 || day.untestedLoads === day.loads ? null : (
            <p className="hint">
              {day.untestedLoads === 1 ? 'One load is' : `${day.untestedLoads} loads are`} not tested yet; the
              strip shows the others.
            </p>
          )}
          <LoadStripPicture load={day.strip} />
        </li>
      ))}
    </ol>
  );
}

/** "21:10 to 22:40, 1.5 trucks an hour, most from 22:00: 2" */
function trucks({ first, last, perHour, busiest, loads }: DayView): string {
  if (loads === 1) return `at ${first}`;
  const most = busiest.loads > 1 ? `, most from ${busiest.hour}:00: ${busiest.loads}` : '';
  return `${first} to ${last}, ${perHour} trucks an hour${most}`;
}
