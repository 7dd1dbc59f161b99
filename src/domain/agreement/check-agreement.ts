/**
 * Reads an agreement document and returns either the agreement or every problem in it, each with its path.
 * The parts are checked one by one, and the rules of a part run over whatever of it is well formed, so that one
 * fault hides no other.
 */
import type { z } from 'zod';
import { isTimeZone } from '../dates/instant.ts';
import { currencyDecimals } from '../money/currency.ts';
import { checkReference, checkWindows } from './check-reference.ts';
import { checkTerm } from './check-term.ts';
import { describeIssue } from './describe-issue.ts';
import {
  type Agreement,
  type AgreementHead,
  acceptanceShape,
  headShape,
  type PriceTerm,
  priceTermShape,
  type Reference,
  referenceShape,
  testsShape,
} from './document.ts';
import { checkFreeBlock, type FreeBlock, UNSAFE_KEY } from './free-block.ts';
import { inOrder } from './in-order.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asDecimal, asGroup, type RawGroup } from './raw.ts';

/** What the rest of a season can be checked against, even where the agreement has faults elsewhere. */
export type AgreementParts = Pick<Agreement, 'tests' | 'rounding' | 'references' | 'price'> & {
  readonly timeZone: string | undefined;
};

export interface CheckedAgreement {
  /** Undefined where there are problems. */
  readonly agreement: Agreement | undefined;
  readonly problems: readonly AgreementProblem[];
  readonly parts: AgreementParts;
}

export const NO_PARTS: AgreementParts = { timeZone: undefined, references: {}, price: [] };

/** Checks a parsed JSON document. Returns all problems, in the order in which the format lists its parts. */
export function checkAgreement(document: unknown): CheckedAgreement {
  const whole = asGroup(document);
  if (!whole) {
    const message = 'must be a group in braces, { … }, as an agreement file is';
    return { agreement: undefined, problems: [{ path: [], message }], parts: NO_PARTS };
  }
  const { references, price, acceptance, retest, conditions, ...head } = whole;
  const problems: AgreementProblem[] = [];

  const checkedHead = checkHead(head, problems);
  const raw = rawReferences(references);
  const sound = checkReferences(references, raw, problems);
  const terms = checkList({
    shape: priceTermShape,
    rules: (term, path) => checkTerm(term, { path, references: raw }),
    list: price,
    path: ['price'],
    problems,
  });
  if (Array.isArray(price) && price.length === 0) {
    problems.push({ path: ['price'], message: 'must have at least one price term; found none' });
  }
  const ranges = checkList({
    shape: acceptanceShape,
    rules: checkRange,
    list: acceptance ?? [],
    path: ['acceptance'],
    problems,
  });
  for (const [key, block] of Object.entries({ retest, conditions })) {
    if (block !== undefined) problems.push(...checkFreeBlock(block, [key]));
  }

  const parts = soundParts(head, { references: sound, price: soundTerms(terms, sound) });
  if (problems.length > 0 || !checkedHead) return { agreement: undefined, problems, parts };
  const agreement: Agreement = {
    ...checkedHead,
    references: sound,
    price: allOf(terms),
    ...(acceptance === undefined ? {} : { acceptance: allOf(ranges) }),
    ...(retest === undefined ? {} : { retest: retest as FreeBlock }),
    ...(conditions === undefined ? {} : { conditions: conditions as FreeBlock }),
  };
  return { agreement, problems, parts };
}

function allOf<Member>(members: readonly (Member | undefined)[]): Member[] {
  return members.flatMap((member) => (member === undefined ? [] : [member]));
}

/** Terms without a problem of their own, whose reference (if they have one) has none either. */
function soundTerms(
  terms: readonly (PriceTerm | undefined)[],
  references: Readonly<Record<string, Reference>>,
): PriceTerm[] {
  return allOf(terms).filter((term) => !('at' in term) || Object.hasOwn(references, term.at.reference));
}

function soundParts(head: RawGroup, parts: Pick<AgreementParts, 'references' | 'price'>): AgreementParts {
  const { tests, rounding, timeZone } = head;
  const soundTests = testsShape.safeParse(tests).data;
  return {
    ...parts,
    timeZone: typeof timeZone === 'string' && isTimeZone(timeZone) ? timeZone : undefined,
    ...(rounding === 'half-even' ? { rounding } : {}),
    ...(soundTests ? { tests: soundTests } : {}),
  };
}

