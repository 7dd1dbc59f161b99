/**
 * Lots on a chart: what a ton of dry matter costs against how much starch is in it. Each spot carries the letter that its
 * lot has in the table, which holds the same figures.
 */
import { AcrossAxis, UpAxis } from '../../charts/chart-axes.tsx';
import { FRAME, RADIUS, type SpotFigures, spotsPicture } from './spots-picture.ts';

export interface PriceStarchChartProps {
  readonly figures: readonly SpotFigures[];
  /** "USD a short ton of dry matter" */
  readonly unit: string;
}

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
        <UpAxis frame={FRAME} marks={up} />
        <AcrossAxis frame={FRAME} marks={across} name="starch, %" />
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
