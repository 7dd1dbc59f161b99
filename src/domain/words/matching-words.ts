/**
 * What the matching of two lists found, in sentences: how a row ends, in what a pair differs and by how much, and the most
 * likely cause.
 */
import { dayInWords } from '../dates/day-words.ts';
import type { Cause, CauseName, Causes, Slip } from '../matching/causes/cause.ts';
import type { Difference } from '../matching/differences.ts';
import type { ListRow, ListSide } from '../matching/list-row.ts';
import type { Outcome, PairOutcome, Standing } from '../matching/match-lists.ts';
import type { WeightUnit } from '../quantities/units.ts';
import { countOfDays, isBelowZero, listed, unsigned } from './figures-in-words.ts';

/** How the two lists and their loads are called in sentences. */
export interface ListNames {
  /** "your list". */
  readonly mine: string;
  /** "the record", or the other side's list: "Oddmeadow Farm’s list". */
  readonly record: string;
  /** "load 1047 of the record": a load, or a payment, that a cause points to. */
  readonly load: (side: ListSide, id: string) => string;
  /** "USD". */
  readonly currency: string;
  /** Writes a figure as the reader does; without it, as it is kept. */
  readonly show?: (figure: string) => string;
}

export function shown(figure: string, { show }: Pick<ListNames, 'show'>): string {
  return show ? show(figure) : figure;
}

/** The other side's list by its party's name: "Oddmeadow Farm’s list", "Quillback Acres’ list". */
export function listOfParty(name: string): string {
  return `${name}${/s$/i.test(name) ? '’' : '’s'} list`;
}

/** A standing as a heading over its rows. */
export function standingInWords(standing: Standing, { mine, record }: ListNames): string {
  switch (standing) {
    case 'agrees':
      return 'Agrees';
    case 'ticket-differs':
      return 'Ticket differs';
    case 'weight-differs':
      return 'Weight differs';
    case 'date-differs':
      return 'Day differs';
    case 'amount-differs':
      return 'Amount differs';
    case 'test-differs':
      return 'Dry matter differs';
    case 'only-in-mine':
      return `Only in ${mine}`;
    case 'only-in-record':
      return `Only in ${record}`;
    case 'twice':
      return 'Twice';
  }
}

/** How a row ends, a sentence or a few for each respect in which its pair differs. */
export function outcomeInWords(outcome: Outcome, names: ListNames): readonly string[] {
  switch (outcome.kind) {
    case 'only':
      return [
        outcome.isUndecided
          ? `Too many loads without a number are alike here to tell them apart, so this one of ${names[outcome.in]} was not matched.`
          : `This load is only in ${names[outcome.in]}.`,
      ];
    case 'twice':
      return [`This load stands twice in ${names[outcome.in]}: ${names.load(outcome.in, outcome.of)}.`];
    case 'pair':
      if (outcome.differences.length > 0)
        return outcome.differences.map((difference) => differenceInWords(difference, outcome, names));
      return [outcome.isToRounding ? 'Agrees, to the rounding of the two units.' : 'Agrees.'];
  }
}

/** What differs, by how much, and why. */
export function differenceInWords(difference: Difference, pair: PairOutcome, names: ListNames): string {
  const cause = causesInWords(difference.causes, { aspect: difference.aspect, pair, names });
  return `${whatDiffers(difference, pair, names)} ${cause}`;
}

function whatDiffers(difference: Difference, { mine, record }: PairOutcome, names: ListNames): string {
  const both = (own: string, recorded: string) =>
    `${opened(names.mine)} has ${own}, ${names.record} ${recorded}`;
  const apart = (by: string, unit: string) =>
    `${shown(unsigned(by), names)} ${unit} ${isBelowZero(by) ? 'less' : 'more'}`;
  const money = (amount: string | null) => `${shown(amount ?? '', names)} ${names.currency}`;
  switch (difference.aspect) {
    case 'ticket':
      return `${both(`ticket ${mine.ticket}`, `ticket ${record.ticket}`)}.`;
    case 'weight':
      return `${both(weightOf(mine, names), weightOf(record, names))}: ${apart(difference.by, 'lb')}.`;
    case 'date': {
      const days = countOfDays(String(Math.abs(difference.byDays)));
      const day = dayInWords(mine.deliveredOn, record.deliveredOn);
      return `${both(day, dayInWords(record.deliveredOn, mine.deliveredOn))}: ${days} ${difference.byDays < 0 ? 'earlier' : 'later'}.`;
    }
    case 'amount':
      return `${both(money(mine.amount), money(record.amount))}: ${apart(difference.by, names.currency)}.`;
    case 'test':
      return `${both(`${mine.dryMatter} % dry matter`, `${record.dryMatter} %`)}: ${apart(difference.by, 'points')}.`;
  }
}

function weightOf({ net, unit }: ListRow, names: ListNames): string {
  return `${shown(net, names)} ${UNIT_SIGNS[unit]}`;
}

const UNIT_SIGNS: Readonly<Record<WeightUnit, string>> = {
  lb: 'lb',
  kg: 'kg',
  cwt: 'cwt',
  'short-ton': 'short tons',
  tonne: 't',
};