function checkHead(head: RawGroup, problems: AgreementProblem[]): AgreementHead | undefined {
  const parsed = headShape.safeParse(head);
  if (!parsed.success) problems.push(...parsed.error.issues.flatMap((issue) => describeIssue(issue, head)));
  const { currency, timeZone, tests } = head;
  if (typeof currency === 'string' && currency.trim() !== '' && currencyDecimals(currency) === undefined) {
    problems.push({
      path: ['currency'],
      message: `must be an ISO 4217 code, like "USD" or "EUR"; found ${JSON.stringify(currency)}`,
    });
  }
  if (typeof timeZone === 'string' && timeZone.trim() !== '' && !isTimeZone(timeZone)) {
    problems.push({
      path: ['timeZone'],
      message: `must be an IANA time zone, like "America/Boise"; found ${JSON.stringify(timeZone)}`,
    });
  }
  // The schema library passes this one key over in a record.
  if (Object.hasOwn(asGroup(tests) ?? {}, UNSAFE_KEY)) {
    problems.push({ path: ['tests', UNSAFE_KEY], message: 'is not a known key; remove it' });
  }
  return parsed.data;
}

function rawReferences(references: unknown): ReadonlyMap<string, RawGroup | undefined> {
  return new Map(Object.entries(asGroup(references) ?? {}).map(([name, member]) => [name, asGroup(member)]));
}

/** The references that have no problem of their own. */
function checkReferences(
  references: unknown,
  raw: ReadonlyMap<string, RawGroup | undefined>,
  problems: AgreementProblem[],
): Readonly<Record<string, Reference>> {
  const group = asGroup(references);
  if (!group) {
    const state = references === undefined ? 'is missing' : 'is wrong';
    problems.push({
      path: ['references'],
      message: `${state}: a group in braces, with each reference by its name (or {})`,
    });
    return {};
  }
  const windows = checkWindows(raw);
  const members = Object.entries(group).map(([name, document]) => {
    const path = ['references', name];
    const own = checkMember({ shape: referenceShape, rules: checkReference, document, path });
    const apart = windows.filter((problem) => problem.path[1] === name);
    problems.push(...own.problems, ...apart);
    return own.problems.length + apart.length > 0 ? [] : [[name, own.parsed] as const];
  });
  return Object.fromEntries(members.flat()) as Record<string, Reference>;
}

function checkRange(range: RawGroup, path: JsonPath): AgreementProblem[] {
  if (range.below === undefined && range.above === undefined) {
    return [{ path, message: 'must have "below", "above" or both' }];
  }
  const below = asDecimal(range.below);
  const above = asDecimal(range.above);
  if (inOrder(below, above)) return [];
  return [
    { path: [...path, 'below'], message: `must not be more than "above"; found ${below} and ${above}` },
  ];
}

interface MemberToCheck<Shape> {
  readonly shape: Shape;
  /** What the shape cannot hold, over whatever of the member is well formed. */
  readonly rules: (member: RawGroup, path: JsonPath) => AgreementProblem[];
  readonly document: unknown;
  readonly path: JsonPath;
}

function checkMember<Shape extends z.ZodType>({ shape, rules, document, path }: MemberToCheck<Shape>) {
  const { data, error } = shape.safeParse(document);
  const shapeProblems = (error?.issues ?? [])
    .flatMap((issue) => describeIssue(issue, document))
    .map((problem) => ({ path: [...path, ...problem.path], message: problem.message }));
  const group = asGroup(document);
  return { parsed: data, problems: [...shapeProblems, ...(group ? rules(group, path) : [])] };
}

interface ListToCheck<Shape> extends Omit<MemberToCheck<Shape>, 'document'> {
  readonly list: unknown;
  readonly problems: AgreementProblem[];
}

/** Each member on its own: the sound ones, and undefined where a member has problems (which are added). */
function checkList<Shape extends z.ZodType>(checked: ListToCheck<Shape>): (z.infer<Shape> | undefined)[] {
  const { shape, rules, list, path, problems } = checked;
  if (!Array.isArray(list)) {
    problems.push({
      path,
      message: `${list === undefined ? 'is missing' : 'is wrong'}: a list in brackets, [ … ]`,
    });
    return [];
  }
  return list.map((document: unknown, index) => {
    const member = checkMember({ shape, rules, document, path: [...path, index] });
    problems.push(...member.problems);
    return member.problems.length > 0 ? undefined : member.parsed;
  });
}
