/**
 * What is agreed on for the season as a whole, in words: what tons short of the agreed volume or beyond it come to, and
 * how all loads are priced again once the season is over. They say what `season-close/` works out; every figure stands in
 * them as it was written, beside the ends of the range that follow from it.
 */
import type { Conditions } from '../agreement/conditions.ts';
import { printDecimal } from '../numbers/printing.ts';
import { type VolumeTerms, volumeRange } from '../season-close/volume-rule.ts';
import type { PaymentSetting } from './payment-words.ts';

type TrueUp = NonNullable<Conditions['trueUp']>;

const TONS = { 'short-ton': 'short tons', tonne: 'tonnes' } as const;
const TON = { 'short-ton': 'short ton', tonne: 'tonne' } as const;
const WEIGHTS = { 'as-fed': 'as-fed', 'dry-matter': 'of dry matter' } as const;

/** Paragraphs about `shortfall` and `surplus`; none where neither is agreed on. */
export function volumeRulesInWords(volume: VolumeTerms, setting: PaymentSetting): string[] {
  const { shortfall, surplus } = volume;
  if (!shortfall && !surplus) return [];
  const isOfAverage =
    shortfall?.percentOfAverage !== undefined ||
    surplus?.percentOfAverage !== undefined ||
    surplus?.price !== undefined;
  return [
    ...(shortfall ? [shortfallWords(volume, shortfall, setting)] : []),
    ...(surplus ? [surplusWords(volume, surplus, setting)] : []),
    ...(isOfAverage ? [averageWords(volume)] : []),
    whatIsDelivered(volume, setting),
    ...(shortfall ? [FIXED_IN_ADVANCE] : []),
  ];
}

function shortfallWords(
  volume: VolumeTerms,
  { owedBy, from, rate, percentOfAverage }: NonNullable<VolumeTerms['shortfall']>,
  { seller, buyer, currency }: PaymentSetting,
): string {
  const [debtor, creditor] = owedBy === 'seller' ? [seller, buyer] : [buyer, seller];
  const each =
    rate === undefined ? `${percentOfAverage} % of the season’s average price` : `${rate} ${currency}`;
  const least = printDecimal(volumeRange(volume).least);
  return `If less than ${least} ${TONS[volume.unit]} ${WEIGHTS[volume.weight]} ${taken(volume, 'less')}are delivered in all, ${debtor} owes ${creditor} ${each} for each ${TON[volume.unit]} ${shortOf(volume, { from, least })}`;
}

function surplusWords(
  volume: VolumeTerms,
  { from, rate, percentOfAverage, price }: NonNullable<VolumeTerms['surplus']>,
  { seller, buyer, currency }: PaymentSetting,
): string {
  const most = printDecimal(volumeRange(volume).most);
  const begin = `If more than ${most} ${TONS[volume.unit]} ${WEIGHTS[volume.weight]} ${taken(volume, 'more')}are delivered in all,`;
  const tons = `for each ${TON[volume.unit]} ${beyond(volume, { from, most })}`;
  if (price !== undefined) {
    return `${begin} ${price} ${currency} is paid ${tons} This price stands in the place of the season’s average price: ${buyer} owes ${seller} the difference where it is more than the average, and ${seller} owes it to ${buyer} where it is less.`;
  }
  const each =
    rate === undefined ? `${percentOfAverage} % of the season’s average price` : `${rate} ${currency}`;
  return `${begin} ${each} is taken off what ${buyer} owes ${seller} ${tons}`;
}

/** "(1500 less the 10 %) ": where the end of the range comes from. */
function taken({ amount, tolerancePercent }: VolumeTerms, way: 'less' | 'more'): string {
  if (tolerancePercent === undefined) return '';
  return `(${amount} ${way === 'less' ? 'less' : 'and'} the ${tolerancePercent} %${way === 'less' ? '' : ' more'}) `;
}

interface Counted {
  readonly from: 'range' | 'amount';
}

function shortOf(
  { amount, tolerancePercent }: VolumeTerms,
  { from, least }: Counted & { readonly least: string },
): string {
  if (tolerancePercent === undefined) {
    return from === 'range'
      ? `that is missing to the lower end of the range, which without a tolerance is ${amount}.`
      : `that is missing to the agreed amount of ${amount}.`;
  }
  return from === 'range'
    ? `that is missing to the lower end of the range, ${least}. Tons that are missing within the range cost nothing.`
    : `that is missing to the full agreed amount of ${amount}, not just to ${least}. Within the range nothing is owed; but once the delivery is below it, the tons of the range are counted, too.`;
}

function beyond(
  { amount, tolerancePercent }: VolumeTerms,
  { from, most }: Counted & { readonly most: string },
): string {
  if (tolerancePercent === undefined) {
    return from === 'range'
      ? `beyond the upper end of the range, which without a tolerance is ${amount}.`
      : `beyond the agreed amount of ${amount}.`;
  }
  return from === 'range'
    ? `beyond the upper end of the range, ${most}. Tons within the range are paid as any other.`
    : `beyond the agreed amount of ${amount}, not just beyond ${most}. Within the range nothing changes; but once the delivery is above it, the tons of the range are counted, too.`;
}

function averageWords({ unit, weight }: VolumeTerms): string {
  return `The season’s average price is what all settled loads came to by the price formula, divided by their ${TONS[unit]} ${WEIGHTS[weight]}: before deductions, and before any pricing again once the season is over. It is not rounded before it is used.`;
}

function whatIsDelivered({ weight }: VolumeTerms, { buyer }: PaymentSetting): string {
  const dry =
    weight === 'dry-matter' ? ' A load counts once its dry matter is known; until then it does not.' : '';
  return `Loads that ${buyer} refused do not count as delivered.${dry} What this comes to is rounded once, and goes on a note once deliveries are over.`;
}

/** That sums fixed in advance are held to limits by law: common practice, no source. */
const FIXED_IN_ADVANCE =
  'How much may be agreed in advance for a delivery that falls short is limited by law in many places. Have a licensed adviser read this.';

/** How loads are priced again by the season's averages. */
export function trueUpInWords(
  { prices, tests }: TrueUp,
  { seller, buyer }: Pick<PaymentSetting, 'seller' | 'buyer'>,
): string[] {
  const by = [
    ...(prices ? [`the average of the quotes from ${prices.from} to ${prices.to}`] : []),
    ...(tests ? ['the season’s average test'] : []),
  ].join(' and by ');
  return [
    `Once the season is over, every settled load is priced again by ${by}${prices && tests ? ', both at once' : ''}.`,
    ...(prices ? [PRICES_AGAIN] : []),
    ...(tests ? [TESTS_AGAIN] : []),
    `What all loads come to by that, less what they have settled to, ${buyer} owes ${seller}; where it is below nothing, ${seller} owes it to ${buyer}. It goes on one note. Each load keeps its own weight, and that ${buyer} accepted a load stands.`,
  ];
}

const PRICES_AGAIN =
  'The average is the plain mean of all quotes of a series that are dated on these days, both included, rounded to 4 decimals; basis, floor and ceiling apply to it. It prices each reference that follows the day of delivery or an average of quotes. A fixed price, and one whose day the seller names, stay as they are. The loads wait until the series has a quote of the last day or a later one.';
const TESTS_AGAIN =
  'The season’s average test weighs each load’s dry matter by the load’s weight as delivered, each part of the dry matter by the load’s dry matter, and any other figure by the weight as delivered, over the settled loads that have the figure. It is rounded to the decimals of the most precise result in it.';