interface Telling {
  readonly aspect: Difference['aspect'];
  /** The day of the record's row says which days need no year. */
  readonly pair: { readonly record: Pick<ListRow, 'deliveredOn'> };
  readonly names: ListNames;
}

/** "Most likely two digits … . It could also be that …." */
export function causesInWords(causes: Causes, telling: Telling): string {
  const [first, ...others] = causes;
  if (!first) return 'Nothing that was tried explains this exactly.';
  const likely = `Most likely ${causeInWords(first, telling)}.`;
  if (others.length === 0) return likely;
  return `${likely} It could also be that ${listed(
    others.map((cause) => causeInWords(cause, telling)),
    'or that',
  )}.`;
}

function causeInWords({ name, slips }: Cause, telling: Telling): string {
  return listed(
    slips.map((slip) => PHRASES[name](slip, telling)),
    'or',
  );
}

type Phrase = (slip: Slip, telling: Telling) => string;

const where: Phrase = ({ by }, { names }) => (by === 'either' ? 'one of the two lists' : names[by]);
const inList = (what: (slip: Slip, telling: Telling) => string): Phrase => {
  return (slip, telling) => `in ${where(slip, telling)} ${what(slip, telling)}`;
};
const byList = (does: (slip: Slip, telling: Telling) => string): Phrase => {
  return (slip, telling) => `${where(slip, telling)} ${does(slip, telling)}`;
};

const PHRASES: Readonly<Record<CauseName, Phrase>> = {
  rounded: (slip, telling) =>
    telling.aspect === 'amount'
      ? 'the lines were rounded otherwise'
      : `in ${where(slip, telling)} the figure is rounded`,
  'other-unit': inList(({ units }) =>
    units
      ? `the figure is in ${UNIT_WORDS[units.isIn]} and stands there as one in ${UNIT_WORDS[units.takenFor]}`
      : 'the figure is in another unit',
  ),
  'gross-for-net': byList(() => 'has the gross weight for the net weight'),
  'tare-of-another-truck': byList((slip, telling) => `has the tare of another truck${ofLoad(slip, telling)}`),
  'implied-tare-of-another-truck': byList(
    (slip, telling) => `took off the tare of another truck${ofLoad(slip, telling)}`,
  ),
  'point-moved': inList((slip, telling) => `the decimal point of ${figure(slip, telling)} has moved`),
  'digits-transposed': inList(
    (slip, telling) => `two digits of ${figure(slip, telling)} have changed places`,
  ),
  'digit-mistyped': inList((slip, telling) => `one digit of ${figure(slip, telling)} is mistyped`),
  'digit-doubled': inList((slip, telling) => `one digit of ${figure(slip, telling)} stands twice`),
  'digit-dropped': inList((slip, telling) => `one digit of ${figure(slip, telling)} is left out`),
  'follows-weight': () => 'it follows from the difference in weight',
  'follows-test': () => 'it follows from the difference in dry matter',
  'charge-left-out': byList(({ name }) => `leaves out ${name}`),
  'charge-twice': byList(({ name }) => `counts ${name} twice`),
  'quote-of-another-day': byList(
    ({ day }, { pair }) =>
      `used the quote of ${day === undefined ? 'another day' : dayInWords(day, pair.record.deliveredOn)}`,
  ),
  'as-fed-for-dry': byList(
    ({ name }) => `reckoned with the weight as fed, not with its dry matter (${name})`,
  ),
  'other-test': byList(({ name }) => `used another test (${name})`),
  'day-shifted': (_, { names }) =>
    `the load came around midnight, and ${names.mine} and ${names.record} have the days on either side of it`,
  'day-and-month-exchanged': inList(() => 'day and month have changed places'),
  'moisture-for-dry-matter': byList(() => 'has the moisture for the dry matter'),
  'sign-turned': inList(() => 'paid and received have changed places'),
  'two-as-one': byList(
    (slip, telling) => `has two payments as one sum${ofLoad(slip, telling, ', this one and ')}`,
  ),
  'discount-taken': byList(({ name }) => `took off ${name}`),
  'fee-within': byList(({ name }) => `has ${name} in the same sum`),
  'invoice-within': byList(({ name }) => `has ${name} in the same sum`),
};

const UNIT_WORDS: Readonly<Record<WeightUnit, string>> = {
  lb: 'pounds',
  kg: 'kilograms',
  cwt: 'hundredweights',
  'short-ton': 'short tons',
  tonne: 'tonnes',
};

const FIGURES: Readonly<Record<Difference['aspect'], string>> = {
  ticket: 'the ticket',
  weight: 'the net weight',
  date: 'the day',
  amount: 'the amount',
  test: 'the dry matter',
};
const PARTS = { gross: 'the gross weight', tare: 'the tare', net: 'the net weight' } as const;

function figure({ part }: Slip, { aspect }: Telling): string {
  return part ? PARTS[part] : FIGURES[aspect];
}

function ofLoad({ load }: Slip, { names }: Telling, before = ', that of '): string {
  return load ? `${before}${names.load(load.in, load.id)}` : '';
}

export function opened(name: string): string {
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}`;
}
