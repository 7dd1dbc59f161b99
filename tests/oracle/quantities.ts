/**
 * Weights in pounds, extents in the unit that a term is charged by, and distances.
 */
import { divide, type Fraction, multiply, one, parse, subtract, whole } from './fraction.ts';
import type { Extent, LoadRow, Per } from './season.ts';

const kilogramsPerPound = parse('0.45359237');
const kilometresPerMile = parse('1.609344');

const poundsPer: ReadonlyMap<string, Fraction> = new Map([
  ['lb', one],
  ['cwt', whole(100)],
  ['short-ton', whole(2000)],
  ['kg', divide(one, kilogramsPerPound)],
  ['tonne', divide(whole(1000), kilogramsPerPound)],
]);

function poundsIn(unit: string): Fraction {
  const pounds = poundsPer.get(unit);
  if (pounds === undefined) throw new Error(`not a unit of weight: "${unit}"`);
  return pounds;
}

export function netPounds(load: LoadRow): Fraction {
  return multiply(subtract(parse(load.gross), parse(load.tare)), poundsIn(load.unit));
}

function distance(load: LoadRow, per: 'mile' | 'km'): Fraction {
  if (load.miles !== undefined && load.miles !== '') {
    const miles = parse(load.miles);
    return per === 'mile' ? miles : multiply(miles, kilometresPerMile);
  }
  if (load.km === undefined || load.km === '') throw new Error(`load "${load.ticket}" has no distance`);
  return per === 'km' ? parse(load.km) : divide(parse(load.km), kilometresPerMile);
}

export type Weighed = { load: LoadRow; asFed: Fraction; dryMatter: Fraction | undefined };

export function extentOf(weighed: Weighed, extent: Extent): Fraction {
  const per: Per = extent.per;
  if (per === 'load') return one;
  if (per === 'mile' || per === 'km') return distance(weighed.load, per);
  const pounds = extent.weight === 'dry-matter' ? weighed.dryMatter : weighed.asFed;
  if (pounds === undefined) throw new Error(`load "${weighed.load.ticket}" has no dry matter`);
  return divide(pounds, poundsIn(per));
}
