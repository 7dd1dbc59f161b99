/**
 * Quotes to look at a formula with, where nobody has given any: inside what the agreement itself allows, else about
 * what corn has cost. They price nothing; what is said with them says so.
 */
import type { Agreement, Reference } from '../agreement/document.ts';
import {
  add,
  decimal,
  divide,
  type Exact,
  larger,
  multiply,
  ratio,
  subtract,
  whole,
  ZERO,
} from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { dryPoundsPerUnit } from '../prices/reference-price.ts';

/** Dollars a pound of dry grain: 0.09 is 4.26 for a 56-lb bushel at 15.5 % moisture (common practice, no source). */
const USUAL_PER_DRY_POUND = ratio(9n, 100n);
const TENTH = ratio(1n, 10n);

/**
 * Units of money that are roughly a dollar, where one is far from it, so that an assumed quote has the right number
 * of digits. From memory and out of date: never shown as a rate, and never used once somebody gives a quote.
 */
const ABOUT_A_DOLLAR: Readonly<Record<string, bigint>> = {
  ARS: 1000n,
  BRL: 5n,
  CLP: 900n,
  CNY: 7n,
  COP: 4000n,
  CRC: 500n,
  CZK: 23n,
  DKK: 7n,
  EGP: 50n,
  GTQ: 8n,
  HUF: 350n,
  IDR: 16000n,
  INR: 85n,
  ISK: 130n,
  JPY: 150n,
  KES: 130n,
  KRW: 1400n,
  KZT: 500n,
  MDL: 18n,
  MXN: 18n,
  NGN: 1500n,
  NOK: 10n,
  PEN: 4n,
  PHP: 57n,
  PKR: 280n,
  PLN: 4n,
  PYG: 7500n,
  RON: 5n,
  RSD: 105n,
  RUB: 90n,
  SEK: 10n,
  THB: 34n,
  TRY: 40n,
  TWD: 32n,
  TZS: 2600n,
  UAH: 41n,
  UGX: 3700n,
  UYU: 40n,
  VND: 25000n,
  ZAR: 18n,
};

/** A quote for each reference that follows a series: the given one, or one between its floor and its ceiling. */
export function assumedQuotes(
  { references, currency }: Pick<Agreement, 'references' | 'currency'>,
  given: ReadonlyMap<string, string> = new Map(),
): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(references).flatMap(([name, reference]): [string, string][] =>
      reference.rule.kind === 'fixed'
        ? []
        : [
            [
              name,
              given.get(name) ??
                printDecimal(usualQuote(reference, whole(ABOUT_A_DOLLAR[currency] ?? 1n)), 2),
            ],
          ],
    ),
  );
}

function usualQuote(reference: Reference, dollar: Exact): Exact {
  const basis = reference.basis === undefined ? ZERO : decimal(reference.basis);
  return larger(ZERO, subtract(usualPrice(reference, dollar), basis));
}

/** Half-way between floor and ceiling, or a tenth inside the only one of them. */
function usualPrice(reference: Reference, dollar: Exact): Exact {
  const floor = reference.floor === undefined ? undefined : decimal(reference.floor);
  const ceiling = reference.ceiling === undefined ? undefined : decimal(reference.ceiling);
  if (floor && ceiling) return divide(add(floor, ceiling), { n: 2n, d: 1n });
  if (floor) return add(floor, multiply(larger(floor, ZERO), TENTH));
  if (ceiling) return subtract(ceiling, multiply(larger(ceiling, ZERO), TENTH));
  return multiply(multiply(USUAL_PER_DRY_POUND, dollar), dryPoundsPerUnit(reference));
}
