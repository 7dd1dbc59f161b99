/**
 * Reference prices that say nothing about a quote that is missing: an old one would count for weeks, or a load would
 * wait for an election that never comes.
 */
import type { Agreement, Reference } from '../../agreement/document.ts';
import { referenceOf } from '../../settlement/prepare-term.ts';
import type { Advice } from './advice.ts';

/** Warnings for the references that some price line follows. */
export function adviseOnQuotes(agreement: Agreement): Advice[] {
  const used = new Set(agreement.price.map(referenceOf));
  return Object.entries(agreement.references)
    .filter(([name]) => used.has(name))
    .flatMap(([name, reference]) =>
      gapsOf(agreement, { name, reference }).map(
        (message): Advice => ({ kind: 'no-missing-quote-rule', message }),
      ),
    );
}

function gapsOf(
  { seller }: Agreement,
  { name, reference: { rule, series } }: { readonly name: string; readonly reference: Reference },
): string[] {
  const quote = `The ${name} price follows ${series ?? 'a series'}`;
  switch (rule.kind) {
    case 'fixed':
      return [];
    case 'month-average':
      // Only quotes of the month itself count, so none is ever old.
      return [];
    case 'delivery-day':
      return rule.maxAgeDays === undefined ? [`${quote}. ${OLD_COUNTS} ${AGREE_AN_AGE}`] : [];
    case 'average':
      return rule.maxAgeDays === undefined
        ? [
            `${quote}, as a mean of ${rule.quotes}. If no quote is published for weeks, the mean of old ones prices the load, however old they are. ${AGREE_AN_AGE}`,
          ]
        : [];
    case 'seller-elects':
      return [
        ...(rule.default === undefined
          ? [
              `${quote} on a day that ${seller} names from ${rule.from} to ${rule.to}. If ${seller} names none, the load is never priced and nobody is paid. Agree that without a named day the price as of ${rule.to} counts.`,
            ]
          : []),
        ...(rule.maxAgeDays === undefined
          ? [`${quote} on a day that ${seller} names. ${OLD_COUNTS} ${AGREE_AN_AGE}`]
          : []),
      ];
  }
}

const OLD_COUNTS =
  'If there is no quote on that day, the last one before it counts, even one that is weeks old.';
const AGREE_AN_AGE =
  'Agree how many days old a quote may be, 7 for instance: then a load waits for both sides to see it rather than take a stale price.';
