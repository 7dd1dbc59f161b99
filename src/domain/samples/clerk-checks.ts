/**
 * What a good laboratory clerk would ask before a result is kept: sums and ranges by kind of feed, a decimal point in
 * the wrong place, percent as-fed entered as percent of dry matter or the other way round, and a dry matter that the
 * moisture reading on the ticket speaks against. Each is a sentence with its figures; nothing is refused for good.
 */
import {
  CONSTITUENTS,
  type Constituent,
  FEEDS,
  type Feed,
  isConstituent,
  MEASURE_NAMES,
  MEASURE_UNITS,
  TESTED,
  type Tested,
} from '../agreement/measures.ts';
import { compare, divide, type Exact, HUNDRED, multiply, subtract, whole } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { warnOfDryMatter, warnOfSum } from '../tables/sample-row.ts';
import { type LabResult, onDryMatter, reportedFigure } from './lab-result.ts';
import { plausibleRange } from './plausible-ranges.ts';

export interface ClerkSetting {
  /** Undefined where it is not known: a laboratory is told no term of the agreement. */
  readonly feed: Feed | undefined;
  /** The moisture readings on the tickets of the sample's loads, percent. */
  readonly readings: readonly { readonly ticket: string; readonly moisture: Exact }[];
}

/** Questions in words, none where nothing is odd. 5.92 % dry matter of whole-ear corn asks whether 59.2 was meant. */
export function clerkChecks(result: LabResult, { feed, readings }: ClerkSetting): string[] {
  const apart = readings.flatMap((reading) => offReading(result, reading)).slice(0, 1);
  if (feed === undefined) return [...told(warnOfDryMatter(result)), ...told(warnOfSum(result)), ...apart];
  const swapped = wrongBasis(result, feed);
  const odd = oddFigures(result, { feed, isSwapped: swapped !== undefined });
  const fewDryMatter = odd.dryMatter ? [] : told(warnOfDryMatter(result));
  return [...told(swapped), ...odd.sentences, ...fewDryMatter, ...told(warnOfSum(result)), ...apart];
}

function told(sentence: string | undefined): string[] {
  return sentence === undefined ? [] : [sentence];
}

/** A meter in the hand is rough: it is asked about past so many points. Common practice, no source. */
const POINTS_APART = whole(6);

function offReading(
  { sample, dryMatter }: LabResult,
  { ticket, moisture }: ClerkSetting['readings'][number],
) {
  const tested = subtract(HUNDRED, dryMatter);
  const apart = subtract(tested, moisture);
  if (compare(multiply(apart, apart), multiply(POINTS_APART, POINTS_APART)) <= 0) return [];
  return [
    `sample ${sample}: dry matter ${say(dryMatter)} % leaves ${say(tested)} % moisture; the reading on ticket ${ticket} is ${say(moisture)} %.`,
  ];
}

/**
 * Both readings of the constituents, where the one that was given is no such feed and the other one is: 32 % starch of
 * dry matter at 59.2 % dry matter may be 54.05 % that were reported as-fed.
 */
function wrongBasis(result: LabResult, feed: Feed): string | undefined {
  const other: LabResult = { ...result, basis: result.basis === 'as-fed' ? 'dry-matter' : 'as-fed' };
  const measures = CONSTITUENTS.filter((measure) => reportedFigure(result, measure) !== undefined);
  const isOut = (read: LabResult) => (measure: Constituent) =>
    sideOf(onDryMatter(read, measure), { feed, measure }) !== 0;
  // Ash and fat are too small to tell the two apart.
  const telling = measures.filter((measure) => measure === 'starch' || measure === 'ndf');
  if (!telling.some(isOut(result)) || measures.some(isOut(other))) return undefined;
  const list = (read: LabResult) =>
    telling
      .map((measure) => `${MEASURE_NAMES[measure]} ${say(onDryMatter(read, measure) ?? HUNDRED)} %`)
      .join(' and ');
  const [entered, meant] =
    result.basis === 'as-fed' ? ['as-fed', 'of dry matter'] : ['of dry matter', 'as-fed'];
  return `sample ${result.sample}: entered as percent ${entered}, it has ${list(result)} of dry matter, which no ${shortName(feed)} is likely to have. Read as percent ${meant}, it has ${list(other)} of dry matter, which is plausible. Is the basis right?`;
}

interface OddFigures {
  readonly sentences: readonly string[];
  /** Whether dry matter is among them. */
  readonly dryMatter: boolean;
}

function oddFigures(
  result: LabResult,
  { feed, isSwapped }: { readonly feed: Feed; readonly isSwapped: boolean },
): OddFigures {
  const odd = TESTED.filter((measure) => {
    if (isSwapped && isConstituent(measure)) return false;
    return sideOf(onDryMatter(result, measure), { feed, measure }) !== 0;
  });
  return {
    sentences: odd.map((measure) => tellOdd(result, { feed, measure })),
    dryMatter: odd.includes('dry-matter'),
  };
}

/** Where the point may have been meant; a spreadsheet writes 59.2 % as 0.592. */
function slips(figure: Exact): readonly { readonly how: string; readonly meant: Exact }[] {
  return [
    { how: 'Ten times that', meant: multiply(figure, whole(10)) },
    { how: 'A tenth of that', meant: divide(figure, whole(10)) },
    { how: 'A hundred times that', meant: multiply(figure, HUNDRED) },
  ];
}

interface Asked {
  readonly feed: Feed;
  readonly measure: Tested;
}

function tellOdd(result: LabResult, { feed, measure }: Asked): string {
  const figure = onDryMatter(result, measure) ?? HUNDRED;
  const unit = MEASURE_UNITS[measure] === '' ? '' : ` ${MEASURE_UNITS[measure]}`;
  const is = `sample ${result.sample}: ${MEASURE_NAMES[measure]} ${say(figure)}${unit}`;
  const slip = slips(figure).find(({ meant }) => sideOf(meant, { feed, measure }) === 0);
  if (slip) {
    return `${is} is unlikely in ${shortName(feed)}. ${slip.how}, ${say(slip.meant)}, is plausible: is the decimal point right?`;
  }
  const range = plausibleRange(feed, measure);
  const between = range ? `, which has ${printDecimal(range.low)} to ${printDecimal(range.high)}` : '';
  return `${is} is unlikely in ${shortName(feed)}${between}.`;
}

/** −1 below the range of such feed, 1 above it, 0 inside or where nothing is known. */
function sideOf(figure: Exact | undefined, { feed, measure }: Asked): -1 | 0 | 1 {
  const range = plausibleRange(feed, measure);
  if (!range || figure === undefined) return 0;
  if (compare(figure, range.low) < 0) return -1;
  return compare(figure, range.high) > 0 ? 1 : 0;
}

/** A feed with the parts of the ear that it holds, less its other names. */
function shortName(feed: Feed): string {
  return FEEDS[feed].replace('; also called snaplage', '');
}

/** At most two decimals: these figures are looked at, not used. */
function say(value: Exact): string {
  return printDecimal(value, 2);
}
