/**
 * A doubt and its possible outcomes, in words for the reader.
 */
import { signOf, unsigned } from '../../documents/amount-strings.ts';
import type { Figures } from '../../documents/figures.ts';
import { SCALE_UNITS } from '../../domain/quantities/units.ts';
import type { Side } from '../../domain/retests/costs.ts';
import type { DoubtView } from '../../usecases/retests/doubt-view.ts';
import type { Possible, PossibleKind } from '../../usecases/retests/outlook.ts';

export interface OutlookNames {
  readonly seller: string;
  readonly buyer: string;
  readonly asker: Side;
  readonly side: Side;
  readonly currency: string;
}

/** What the scatter of the test says of a doubt, in a few sentences. */
export function doubtWords(doubt: DoubtView, unit: string): string {
  const { apart, is, agreed, published, scales } = doubt;
  if (scales !== undefined) {
    const off = `two scales like that of the ticket may be off by ${scales} lb together at these weights`;
    return is === 'within'
      ? `The weights differ by ${apart} lb. That is no more than the scales themselves: ${off}. The first would stand.`
      : `The weights differ by ${apart} lb. That is more than the scales themselves: ${off}.`;
  }
  if (SCALE_UNITS.some((known) => known === unit)) {
    return `The weights differ by ${apart} lb. The ticket names no scale, so nobody can say yet how far it may be off.`;
  }
  const measured = unit.startsWith('%')
    ? `${apart} ${apart === '1' ? 'point' : 'points'}`
    : `${apart} ${unit}`.trim();
  const sentences = [`The figures differ by ${measured}.`];
  if (agreed) sentences.push(agreedWords(agreed, is));
  if (published) sentences.push(publishedWords(published, doubt.isByPublished));
  if (!agreed && !published) {
    sentences.push(
      'No limit is agreed or published for this test, so nobody can say whether that is more than it scatters by itself.',
    );
  }
  return sentences.join(' ');
}

function agreedWords({ limit, is }: NonNullable<DoubtView['agreed']>, standing: DoubtView['is']): string {
  const named = `${limit}, the ${LIMITS[is]} that you agreed on`;
  if (standing === 'beyond') return `That is more than ${named}.`;
  return is === 'tolerance'
    ? `That is no more than ${named}: a referee so near would leave the first figure.`
    : `That is no more than ${named}.`;
}

function publishedWords(
  { low, high, source }: NonNullable<DoubtView['published']>,
  standing: DoubtView['is'],
): string {
  const limits = low === high ? low : `${low} to ${high}`;
  const told = `On such a sample good laboratories differ by up to ${limits} without a mistake (${source})`;
  switch (standing) {
    case 'within':
      return `${told}: a retest may well go against whoever asks.`;
    case 'between':
      return `${told}, so that this may be no more than the test itself scatters.`;
    case 'beyond':
    case 'unknown':
      return `${told}; this is more.`;
  }
}

const LIMITS = {
  tolerance: 'tolerance',
  reproducibility: 'limit between laboratories (R)',
  repeatability: 'limit within one laboratory (r)',
} as const;

/** What the test may find, as its method has it, and how the reader thinks of that figure. */
export function possibleWords(
  kind: PossibleKind,
  figure: string,
  { method, asker, side, seller, buyer }: OutlookNames & { readonly method: string },
): string {
  if (kind === 'first') return `The first figure stands: ${figure}`;
  const finds =
    method === 'referee-stands'
      ? `The referee finds ${figure}`
      : method === 'second-scale'
        ? `The second scale shows ${figure}`
        : `The rule comes to ${figure}`;
  const name = asker === 'seller' ? seller : buyer;
  switch (kind) {
    case 'claimed':
      return `${finds}, ${asker === side ? 'your own figure' : `${name}’s figure`}`;
    case 'halfway':
      return `${finds}, half way`;
    case 'against':
      return `${finds}, as far on the other side`;
  }
}

/** "Tarn Hollow Dairy owes 100.00 USD less". */
export function changeWords(changed: string, { buyer, currency }: OutlookNames, figures: Figures): string {
  const sign = signOf(changed);
  if (sign === 0) return 'Nothing changes';
  const size = figures.show(unsigned(changed));
  return `${buyer} owes ${size} ${currency} ${sign > 0 ? 'more' : 'less'}`;
}

export function bearerWords(bearer: Possible['bearer'], { seller, buyer }: OutlookNames): string {
  if (bearer === 'split') return 'half each';
  return bearer === 'seller' ? seller : buyer;
}
