/**
 * The load strip on screen: as long as its weight, divided as on paper, and said in words to whoever cannot see it.
 * A load without any test is left blank rather than drawn as known.
 */
import { type LoadComposition, loadStrip, type StripPart } from '../../documents/strip/load-strip.ts';
import { patternOf } from './hatch-patterns.tsx';

const ofWhole = (part: number) => `${Number((part * 100).toFixed(4))}%`;

export function LoadStripPicture({ load }: { readonly load: LoadComposition }) {
  const strip = loadStrip(load);
  const isTested = strip.segments.length > 1;
  return (
    <svg className="strip" role="img" aria-label={strip.text} width="100%" height="20">
      <svg width={ofWhole(strip.length)} height="20" aria-hidden="true">
        {strip.segments.map(({ part, from, to }) => (
          <rect
            key={part}
            className={isTested ? undefined : 'untested'}
            x={ofWhole(from)}
            width={ofWhole(to - from)}
            y="0.5"
            height="19"
            {...(isTested ? { fill: patternOf(part) } : {})}
          />
        ))}
        {isTested ? null : (
          <text x="8" y="14.5" className="strip-word">
            not tested yet
          </text>
        )}
      </svg>
    </svg>
  );
}

const PARTS: readonly (readonly [StripPart, string])[] = [
  ['water', 'water'],
  ['starch', 'starch'],
  ['fibre', 'fibre (NDF)'],
  ['rest', 'the rest'],
];

export interface StripLegendProps {
  readonly load?: LoadComposition;
  /** What the lengths of the strips stand for. */
  readonly length?: string;
}

/** What the fills mean; with a load, how much of each it holds. */
export function StripLegend({ load, length = 'net weight' }: StripLegendProps) {
  const segments = load && loadStrip(load).segments;
  if (segments?.length === 1) return null;
  const shown = segments ?? PARTS.map(([part, label]) => ({ part, label, percent: null }));
  return (
    <p className="legend">
      {shown.map(({ part, label, percent }) => (
        <span key={part} className="legend-part">
          <svg width="22" height="12" aria-hidden="true" focusable="false">
            <rect x="0.5" y="0.5" width="21" height="11" fill={patternOf(part)} />
          </svg>{' '}
          {percent === null ? label : `${label} ${percent} %`}
        </span>
      ))}
      <span className="legend-part">{load ? 'of the wet load' : `length: ${length}`}</span>
    </p>
  );
}
