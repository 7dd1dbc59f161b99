/**
 * What every chart stands on: rules across at round figures, their words, and the ground line.
 */
import { Fragment } from 'react';

/** Size of a picture, and the room that is kept on each side for words. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
}

/** A place along an axis, and what stands there. */
export interface Mark {
  readonly at: number;
  readonly label: string;
}

export interface UpAxisProps {
  readonly frame: Frame;
  readonly marks: readonly Mark[];
}

/** Rules across the picture with their words on the left, and the ground line. */
export function UpAxis({ frame, marks }: UpAxisProps) {
  const [end, floor] = [frame.width - frame.right, frame.height - frame.bottom];
  return (
    <>
      {marks.map(({ at, label }) => (
        <Fragment key={label}>
          <line className="chart-rule" x1={frame.left} x2={end} y1={at} y2={at} />
          <text className="chart-word" x={frame.left - 6} y={at + 4} textAnchor="end">
            {label}
          </text>
        </Fragment>
      ))}
      <line className="chart-tick" x1={frame.left} x2={end} y1={floor} y2={floor} />
    </>
  );
}

export interface AcrossAxisProps extends UpAxisProps {
  /** What the figures are, like "starch, %". */
  readonly name: string;
}

/** Ticks along the ground with their words, and what they count. */
export function AcrossAxis({ frame, marks, name }: AcrossAxisProps) {
  const [end, floor] = [frame.width - frame.right, frame.height - frame.bottom];
  return (
    <>
      {marks.map(({ at, label }) => (
        <Fragment key={label}>
          <line className="chart-tick" x1={at} x2={at} y1={floor} y2={floor + 5} />
          <text className="chart-word" x={at} y={floor + 19} textAnchor="middle">
            {label}
          </text>
        </Fragment>
      ))}
      <text className="chart-word" x={(frame.left + end) / 2} y={frame.height - 4} textAnchor="middle">
        {name}
      </text>
    </>
  );
}
