/**
 * The chart of a price series; the list beneath it holds the same figures.
 */
import { Fragment } from 'react';
import { FRAME, type SeriesPicture } from './series-picture.ts';

const END = FRAME.width - FRAME.right;
const FLOOR = FRAME.height - FRAME.bottom;

export function SeriesChart({ picture, unit }: { readonly picture: SeriesPicture; readonly unit: string }) {
  const { line, spots, up, across } = picture;
  const [first, last] = [spots[0], spots.at(-1)];
  return (
    <figure className="chart series-chart">
      <figcaption>{unit}</figcaption>
      <svg
        viewBox={`0 0 ${FRAME.width} ${FRAME.height}`}
        role="img"
        aria-label={`${unit}: ${first?.price} on ${first?.date}, ${last?.price} on ${last?.date}. The list below holds every figure.`}
      >
        {up.map(({ at, label }) => (
          <Fragment key={label}>
            <line className="chart-rule" x1={FRAME.left} x2={END} y1={at} y2={at} />
            <text className="chart-word" x={FRAME.left - 6} y={at + 4} textAnchor="end">
              {label}
            </text>
          </Fragment>
        ))}
        {across.map(({ at, label }, index) => (
          <text
            key={label}
            className="chart-word"
            x={at}
            y={FLOOR + 20}
            textAnchor={index === 0 ? 'start' : index === across.length - 1 ? 'end' : 'middle'}
          >
            {label}
          </text>
        ))}
        <line className="chart-tick" x1={FRAME.left} x2={END} y1={FLOOR} y2={FLOOR} />
        <g className="chart-after">
          <polyline points={line} fill="none" />
        </g>
        {spots.map(({ x, y, date }) => (
          <circle key={date} className="spread-mean" cx={x} cy={y} r="2.5" />
        ))}
      </svg>
    </figure>
  );
}
