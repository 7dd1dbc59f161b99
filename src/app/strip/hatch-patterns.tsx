/**
 * The fills of the load strip as patterns that every strip of a page refers to: the same colours and marks as on paper.
 */
import { hatchMarks } from '../../documents/strip/hatch-marks.ts';
import type { StripPart } from '../../documents/strip/load-strip.ts';
import { STRIP_LOOK } from '../../documents/strip/strip-look.ts';

/** Pixels between neighbouring marks. */
const SPACING = 4;
/** A hair more than the tile, so that a mark on its far edge is given, and can be repeated on the near one. */
const EDGE = 0.01;

export function patternOf(part: StripPart): string {
  return `url(#hatch-${part})`;
}

export function HatchPatterns() {
  const parts = Object.keys(STRIP_LOOK) as StripPart[];
  return (
    <svg width="0" height="0" className="patterns" aria-hidden="true" focusable="false">
      <defs>
        {parts.map((part) => (
          <HatchPattern key={part} part={part} />
        ))}
      </defs>
    </svg>
  );
}

function HatchPattern({ part }: { readonly part: StripPart }) {
  const { fill, mark, hatch } = STRIP_LOOK[part];
  // Diagonals repeat after their distance along the edge, the others after two marks.
  const size = hatch === 'dots' || hatch === 'level-lines' ? 2 * SPACING : SPACING * Math.SQRT2;
  const { lines, dots } = hatchMarks(hatch, { width: size + EDGE, height: size, spacing: SPACING });
  return (
    <pattern id={`hatch-${part}`} width={size} height={size} patternUnits="userSpaceOnUse">
      <rect width={size} height={size} fill={`#${fill}`} />
      {lines.map(([x1, y1, x2, y2]) => (
        <line
          key={`${x1} ${y1} ${x2} ${y2}`}
          x1={x1}
          y1={y1}
          x2={x2}
          y2={y2}
          stroke={`#${mark}`}
          strokeWidth="0.7"
        />
      ))}
      {dots
        .flatMap(([x, y]) => [[x, y] as const, [x - size, y] as const])
        .map(([x, y]) => (
          <circle key={`${x} ${y}`} cx={x} cy={y} r={SPACING / 5} fill={`#${mark}`} />
        ))}
    </pattern>
  );
}
