/**
 * The chart: price of a ton of dry matter against starch. The draft is a full line, the version before a broken one, and
 * each carries its name; the table beside it holds the same in figures.
 */
'use client';

import { Fragment } from 'react';
import { type Chart, type ChartLine, FRAME } from './curve-picture.ts';

export interface WorthChartProps {
  readonly chart: Chart;
  /** "USD per short ton of dry matter" */
  readonly unit: string;
  readonly names: { readonly after: string; readonly before: string };
}

const END = FRAME.width - FRAME.right;
const FLOOR = FRAME.height - FRAME.bottom;

export function WorthChart({ chart, unit, names }: WorthChartProps) {
  const { after, before, across, up } = chart;
  return (
    <figure className="chart">
      <figcaption>{unit}, against starch in percent of dry matter</figcaption>
      <svg
        viewBox={`0 0 ${FRAME.width} ${FRAME.height}`}
        role="img"
        aria-label={`${unit}, against starch. The table below holds the same figures.`}
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
        {before ? <Line line={before} kind="before" name={names.before} /> : null}
        <Line line={after} kind="after" name={before ? names.after : ''} />
      </svg>
    </figure>
  );
}

function Line({
  line: { pieces, end },
  kind,
  name,
}: {
  readonly line: ChartLine;
  readonly kind: 'before' | 'after';
  readonly name: string;
}) {
  return (
    <g className={`chart-${kind}`}>
      {pieces.map((points) => (
        <polyline key={points} points={points} fill="none" />
      ))}
      {end ? (
        <text className="chart-name" x={end.x + 6} y={end.y + 4}>
          {name}
        </text>
      ) : null}
    </g>
  );
}
