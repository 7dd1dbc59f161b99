/**
 * Reads an agreement document and returns either the agreement or every problem in it, each with its path.
 * The parts are checked one by one, so that a fault in one reference or term hides none in another.
 */
import type { z } from 'zod';
import { isTimeZone } from '../dates/instant.ts';
import { currencyDecimals } from '../money/currency.ts';
import { checkTerm } from './check-term.ts';
import { describeIssue } from './describe-issue.ts';
import {
  type AcceptanceRange,
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
import { inOrder } from './in-order.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';

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
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    const message = 'must be a group in braces, { … }, as an agreement file is';
    return { agreement: undefined, problems: [{ path: [], message }], parts: NO_PARTS };
  }
  const { references, price, acceptance, ...head } = document as Record<string, unknown>;
  const problems: AgreementProblem[] = [];

  const checkedHead = checkHead(head, problems);
  const checkedReferences = checkReferences(references, problems);
  const terms = checkList({ shape: priceTermShape, list: price, path: ['price'], problems });
  if (Array.isArray(price) && price.length === 0) {
    problems.push({ path: ['price'], message: 'must have at least one price term; found none' });
  }
  terms?.forEach((term, index) => {
    if (term) problems.push(...checkTerm(term, { path: ['price', index], references: checkedReferences }));
  });
  const ranges =
    acceptance === undefined
      ? undefined
      : checkList({ shape: acceptanceShape, list: acceptance, path: ['acceptance'], problems });
  ranges?.forEach((range, index) => {
    if (range) problems.push(...checkRange(range, ['acceptance', index]));
  });

  const sound = soundReferences(checkedReferences);
  const parts = soundParts(head, { references: sound, price: soundTerms(terms ?? [], sound) });
  if (problems.length > 0 || !checkedHead || !terms) return { agreement: undefined, problems, parts };
  const agreement: Agreement = {
    ...checkedHead,
    references: sound,
    price: terms as PriceTerm[],
    ...(ranges ? { acceptance: ranges as AcceptanceRange[] } : {}),
  };
  return { agreement, problems, parts };
}

function soundReferences(checked: ReadonlyMap<string, Reference | undefined>): Record<string, Reference> {
  return Object.fromEntries(
    [...checked].flatMap(([name, reference]) => (reference ? [[name, reference]] : [])),
  );
}

/** Terms without a problem of their own, whose reference (if they have one) has none either. */
function soundTerms(
  terms: readonly (PriceTerm | undefined)[],
  references: Readonly<Record<string, Reference>>,
): PriceTerm[] {
  const byName = new Map<string, Reference | undefined>(Object.entries(references));
  return terms.filter(
    (term) => term !== undefined && checkTerm(term, { path: [], references: byName }).length === 0,
  ) as PriceTerm[];
}

function soundParts(head: object, parts: Pick<AgreementParts, 'references' | 'price'>): AgreementParts {
  const { tests, rounding, timeZone } = head as Record<string, unknown>;
  const soundTests = testsShape.safeParse(tests).data;
  return {
    ...parts,
    timeZone: typeof timeZone === 'string' && isTimeZone(timeZone) ? timeZone : undefined,
    ...(rounding === 'half-even' ? { rounding } : {}),
    ...(soundTests ? { tests: soundTests } : {}),
  };
}

function checkHead(head: unknown, problems: AgreementProblem[]): AgreementHead | undefined {
  const parsed = headShape.safeParse(head);
  if (!parsed.success) problems.push(...parsed.error.issues.flatMap((issue) => describeIssue(issue, head)));
  const { currency, timeZone } = head as Record<string, unknown>;
  if (typeof currency === 'string' && currency !== '' && currencyDecimals(currency) === undefined) {
    problems.push({
      path: ['currency'],
      message: `must be an ISO 4217 code, like "USD" or "EUR"; found ${JSON.stringify(currency)}`,
    });
  }
  if (typeof timeZone === 'string' && timeZone !== '' && !isTimeZone(timeZone)) {
    problems.push({
      path: ['timeZone'],
      message: `must be an IANA time zone, like "America/Boise"; found ${JSON.stringify(timeZone)}`,
    });
  }
  return parsed.data;
}

/** The references by name; one that has a problem of its own is there, undefined, so that terms can find its name. */
function checkReferences(
  references: unknown,
  problems: AgreementProblem[],
): ReadonlyMap<string, Reference | undefined> {
  const byName = new Map<string, Reference | undefined>();
  if (typeof references !== 'object' || references === null || Array.isArray(references)) {
    const state = references === undefined ? 'is missing' : 'is wrong';
    problems.push({
      path: ['references'],
      message: `${state}: a group in braces, with each reference by its name (or {})`,
    });
    return byName;
  }
  for (const [name, document] of Object.entries(references)) {
    const parsed = referenceShape.safeParse(document);
    byName.set(name, parsed.data);
    const path = ['references', name];
    if (parsed.success) problems.push(...checkReference(parsed.data, path));
    else problems.push(...nested(parsed.error, { path, document }));
  }
  return byName;
}

function checkReference(reference: Reference, path: JsonPath): AgreementProblem[] {
  const problems: AgreementProblem[] = [];
  const { rule, series, floor, ceiling } = reference;
  if (rule.kind !== 'fixed' && series === undefined) {
    problems.push({
      path: [...path, 'series'],
      message: `is missing: the rule "${rule.kind}" needs a price series`,
    });
  }
  if (!inOrder(floor, ceiling)) {
    problems.push({
      path: [...path, 'floor'],
      message: `must not be above the ceiling; found ${floor} above ${ceiling}`,
    });
  }
  if (rule.kind === 'seller-elects' && rule.from > rule.to) {
    problems.push({
      path: [...path, 'rule', 'from'],
      message: `must not be after "to"; found ${rule.from} after ${rule.to}`,
    });
  }
  return problems;
}

function checkRange({ below, above }: AcceptanceRange, path: JsonPath): AgreementProblem[] {
  if (below === undefined && above === undefined) {
    return [{ path, message: 'must have "below", "above" or both' }];
  }
  if (inOrder(below, above)) return [];
  return [
    { path: [...path, 'below'], message: `must not be more than "above"; found ${below} and ${above}` },
  ];
}

interface ListToCheck<Shape> {
  readonly shape: Shape;
  readonly list: unknown;
  readonly path: JsonPath;
  readonly problems: AgreementProblem[];
}

/** Each member on its own: the parsed ones, and undefined where a member has problems (which are added). */
function checkList<Shape extends z.ZodType>(
  checked: ListToCheck<Shape>,
): (z.infer<Shape> | undefined)[] | undefined {
  const { shape, list, path, problems } = checked;
  if (!Array.isArray(list)) {
    problems.push({
      path,
      message: `${list === undefined ? 'is missing' : 'is wrong'}: a list in brackets, [ … ]`,
    });
    return undefined;
  }
  return list.map((document: unknown, index) => {
    const parsed = shape.safeParse(document);
    if (!parsed.success) problems.push(...nested(parsed.error, { path: [...path, index], document }));
    return parsed.data;
  });
}

function nested(error: z.ZodError, from: { path: JsonPath; document: unknown }): AgreementProblem[] {
  return error.issues
    .flatMap((issue) => describeIssue(issue, from.document))
    .map(({ path, message }) => ({ path: [...from.path, ...path], message }));
}
