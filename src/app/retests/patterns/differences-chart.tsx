/**
 * The differences of two that met, by date: each a stalk from the line at zero. Who read more stands above and below in words,
 * so that no sign has to be read; the table beneath holds every figure.
 */
import { figuresFor } from '../../../documents/figures.ts';
import { dayInWords } from '../../../domain/dates/day-words.ts';
import type { PatternView } from '../../../usecases/retests/read-patterns.ts';
import { UpAxis } from '../../charts/chart-axes.tsx';
import { type DifferencesPicture, differencesPicture, FRAME } from './differences-picture.ts';

export interface DifferencesChartProps {
  readonly pattern: PatternView;
  readonly today: string;
  readonly locale: string;
}

export function DifferencesChart({ pattern, today, locale }: DifferencesChartProps) {
  const { meetings, mean, other, about } = pattern;
  const picture = differencesPicture(
    meetings.map(({ retestId, on, difference }) => ({ key: retestId, on, difference })),
    mean,
  );
  if (!picture) return null;
  const { show } = figuresFor(locale);
  const read = about === 'weight' ? 'showed' : 'reported';
  return (
    <figure className="chart differences">
      <p className="differences-word">
        ▲ {other} {read} more
      </p>
      <Stalks picture={picture} show={show} today={today} label={inWords(pattern, today)} />
      <p className="differences-word">
        ▼ {other} {read} less
      </p>
      <figcaption>
        {unitWords(pattern)}, by the day of the second {about === 'weight' ? 'weighing' : 'test'}. Dashed: the
        average.
      </figcaption>
    </figure>
  );
}

function unitWords({ unit }: PatternView): string {
  if (unit.startsWith('%')) return 'Points of difference';
  return unit === '' ? 'Difference' : `Difference in ${unit}`;
}

/** For whoever does not see the picture. */
function inWords({ meetings, one, other, above, below, equal }: PatternView, today: string): string {
  const [first, last] = [meetings[0], meetings.at(-1)];
  const days = `from ${dayInWords(first?.on ?? '', today)} to ${dayInWords(last?.on ?? '', today)}`;
  const counts = [
    ...(above > 0 ? [`above zero ${above}`] : []),
    ...(below > 0 ? [`below zero ${below}`] : []),
    ...(equal > 0 ? [`at zero ${equal}`] : []),
  ];
  return `${other} less ${one}, ${meetings.length} differences ${days}: ${counts.join(', ')}. The table below holds every figure.`;
}

interface StalksProps {
  readonly picture: DifferencesPicture;
  readonly show: (figure: string) => string;
  readonly today: string;
  readonly label: string;
}

function Stalks({ picture: { zero, mean, spots, up, across }, show, today, label }: StalksProps) {
  const end = FRAME.width - FRAME.right;
  return (
    <svg viewBox={`0 0 ${FRAME.width} ${FRAME.height}`} role="img" aria-label={label}>
      <UpAxis frame={FRAME} marks={up.map(({ at, figure }) => ({ at, label: show(figure) }))} />
      {across.map(({ at, day, anchor }) => (
        <text key={day} className="chart-word" x={at} y={FRAME.height - 8} textAnchor={anchor}>
          {dayInWords(day, today)}
        </text>
      ))}
      <line className="differences-zero" x1={FRAME.left} x2={end} y1={zero} y2={zero} />
      <line className="differences-mean" x1={FRAME.left} x2={end} y1={mean} y2={mean} />
      {spots.map(({ key, x, y }) => (
        <g key={key} className="differences-stalk">
          <line x1={x} x2={x} y1={zero} y2={y} />
          <circle cx={x} cy={y} r="5" />
        </g>
      ))}
    </svg>
  );
}
