/**
 * Two seasons of the same two parties beside one another, in the units of the later. What differs is the difference of the
 * figures as they are printed, so that a reader who subtracts them gets the same.
 */
import { MEASURE_NAMES, MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import {
  compare,
  decimal,
  type Exact,
  isZero,
  powerOfTen,
  ratio,
  subtract,
  whole,
} from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import { deliveredOf } from '../../domain/progress/progress.ts';
import { fromPounds } from '../../domain/quantities/units.ts';
import { pricesPaid } from '../../domain/season/price-paid.ts';
import { seasonSpread } from '../../domain/season/test-groups.ts';
import type { Season } from './gather-season.ts';
import { POUND_PLACES, priceFor, type SeasonPrinting, TEST_PLACES, TON_PLACES } from './season-printing.ts';

export interface ComparedFigure {
  readonly name: string;
  readonly unit: string;
  /** As the reader writes numbers; undefined where a season has none. */
  readonly now: string | undefined;
  readonly before: string | undefined;
  /** "12.30 more", "the same"; undefined where one is missing, or they are in different money. */
  readonly differs: string | undefined;
}

interface Figure {
  readonly name: string;
  readonly unit: string;
  readonly value: Exact | undefined;
  readonly places: number;
  readonly isMoney: boolean;
}

const TON_NAMES = { 'short-ton': 'short tons', tonne: 'tonnes' } as const;
const TON_NAME = { 'short-ton': 'short ton', tonne: 'tonne' } as const;

/** What both seasons come to, a row for each figure that either has. `before` is printed in `printing`'s units of weight. */
export function compareSeasons(
  now: Season,
  before: Season,
  {
    printing,
    beforeMoney,
  }: { readonly printing: SeasonPrinting; readonly beforeMoney: SeasonPrinting['money'] },
): readonly ComparedFigure[] {
  const later = new Map(figuresOf(now, printing).map((figure) => [figure.name, figure]));
  const earlier = new Map(
    figuresOf(before, { ...printing, money: beforeMoney }).map((figure) => [figure.name, figure]),
  );
  const isSameMoney = beforeMoney.currency === printing.money.currency;
  return [...new Set([...later.keys(), ...earlier.keys()])].flatMap((name): ComparedFigure[] => {
    const [one, other] = [later.get(name), earlier.get(name)];
    const figure = one ?? other;
    const [shown, shownBefore] = [printed(one), printed(other)];
    if (!figure || (shown ?? shownBefore) === undefined) return [];
    const isComparable = isSameMoney || !figure.isMoney;
    // Where the money differs each figure names its own.
    const unitOf = (own: Figure | undefined) => (isComparable ? '' : ` ${own?.unit ?? ''}`);
    const show = (text: string | undefined, own: Figure | undefined) =>
      text === undefined ? undefined : `${printing.show(text)}${unitOf(own)}`;
    return [
      {
        name,
        unit: isComparable ? figure.unit : '',
        now: show(shown, one),
        before: show(shownBefore, other),
        differs:
          isComparable && shown !== undefined && shownBefore !== undefined
            ? differs(shown, shownBefore, {
                show: printing.show,
                places: figure.places,
                isDays: figure.unit === 'days',
              })
            : undefined,
      },
    ];
  });
}

function printed(figure: Figure | undefined): string | undefined {
  if (!figure?.value) return undefined;
  const text = printFixed(figure.value, figure.places);
  // Nobody says 4.0 days.
  return figure.unit === 'days' ? plainDays(text) : text;
}

function plainDays(text: string): string {
  return text.replace(/\.0$/, '');
}

function differs(
  now: string,
  before: string,
  {
    show,
    places,
    isDays,
  }: { readonly show: SeasonPrinting['show']; readonly places: number; readonly isDays: boolean },
): string {
  const [one, other] = [decimal(now), decimal(before)];
  const apart = subtract(one, other);
  if (isZero(apart)) return 'the same';
  const isMore = compare(one, other) > 0;
  const text = printFixed(isMore ? apart : subtract(other, one), places);
  return `${show(isDays ? plainDays(text) : text)} ${isMore ? 'more' : 'less'}`;
}

function figuresOf(
  { counted, settlement, money, questions }: Season,
  printing: SeasonPrinting,
): readonly Figure[] {
  const { money: of, ton, weight } = printing;
  const sums = deliveredOf(counted);
  const { dryMatter, starch } = pricesPaid(counted);
  const { currency, decimals } = of;
  const plain = (name: string, unit: string, value: Exact | undefined, places: number): Figure => ({
    name,
    unit,
    value,
    places,
    isMoney: false,
  });
  const paid = (name: string, unit: string, value: Exact | undefined, places: number): Figure => ({
    ...plain(name, unit, value, places),
    isMoney: true,
  });
  const hasSettled = sums.loads > sums.unsettledLoads;
  return [
    plain('Loads', '', whole(sums.loads), 0),
    plain('Delivered as fed', TON_NAMES[ton], fromPounds(sums.wet, ton), TON_PLACES),
    plain(
      'Dry matter of the tested loads',
      TON_NAMES[ton],
      sums.loads > sums.untestedLoads ? fromPounds(sums.dry, ton) : undefined,
      TON_PLACES,
    ),
    paid(
      'Value of the settled loads',
      currency,
      hasSettled ? ratio(sums.value, powerOfTen(decimals)) : undefined,
      decimals,
    ),
    paid(
      'Price of dry matter',
      `${currency} a ${TON_NAME[ton]}`,
      dryMatter.perPound && priceFor(dryMatter.perPound, ton, of),
      decimals,
    ),
    paid(
      'Price of starch',
      `${currency} a ${weight}`,
      starch.perPound && priceFor(starch.perPound, weight, of),
      POUND_PLACES,
    ),
    ...seasonSpread(counted).measures.map(({ whole: { measure, mean } }) =>
      plain(`Mean ${MEASURE_NAMES[measure]}`, MEASURE_UNITS[measure], mean, TEST_PLACES),
    ),
    plain('Half of the loads had a price within', 'days', settlement?.median, 1),
    plain('Half of the loads were invoiced within', 'days', money?.invoice?.median, 1),
    plain(
      'Half of what is paid had come within',
      'days',
      money?.money.median === undefined ? undefined : whole(money.money.median),
      0,
    ),
    plain('Questions asked', '', questions && whole(questions.sums.asked), 0),
  ];
}
