/**
 * The chart: price of a ton of dry matter against starch. The draft is a full line, the version before a broken one, and
 * each carries its name; the table beside it holds the same in figures.
 */
'use client';

import { AcrossAxis, UpAxis } from '../charts/chart-axes.tsx';
import { type Chart, type ChartLine, FRAME } from './curve-picture.ts';

export interface WorthChartProps {
  readonly chart: Chart;
  /** "USD per short ton of dry matter" */
  readonly unit: string;
  readonly names: { readonly after: string; readonly before: string };
}

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
        <UpAxis frame={FRAME} marks={up} />
        <AcrossAxis frame={FRAME} marks={across} name="starch, %" />
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
