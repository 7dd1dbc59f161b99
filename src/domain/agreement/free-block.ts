/**
 * Blocks of an agreement that do not price (`retest`, `conditions`): any keys, as long as what they hold is text, true
 * or false, or lists and groups of these.
 */
import { CONTROL_CHARACTER } from '../text/control-character.ts';
import { showFound } from './describe-issue.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asGroup } from './raw.ts';

export type FreeValue = string | boolean | FreeBlock | readonly FreeValue[];
export type FreeBlock = { readonly [key: string]: FreeValue };

/** Groups and lists within one another that a document may hold; past any agreement, short of a full stack. */
export const DEEPEST_NESTING = 32;

/** All problems of a block, each at the value that is wrong. */
export function checkFreeBlock(block: unknown, path: JsonPath): AgreementProblem[] {
  const group = asGroup(block);
  return group ? checkGroup(group, path) : [{ path, message: `must be ${GROUP}; found ${showFound(block)}` }];
}

const GROUP = 'a group in braces, { … }';
const FREE_VALUE =
  'text in quotes, true or false, or a list or group of these (numbers are written in quotes)';

function checkValue(value: unknown, path: JsonPath): AgreementProblem[] {
  if (typeof value === 'boolean') return [];
  if (typeof value === 'string') {
    return value.trim() === '' || CONTROL_CHARACTER.test(value)
      ? [
          {
            path,
            message: `must be text in quotes, not empty and without control characters; found ${showFound(value)}`,
          },
        ]
      : [];
  }
  if (path.length > DEEPEST_NESTING) {
    return [{ path, message: `lies more than ${DEEPEST_NESTING} groups deep; set it out flatter` }];
  }
  if (Array.isArray(value)) return value.flatMap((item, index) => checkValue(item, [...path, index]));
  const group = asGroup(value);
  return group
    ? checkGroup(group, path)
    : [{ path, message: `must be ${FREE_VALUE}; found ${showFound(value)}` }];
}

function checkGroup(group: Readonly<Record<string, unknown>>, path: JsonPath): AgreementProblem[] {
  return Object.entries(group).flatMap(([key, value]) => {
    const place = [...path, key];
    return key === UNSAFE_KEY || key.trim() === '' || CONTROL_CHARACTER.test(key)
      ? [{ path: place, message: 'cannot be a key; give it another name' }]
      : checkValue(value, place);
  });
}

/** A key that JavaScript itself gives a meaning, so that some readers of the file would not see it. */
export const UNSAFE_KEY = '__proto__';
