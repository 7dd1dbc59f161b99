/**
 * What the rules for a season as a whole come to, in sentences that both sides read alike: on the closing page, on the
 * notes and in the closing statement. `show` writes a figure as its reader does; kept words have plain figures.
 */
import { MEASURE_NAMES } from '../agreement/measures.ts';
import { isZero } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import type { AgreedRule } from '../season-close/agreed-rules.ts';
import type { SeasonFigures, TrueUpOutcome } from '../season-close/true-up.ts';
import type { VolumeOutcome, VolumeTerms } from '../season-close/volume-rule.ts';
import { type Money, printAmount } from '../settlement/line.ts';
import type { Parties } from './parties.ts';

export interface RuleSetting extends Parties {
  readonly money: Money;
  readonly show: (figure: string) => string;
}

const TONS = { 'short-ton': 'short tons', tonne: 'tonnes' } as const;
const WEIGHTS = { 'as-fed': 'as-fed', 'dry-matter': 'of dry matter' } as const;

/** Why there is no average: no load has settled. */
export const NO_AVERAGE = 'no load has settled, so that the season’s average price is not known';

/** "Quillback Acres owes Tarn Hollow Dairy 600.00 USD."; below zero the seller owes. */
export function owedInWords(owed: bigint, { seller, buyer, money, show }: RuleSetting): string {
  if (owed === 0n) return 'Nothing is owed.';
  const [debtor, creditor] = owed > 0n ? [buyer, seller] : [seller, buyer];
  return `${debtor} owes ${creditor} ${show(printAmount(owed < 0n ? -owed : owed, money))} ${money.currency}.`;
}

/** "1,300 short tons as-fed are delivered, less than 1,350: 50 are missing. Quillback Acres owes …" */
export function volumeOutcomeInWords(
  rule: Exclude<AgreedRule, 'true-up'>,
  { outcome, terms, uncounted }: { outcome: VolumeOutcome; terms: VolumeTerms; uncounted: number },
  setting: RuleSetting,
): string {
  const { show } = setting;
  const [delivered, bound] = [outcome.delivered, outcome.bound].map((tons) => show(printDecimal(tons)));
  const came = `${delivered} ${TONS[terms.unit]} ${WEIGHTS[terms.weight]} are delivered`;
  const [isPassed, are] = rule === 'shortfall' ? ['less', 'are missing'] : ['more', 'are over'];
  const { from } = (rule === 'shortfall' ? terms.shortfall : terms.surplus) ?? {};
  const counted =
    from === 'amount' && terms.tolerancePercent !== undefined
      ? `, counted from the agreed amount of ${show(terms.amount)}`
      : '';
  return [
    isZero(outcome.quantity)
      ? `${came}, not ${isPassed} than ${bound}.`
      : `${came}, ${isPassed} than ${bound}: ${show(printDecimal(outcome.quantity))} ${are}${counted}.`,
    owedInWords(outcome.owed, setting),
    ...(uncounted === 0 ? [] : [uncountedInWords(uncounted, show)]),
  ].join(' ');
}

/** Of a volume of dry matter. */
export function uncountedInWords(uncounted: number, show: (figure: string) => string): string {
  return uncounted === 1
    ? 'One load whose dry matter is not known is not counted.'
    : `${show(String(uncounted))} loads whose dry matter is not known are not counted.`;
}

/** "311 settled loads come to 498,900.12 USD in the place of 498,765.43, priced again by …. Tarn Hollow Dairy owes …" */
export function trueUpOutcomeInWords(
  { figures, loads, settled, again, owed }: TrueUpOutcome,
  setting: RuleSetting,
): string {
  const { money, show } = setting;
  const come = loads === 1 ? 'One settled load comes' : `${show(String(loads))} settled loads come`;
  const [now, before] = [again, settled].map((sum) => show(printAmount(sum, money)));
  const by = figuresInWords(figures, show);
  return `${come} to ${now} ${money.currency} in the place of ${before}, priced again by ${by}. ${owedInWords(owed, setting)}`;
}

/** "corn-elevator-bid 4.2533, the mean of 13 quotes; the average test: dry matter 58.2, starch 64.1". */
export function figuresInWords(
  { means, test }: SeasonFigures,
  show: (figure: string) => string = (figure) => figure,
): string {
  const quotes = means.map(
    ({ series, mean, quotes }) =>
      `${series} ${show(printDecimal(mean))}, the mean of ${quotes === 1 ? 'one quote' : `${show(String(quotes))} quotes`}`,
  );
  const measured = test && [
    ['dry-matter', test.dryMatter] as const,
    ...test.reported.map((measure, index) => [measure, test.figures[index]] as const),
  ];
  const tested = (measured ?? []).flatMap(([measure, figure]) =>
    figure ? [`${MEASURE_NAMES[measure]} ${show(printDecimal(figure))}`] : [],
  );
  const parts = [...quotes, ...(tested.length === 0 ? [] : [`the average test: ${tested.join(', ')}`])];
  return parts.length === 0
    ? 'the prices and tests of each load, which no average changes'
    : parts.join('; ');
}
