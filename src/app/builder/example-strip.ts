/**
 * An example load as a load strip, all of the five as long as their weight.
 */
import type { LoadComposition, StripShare } from '../../documents/strip/load-strip.ts';
import type { Tested } from '../../domain/agreement/measures.ts';
import { type Exact, HUNDRED, multiply, ONE, percent, subtract, ZERO } from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import type { ExampleLoad } from '../../domain/worth/example-loads.ts';

/** 58 % dry matter with 55 % starch and 25 % NDF: 42.0 % water, 31.9 % starch, 14.5 % fibre, 11.6 % the rest. */
export function exampleStrip(
  { figures, net, unit }: ExampleLoad,
  show: (figure: string) => string,
): LoadComposition {
  const of = (measure: Tested) => percent(figures.get(measure) ?? ZERO);
  const dryMatter = of('dry-matter');
  const starch = multiply(dryMatter, of('starch'));
  const fibre = multiply(dryMatter, of('ndf'));
  const printed = (part: Exact) => show(printFixed(multiply(part, HUNDRED), 1));
  const share = (part: Exact): StripShare => ({
    share: Math.max(0, Number(printDecimal(part, 9))),
    percent: printed(part),
  });
  return {
    weight: `${show(printDecimal(net))} ${unit}`,
    length: 1,
    water: share(subtract(ONE, dryMatter)),
    starch: share(starch),
    fibre: share(fibre),
    restPercent: printed(subtract(subtract(dryMatter, starch), fibre)),
  };
}
