/**
 * What a referee was to judge, where it never tested.
 */
import { meanOf, type RetestFigure, type Tester } from '../figures.ts';
import type { Decided, LaboratoryMethod } from '../ruling.ts';
import { figuresFrom } from '../testing.ts';
import { acceptability } from './iso-5725.ts';

export interface Judged {
  readonly first: RetestFigure;
  readonly counted: readonly RetestFigure[];
}

/**
 * By ASTM D3244 the mean of the two retests alone, since the first ones are dropped; by ISO 5725-6 what the laboratory's own
 * check came to; else the mean of the first figure and the laboratory's own. Undefined where there is but the first.
 */
export function judgedWithoutReferee(
  method: LaboratoryMethod,
  { first, counted }: Judged,
): Pick<Decided, 'value' | 'from'> | undefined {
  const last = (from: Tester) => figuresFrom(counted, from).slice(-1);
  switch (method.method) {
    case 'astm-d3244':
      return mean([...last('seller'), ...last('buyer')]);
    case 'iso-5725': {
      const own = acceptability({ ...method, reproducibility: undefined }, { first, later: counted });
      return own.kind === 'decided' ? own : undefined;
    }
    case 'closest-two':
    case 'median':
    case 'referee-stands':
      return mean([first, ...figuresFrom(counted, 'laboratory')]);
  }
}

function mean(from: readonly RetestFigure[]): Pick<Decided, 'value' | 'from'> | undefined {
  return from.length > 0 ? { value: meanOf(from.map(({ value }) => value)), from } : undefined;
}
