/**
 * A member of a document whose shape is not certain yet. A rule that reads it this way sees every figure that is well
 * formed, whatever is wrong beside it, so that one fault hides no other.
 */
import { parseDecimal } from '../numbers/exact.ts';

/** Keys that rules look at, by name so that a misspelt one does not compile. */
type RuleKey =
  | 'above'
  | 'after'
  | 'at'
  | 'below'
  | 'ceiling'
  | 'currency'
  | 'floor'
  | 'from'
  | 'kind'
  | 'method'
  | 'moisture'
  | 'neutral'
  | 'of'
  | 'per'
  | 'points'
  | 'reference'
  | 'rounding'
  | 'rows'
  | 'rule'
  | 'series'
  | 'starchPercentOfDryMatter'
  | 'term'
  | 'tests'
  | 'timeZone'
  | 'to'
  | 'unit'
  | 'weight';

/** A group in braces, its members of any shape. */
export type RawGroup = { readonly [key: string]: unknown } & { readonly [Key in RuleKey]?: unknown };

/** The value as a group in braces, or undefined where it is none. */
export function asGroup(value: unknown): RawGroup | undefined {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as RawGroup)
    : undefined;
}

/** The value as a list in brackets; an empty one where it is none. */
export function asList(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

/** The value as text, or undefined where it is none. */
export function asText(value: unknown): string | undefined {
  return typeof value === 'string' ? value : undefined;
}

/** The value as one of `words`, or undefined where it is none of them. */
export function asWord<Word extends string>(value: unknown, words: readonly Word[]): Word | undefined {
  return words.find((word) => word === value);
}

/** The value where it is a decimal as an agreement writes one ("-0.15"), or undefined. */
export function asDecimal(value: unknown): string | undefined {
  return typeof value === 'string' && parseDecimal(value) !== undefined ? value : undefined;
}
