/**
 * The chart of a price series; the list beneath it holds the same figures.
 */
import { UpAxis } from '../../../../charts/chart-axes.tsx';
import { FRAME, type SeriesPicture } from './series-picture.ts';

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
        <UpAxis frame={FRAME} marks={up} />
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
