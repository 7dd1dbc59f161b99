/**
 * Why two amounts of one load differ. What a load would have come to otherwise is not worked out here: it comes as data
 * with the load (`PricedOtherwise`), so that it is the product's own figure to the cent.
 */
import { dayNumber, type LocalDate } from '../../dates/local-date.ts';
import {
  add,
  compare,
  decimal,
  type Exact,
  isZero,
  multiply,
  powerOfTen,
  ratio,
  subtract,
  ZERO,
} from '../../numbers/exact.ts';
import { type AlternativeAmount, compareTexts, type NamedAmount, type ReadRow } from '../list-row.ts';
import {
  AMOUNT_CAUSES,
  type AmountCause,
  type Causes,
  type SlipDetail,
  type Trial,
  tryCauses,
} from './cause.ts';
import { type DigitPair, digitTrials } from './digit-slips.ts';
import { alignedDigits } from './written.ts';

/** A row whose amount is known. */
interface Priced extends Pick<ReadRow, 'row' | 'pounds' | 'dryMatter'> {
  readonly amount: Exact;
}

/** What an amount differs by in kind; `slip` is one of the hand. */
export type AmountKind = 'rounding' | 'weight' | 'price' | 'test' | 'charge' | 'slip' | 'unknown';

const KINDS: Readonly<Record<AmountCause, AmountKind>> = {
  rounded: 'rounding',
  'follows-weight': 'weight',
  'follows-test': 'test',
  'charge-left-out': 'charge',
  'charge-twice': 'charge',
  'quote-of-another-day': 'price',
  'as-fed-for-dry': 'test',
  'other-test': 'test',
  'point-moved': 'slip',
  'digits-transposed': 'slip',
  'digit-mistyped': 'slip',
  'digit-doubled': 'slip',
  'digit-dropped': 'slip',
};

/** The kind of the likeliest cause. */
export function amountKind(causes: Causes<AmountCause>): AmountKind {
  const first = causes[0];
  return first ? KINDS[first.name] : 'unknown';
}

/**
 * The causes that explain why the amounts differ; `decimals` are those of the currency's minor unit. None where a list
 * has no amount.
 */
export function amountCauses(
  sides: { readonly mine: ReadRow; readonly record: ReadRow },
  decimals: number,
): Causes<AmountCause> {
  const [mine, record] = [pricedOf(sides.mine), pricedOf(sides.record)];
  if (!mine || !record) return [];
  const minorUnit = ratio(1n, powerOfTen(decimals));
  const trials: Record<AmountCause, Trial<Priced>> = {
    rounded: (own, other) =>
      isWithin(subtract(own.amount, other.amount), multiply(minorUnit, linesOf(own, other))) ? {} : undefined,
    'follows-weight': (own, other) =>
      isZero(subtract(own.pounds, other.pounds))
        ? undefined
        : inProportion(own, other, { of: own.pounds, to: other.pounds, minorUnit }),
    'follows-test': (own, other) => {
      if (!own.dryMatter || !other.dryMatter || compare(own.dryMatter, other.dryMatter) === 0)
        return undefined;
      const of = multiply(own.pounds, own.dryMatter);
      return inProportion(own, other, { of, to: multiply(other.pounds, other.dryMatter), minorUnit });
    },
    'charge-left-out': (own, other) => charged(other, subtract(other.amount, own.amount)),
    'charge-twice': (own, other) => charged(other, subtract(own.amount, other.amount)),
    'quote-of-another-day': (own, other) => {
      const found = Object.entries(other.row.priced?.byDay ?? {})
        .filter(([, amount]) => isAmount(amount, own.amount))
        .map(([day]) => day);
      const [day] = nearestFirst(found, other.row.deliveredOn);
      return day === undefined ? undefined : { day };
    },
    'as-fed-for-dry': (own, other) => alternative('as-fed-for-dry', own, other),
    'other-test': (own, other) => alternative('other-test', own, other),
    ...digitTrials(digitPairs),
  };
  return tryCauses(AMOUNT_CAUSES, trials, { mine, record });
}

function pricedOf({ row, pounds, dryMatter, amount }: ReadRow): Priced | undefined {
  return amount && { row, pounds, dryMatter, amount };
}

/** Quotes repeat themselves: the slip is likelier to have taken the one close by; of two as close, the earlier. */
function nearestFirst(days: readonly string[], deliveredOn: LocalDate): readonly string[] {
  const apart = (day: string) => Math.abs(dayNumber(day as LocalDate) - dayNumber(deliveredOn));
  return days.toSorted((a, b) => apart(a) - apart(b) || compareTexts(a, b));
}

function isAmount(text: string, amount: Exact): boolean {
  return compare(decimal(text), amount) === 0;
}

function linesOf(own: Priced, other: Priced): Exact {
  const lines = Math.max(own.row.priced?.lines ?? 1, other.row.priced?.lines ?? 1);
  return { n: BigInt(lines), d: 1n };
}

function isWithin(difference: Exact, most: Exact): boolean {
  return compare(difference, most) <= 0 && compare(difference, { n: -most.n, d: most.d }) >= 0;
}

/** The amounts are to each other as the quantities, but for a minor unit a line. */
function inProportion(
  own: Priced,
  other: Priced,
  { of, to, minorUnit }: { readonly of: Exact; readonly to: Exact; readonly minorUnit: Exact },
): SlipDetail | undefined {
  if (isZero(of) || isZero(to)) return undefined;
  const expected = multiply(other.amount, ratio(of.n * to.d, of.d * to.n));
  return isWithin(subtract(own.amount, expected), multiply(minorUnit, linesOf(own, other))) ? {} : undefined;
}

/** One charge of the amount that comes to the difference, or all of them together. */
function charged({ row }: Priced, difference: Exact): SlipDetail | undefined {
  const charges: readonly NamedAmount[] = row.priced?.charges ?? [];
  const one = charges.find(({ amount }) => isAmount(amount, difference));
  if (one) return { name: one.name };
  const all = charges.reduce((sum, { amount }) => add(sum, decimal(amount)), ZERO);
  if (charges.length < 2 || compare(all, difference) !== 0) return undefined;
  return { name: charges.map(({ name }) => name).join(', ') };
}

function alternative(
  because: AlternativeAmount['because'],
  own: Priced,
  other: Priced,
): SlipDetail | undefined {
  const found = other.row.priced?.alternatives?.find(
    (one) => one.because === because && isAmount(one.amount, own.amount),
  );
  return found && { name: found.name };
}

function digitPairs(own: Priced, other: Priced): DigitPair[] {
  const { amount: text } = own.row;
  const { amount: expected } = other.row;
  const digits = text === null || expected === null ? undefined : alignedDigits(text, expected);
  return digits ? [{ ...digits, detail: {} }] : [];
}
