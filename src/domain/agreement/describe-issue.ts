/**
 * Turns what the schema library found into our own words: what was expected at a place, and what stands there.
 */
import type { z } from 'zod';
import type { AgreementProblem } from './problem.ts';

type Issue = z.core.$ZodIssue;

/** The problems of one schema issue; a key that is not known gets a problem of its own, at that key. */
export function describeIssue(issue: Issue, input: unknown): AgreementProblem[] {
  const path = issue.path.map((key) => (typeof key === 'symbol' ? String(key) : key));
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      path: [...path, key],
      message: 'is not a known key; remove it or check its spelling',
    }));
  }
  if (issue.code === 'invalid_key') {
    return [
      { path, message: `is not a known key: ${issue.issues.map((inner) => inner.message).join('; ')}` },
    ];
  }
  const { found, value } = at(input, path);
  if (!found) return [{ path, message: `is missing: ${expectation(issue)}` }];
  return [{ path, message: `must be ${expectation(issue)}; found ${showFound(value)}` }];
}

function expectation(issue: Issue): string {
  if (issue.code === 'invalid_value') return oneOf(issue.values.map((value) => JSON.stringify(value)));
  if (issue.code === 'invalid_union' && issue.discriminator !== undefined) {
    const options = 'options' in issue && Array.isArray(issue.options) ? issue.options : [];
    return options.length > 0
      ? oneOf(options.map((value) => JSON.stringify(value)))
      : `a known "${issue.discriminator}"`;
  }
  if (issue.code === 'invalid_type') return expectedType(issue.expected, issue.message);
  return issue.message;
}

function expectedType(expected: string, message: string): string {
  if (expected === 'object' || expected === 'record') return 'a group in braces, { … }';
  if (expected === 'array') return 'a list in brackets, [ … ]';
  return message;
}

function oneOf(values: readonly string[]): string {
  return values.length === 1 ? (values[0] ?? '') : `one of ${values.join(', ')}`;
}

function at(input: unknown, path: readonly (string | number)[]): { found: boolean; value: unknown } {
  let value = input;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key))
      return { found: false, value: undefined };
    value = (value as Record<string | number, unknown>)[key];
  }
  return { found: value !== undefined, value };
}

/** What stands at a place, short enough for a message. */
export function showFound(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'a group';
  const shown = JSON.stringify(value) ?? String(value);
  const kind = typeof value === 'number' ? 'the bare number ' : '';
  return kind + (shown.length > 60 ? `${shown.slice(0, 60)}…` : shown);
}
