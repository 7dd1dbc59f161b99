/**
 * A block of an agreement held against its shape and its rules. The rules run over whatever of the block is well
 * formed, so that one fault hides no other; every problem has its path from the top of the document.
 */
import type { z } from 'zod';
import { describeIssue, showFound } from './describe-issue.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asGroup, type RawGroup } from './raw.ts';

export interface BlockToCheck {
  readonly shape: z.ZodType;
  /** What the shape cannot hold. */
  readonly rules: (block: RawGroup, path: JsonPath) => readonly AgreementProblem[];
  readonly block: unknown;
  readonly path: JsonPath;
}

/** All problems of the block: those of its shape, then those of its rules. */
export function checkBlock({ shape, rules, block, path }: BlockToCheck): AgreementProblem[] {
  const group = asGroup(block);
  if (!group) return [{ path, message: `must be a group in braces, { … }; found ${showFound(block)}` }];
  const ofShape = (shape.safeParse(block).error?.issues ?? [])
    .flatMap((issue) => describeIssue(issue, block))
    .map((problem) => ({ path: [...path, ...problem.path], message: problem.message }));
  return [...ofShape, ...rules(group, path)];
}
