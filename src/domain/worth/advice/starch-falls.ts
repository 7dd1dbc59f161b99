/**
 * A price that falls as starch rises: better feed would earn less.
 */
import {
  add,
  compare,
  type Exact,
  isNegative,
  multiply,
  ratio,
  subtract,
  whole,
  ZERO,
} from '../../numbers/exact.ts';
import { printDecimal } from '../../numbers/printing.ts';
import { moveFigures } from '../plausible-figures.ts';
import type { FibreCourse } from '../price-grid.ts';
import type { TrialFigures, TriedLoad } from '../try-out.ts';
import { usualFeed } from '../usual-figures.ts';
import type { Advice } from './advice.ts';
import { type Ground, perTonDry, tonName } from './ground.ts';

const STEP = ratio(1n, 4n);
/** What the rounding of lines alone may take off: 1 part in 2,000 of the price. */
const SLIGHT = ratio(1n, 2000n);

interface Point {
  readonly starch: Exact;
  readonly tried: TriedLoad;
  readonly price: Exact;
}

interface Fall {
  readonly from: Point;
  readonly to: Point;
}

/** At most one warning: with NDF held, else with NDF giving way to starch. */
export function adviseOnStarch(ground: Ground): Advice[] {
  for (const fibre of ['held', 'gives-way'] as const) {
    const fall = deepestFall(pointsAlong(ground, fibre));
    if (fall) return [{ kind: 'falls-with-starch', message: tellFall(ground, { ...fall, fibre }) }];
  }
  return [];
}

function pointsAlong(ground: Ground, fibre: FibreCourse): Point[] {
  const { low, high } = usualFeed(ground.agreement.feed).range.starch;
  const points: Point[] = [];
  for (let count = 0; ; count++) {
    const starch = add(low, multiply(STEP, whole(count)));
    if (compare(starch, high) > 0) return points;
    const tried = ground.tryLoad(withStarch(ground.usual, { starch, fibre }));
    const price = perTonDry(ground, tried);
    if (price) points.push({ starch, tried, price });
  }
}

function withStarch(
  usual: TrialFigures,
  { starch, fibre }: { readonly starch: Exact; readonly fibre: FibreCourse },
): TrialFigures {
  if (fibre === 'held') return new Map(usual).set('starch', starch);
  return moveFigures(usual, { starch: subtract(starch, usual.get('starch') ?? ZERO) });
}

/** The largest drop from a point to a later one; undefined where there is none but what rounding makes. */
function deepestFall(points: readonly Point[]): Fall | undefined {
  let [peak] = points;
  let fall: (Fall & { readonly depth: Exact }) | undefined;
  for (const point of points) {
    if (!peak || compare(point.price, peak.price) >= 0) peak = point;
    const depth = subtract(peak.price, point.price);
    if (compare(depth, fall?.depth ?? ZERO) > 0) fall = { from: peak, to: point, depth };
  }
  if (!fall) return undefined;
  const slight = multiply(fall.from.price, SLIGHT);
  return isNegative(slight) || compare(fall.depth, slight) > 0 ? fall : undefined;
}

function tellFall(ground: Ground, { from, to, fibre }: Fall & { readonly fibre: FibreCourse }): string {
  const course =
    fibre === 'held'
      ? `NDF held at ${printDecimal(ground.usual.get('ndf') ?? ZERO)} %`
      : 'NDF giving way by as much';
  const label = lineThatFalls({ from, to });
  return [
    `The price falls as starch rises: from ${ground.tellMoney(from.price)} at ${printDecimal(from.starch)} % to ${ground.tellMoney(to.price)} at ${printDecimal(to.starch)} % starch per ${tonName(ground)} of dry matter, with ${course}.`,
    'Better feed earns less.',
    label === undefined
      ? 'Let the price rise with starch over the range in which such feed is seen.'
      : `Look at “${label}”: let it rise with starch, or stay, over the range in which such feed is seen.`,
  ].join(' ');
}

/** The line that loses most between two points. */
function lineThatFalls({ from, to }: Fall): string | undefined {
  if (from.tried.impossible !== undefined || to.tried.impossible !== undefined) return undefined;
  const later = to.tried.lines;
  const lost = from.tried.lines.map(({ label, amount }, index) => ({
    label,
    lost: amount - (later[index]?.amount ?? amount),
  }));
  return lost.toSorted((a, b) => (a.lost > b.lost ? -1 : a.lost < b.lost ? 1 : 0))[0]?.label;
}
