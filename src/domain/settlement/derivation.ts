/**
 * The words and figures of a derivation: a chain that a pocket calculator repeats from left to right, from the
 * figures on the ticket, the result and the quote. Nothing in a chain is rounded but its end.
 */
import type { Reference } from '../agreement/document.ts';
import { isConstituent, type Part, type Tested } from '../agreement/measures.ts';
import { compare, decimal, type Exact, HUNDRED, ONE } from '../numbers/exact.ts';
import { printWithEllipsis, printWritten, withMinus } from '../numbers/printing.ts';
import { reportedFigure, usedFigure } from '../samples/lab-result.ts';
import { type Money, printAmount } from './line.ts';
import { type MeasuredLoad, needed } from './measured-load.ts';
import { shareOfPart } from './parts.ts';

const SCALE_TO_POUNDS = {
  lb: '',
  kg: ' ÷ 0.45359237',
  'short-ton': ' × 2000',
  tonne: ' × 1000 ÷ 0.45359237',
} as const;

/** Decimals that a figure in a chain shows before it is cut with "…". */
const TOLD_PLACES = 10;

/** A figure with the decimals it has ("…" where they go on), and a true minus sign. */
export function tell(value: Exact): string {
  return withMinus(printWithEllipsis(value, TOLD_PLACES));
}

/** "47120 lb", or "21373 kg ÷ 0.45359237" where the scale weighs in kilograms. */
export function tellPounds({ load }: MeasuredLoad): string {
  return `${tell(load.net)} ${load.unit}${SCALE_TO_POUNDS[load.unit]}`;
}

/** "47120 lb × 59.2 %" */
export function tellDryPounds(measured: MeasuredLoad): string {
  return `${tellPounds(measured)} × ${tell(needed(measured.figures['dry-matter'], 'dry matter'))} %`;
}

/** A part of the dry matter: "54 %", "31.97 % ÷ 59.2 %" from an as-fed figure, "54 % ÷ 71 %" as grain. */
export function tellPart(measured: MeasuredLoad, part: Part, reference: Reference): string {
  if (part === 'dry-matter') return '100 %';
  if (part !== 'grain-equivalent') return tellConstituent(measured, part);
  if (compare(shareOfPart(measured.figures, part, reference), ONE) === 0) return '100 %';
  return `${tellConstituent(measured, 'starch')} ÷ ${printWritten(reference.starchPercentOfDryMatter ?? '')} %`;
}

/** An as-fed figure that is used unrounded shows its division by the dry matter; any other stands as it is used. */
function tellConstituent(measured: MeasuredLoad, measure: Tested): string {
  const used = needed(measured.figures[measure], measure);
  const { result } = measured;
  if (result?.basis === 'as-fed' && isConstituent(measure)) {
    const unrounded = needed(usedFigure(result, measure, NO_ROUNDING), measure);
    if (compare(unrounded, used) === 0) {
      return `${tell(needed(reportedFigure(result, measure), measure))} % ÷ ${tell(result.dryMatter)} %`;
    }
  }
  return `${tell(used)} %`;
}

const NO_ROUNDING = { rounding: 'half-up', decimals: new Map() } as const;

/** " × 60 %" for a share, nothing for the whole. */
export function tellShare(sharePercent: string | undefined): string {
  if (sharePercent === undefined || compare(decimal(sharePercent), HUNDRED) === 0) return '';
  return ` × ${printWritten(sharePercent)} %`;
}

/** What made the price of the quote: "basis −0.15", and "held at the floor 3.60" where it is. */
export function tellAdjustments({ basis, floor, ceiling }: Reference, price: Exact): string[] {
  const isAt = (limit: string | undefined): limit is string =>
    limit !== undefined && compare(price, decimal(limit)) === 0;
  return [
    ...(basis === undefined ? [] : [`basis ${printWritten(basis)}`]),
    ...(isAt(floor) ? [`held at the floor ${printWritten(floor)}`] : []),
    ...(isAt(ceiling) ? [`held at the ceiling ${printWritten(ceiling)}`] : []),
  ];
}

/** The end of a chain: its exact value and the amount that it rounds to. */
export function tellEnd(product: Exact, amount: bigint, money: Money): string {
  return `= ${tell(product)} → ${withMinus(printAmount(amount, money))} ${money.currency}`;
}
