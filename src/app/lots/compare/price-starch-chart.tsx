/**
 * Lots on a chart: what a ton of dry matter costs against how much starch is in it. Each spot carries the letter that its
 * lot has in the table, which holds the same figures.
 */
import { Fragment } from 'react';
import { FRAME, RADIUS, type SpotFigures, spotsPicture } from './spots-picture.ts';

export interface PriceStarchChartProps {
  readonly figures: readonly SpotFigures[];
  /** "USD a short ton of dry matter" */
  readonly unit: string;
}

const END = FRAME.width - FRAME.right;
const FLOOR = FRAME.height - FRAME.bottom;

export function PriceStarchChart({ figures, unit }: PriceStarchChartProps) {
  const { spots, across, up } = spotsPicture(figures);
  return (
    <figure className="chart">
      <figcaption>
        {unit}, against starch in percent of dry matter. Lower and further right is more starch for the money.
      </figcaption>
      <svg
        viewBox={`0 0 ${FRAME.width} ${FRAME.height}`}
        role="img"
        aria-label={`${unit}, against starch. The table holds the same figures.`}
      >
        {up.map(({ at, label }) => (
          <Fragment key={label}>
            <line className="chart-rule" x1={FRAME.left} x2={END} y1={at} y2={at} />
            <text className="chart-word" x={FRAME.left - 6} y={at + 4} textAnchor="end">
              {label}
            </text>
          </Fragment>
        ))}
        {across.map(({ at, label }) => (
          <Fragment key={label}>
            <line className="chart-tick" x1={at} x2={at} y1={FLOOR} y2={FLOOR + 5} />
            <text className="chart-word" x={at} y={FLOOR + 19} textAnchor="middle">
              {label}
            </text>
          </Fragment>
        ))}
        <text className="chart-word" x={(FRAME.left + END) / 2} y={FRAME.height - 4} textAnchor="middle">
          starch, %
        </text>
        <line className="chart-tick" x1={FRAME.left} x2={END} y1={FLOOR} y2={FLOOR} />
        {spots.map(({ letter, x, y }) => (
          <g key={letter}>
            <circle className="chart-spot" cx={x} cy={y} r={RADIUS} />
            <text className="chart-letter" x={x} y={y + 5} textAnchor="middle">
              {letter}
            </text>
          </g>
        ))}
      </svg>
    </figure>
  );
}
