/**
 * A reference price in words: what is quoted, which quote counts, and what is done to it.
 */

import type { Reference, ReferenceRule } from '../agreement/document.ts';
import { withMinus } from '../numbers/printing.ts';
import { MEAN_PLACES } from '../prices/find-quote.ts';
import { addedOrTaken, unsigned } from './figures-in-words.ts';

/** The sentences of one reference. */
export function referenceInWords(name: string, reference: Reference, currency: string): string[] {
  const { unit, poundsPerUnit, dryMatterPercent, starchPercentOfDryMatter, basis, floor, ceiling } =
    reference;
  const starch =
    starchPercentOfDryMatter === undefined ? '' : ` and its dry matter ${starchPercentOfDryMatter} % starch`;
  const whereFrom = reference.series === undefined ? '' : `, from the series ${reference.series}`;
  return [
    `The ${name} price is in ${currency} per ${unit}${whereFrom}. One ${unit} is ${poundsPerUnit} lb of grain or forage that holds ${dryMatterPercent} % dry matter${starch}.`,
    ...ruleInWords(reference.rule),
    ...(basis === undefined ? [] : [`${unsigned(basis)} ${currency} ${addedOrTaken(basis)} (the basis).`]),
    ...(floor === undefined
      ? []
      : [`The result is never taken as less than ${withMinus(floor)} ${currency}.`]),
    ...(ceiling === undefined
      ? []
      : [`The result is never taken as more than ${withMinus(ceiling)} ${currency}.`]),
  ];
}

function ruleInWords(rule: ReferenceRule): string[] {
  switch (rule.kind) {
    case 'fixed':
      return [`It is fixed at ${rule.price} for the whole agreement.`];
    case 'delivery-day':
      return [
        `What counts is the quote of the day of delivery or, where there is none, the latest earlier one${atMost(rule.maxAgeDays)}.`,
        'A load waits until the series has a quote of its day or a later one.',
      ];
    case 'average':
      return [
        `What counts is the mean of the last ${rule.quotes} quotes up to and including the day of delivery, rounded to ${MEAN_PLACES} decimals${
          rule.maxAgeDays === undefined ? '' : `, the newest of them at most ${rule.maxAgeDays} days old`
        }.`,
        'A load waits until the series has a quote of its day or a later one, and while there are fewer quotes than that.',
      ];
    case 'month-average':
      return [
        `What counts is the mean of all quotes in the calendar month of delivery, rounded to ${MEAN_PLACES} decimals.`,
        'A load waits until the series has a quote of a later month.',
      ];
    case 'seller-elects':
      return [
        `The seller names a pricing date from ${rule.from} to ${rule.to}. What counts is the quote of that date or, where there is none, the latest earlier one${atMost(rule.maxAgeDays)}.`,
        rule.default === 'window-end'
          ? `A load for which the seller names no date is priced as of the end of the window, ${rule.to}, once the series has a quote of that day or a later one.`
          : 'A load for which the seller names no date waits.',
      ];
  }
}

function atMost(days: string | undefined): string {
  return days === undefined ? '' : `, at most ${days} days old`;
}
