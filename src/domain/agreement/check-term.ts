/**
 * The rules of one price term that its shape alone cannot hold: its reference exists and carries what the term
 * needs, no part of the dry matter is paid for twice, steps and ranges are in order, a unit has its weight.
 */
import { compare, decimal } from '../numbers/exact.ts';
import { WEIGHT_UNITS } from '../quantities/units.ts';
import type { BushelMethod, Per, PriceTerm, Reference, Step, TermOf, WeightBasis } from './document.ts';
import { inOrder } from './in-order.ts';
import type { Part } from './measures.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';

interface TermPlace {
  readonly path: JsonPath;
  /** By name; undefined where the reference is there but has problems of its own. */
  readonly references: ReadonlyMap<string, Reference | undefined>;
}

/** All problems of one term, whose shape has been checked. */
export function checkTerm(term: PriceTerm, place: TermPlace): AgreementProblem[] {
  const { path } = place;
  switch (term.term) {
    case 'constituent':
      return [...checkUnitPrice(term.at, { ...place, parts: [term.of] }), ...checkConstituent(term, path)];
    case 'remainder':
      return [...checkUnitPrice(term.at, { ...place, parts: term.after }), ...checkAfter(term.after, path)];
    case 'equivalent-bushels':
      return [...checkReferenceName(term.at.reference, place), ...checkMethod(term.method, path)];
    case 'flat':
      return checkPer(term, path);
    case 'schedule':
      return checkSchedule(term, path);
    case 'limit':
      return [...checkPer(term, path), ...checkLimit(term, path)];
  }
}

function checkReferenceName(name: string, { path, references }: TermPlace): AgreementProblem[] {
  if (references.has(name)) return [];
  const names = [...references.keys()].map((known) => JSON.stringify(known)).join(', ');
  const expected = names === '' ? 'there are none under "references"' : `must be one of ${names}`;
  return [{ path: [...path, 'at', 'reference'], message: `${expected}; found ${JSON.stringify(name)}` }];
}

function checkUnitPrice(
  at: TermOf<'constituent'>['at'],
  place: TermPlace & { readonly parts: readonly Part[] },
): AgreementProblem[] {
  const problems = checkReferenceName(at.reference, place);
  const reference = place.references.get(at.reference);
  const needsStarch = at.per === 'starch' || place.parts.includes('grain-equivalent');
  if (reference && needsStarch && reference.starchPercentOfDryMatter === undefined) {
    problems.push({
      path: ['references', at.reference, 'starchPercentOfDryMatter'],
      message: `is missing: ${at.per === 'starch' ? 'a price per pound of starch' : 'the grain-equivalent'} in price term ${Number(place.path[1]) + 1} needs it`,
    });
  }
  return problems;
}

function checkConstituent(term: TermOf<'constituent'>, path: JsonPath): AgreementProblem[] {
  if (term.of !== 'grain-equivalent' || term.at.per !== 'starch') return [];
  return [
    {
      path: [...path, 'at', 'per'],
      message:
        'must be "dry-matter" for the grain-equivalent, which is a weight of whole grain; found "starch"',
    },
  ];
}

/** Pairs that name the same matter: a part may be taken off the remainder once. */
const OVERLAPS: readonly (readonly [Part, Part])[] = [
  ['starch', 'grain-equivalent'],
  ['ndf', 'adf'],
];

function checkAfter(after: readonly Part[], path: JsonPath): AgreementProblem[] {
  const place = [...path, 'after'];
  const problems = after.flatMap((part, index) =>
    after.indexOf(part) === index
      ? []
      : [{ path: [...place, index], message: `names ${JSON.stringify(part)} a second time; remove one` }],
  );
  for (const [one, other] of OVERLAPS) {
    if (after.includes(one) && after.includes(other)) {
      problems.push({
        path: place,
        message: `takes ${one} off twice, alone and within ${other}; name one of them`,
      });
    }
  }
  if (after.includes('dry-matter') && after.length > 1) {
    problems.push({
      path: place,
      message: 'names "dry-matter", which is the whole, beside parts of it; remove it',
    });
  }
  return problems;
}

function checkMethod(method: BushelMethod, path: JsonPath): AgreementProblem[] {
  if (method.kind !== 'table') return [];
  return method.rows.flatMap((row, index) => {
    const before = method.rows[index - 1];
    if (!before || compare(decimal(before.moisture), decimal(row.moisture)) < 0) return [];
    return [
      {
        path: [...path, 'method', 'rows', index, 'moisture'],
        message: `must be above the row before it (rows in rising moisture); found ${row.moisture} after ${before.moisture}`,
      },
    ];
  });
}

function checkPer(
  { per, weight }: { readonly per: Per; readonly weight?: WeightBasis | undefined },
  path: JsonPath,
): AgreementProblem[] {
  const byWeight = (WEIGHT_UNITS as readonly string[]).includes(per);
  if (byWeight && weight === undefined) {
    return [
      { path: [...path, 'weight'], message: `is missing: "as-fed" or "dry-matter", since "per" is "${per}"` },
    ];
  }
  if (!byWeight && weight !== undefined) {
    return [{ path: [...path, 'weight'], message: `has no meaning per ${per}; remove it` }];
  }
  return [];
}

function checkSchedule(term: TermOf<'schedule'>, path: JsonPath): AgreementProblem[] {
  const problems: AgreementProblem[] = [];
  if (!inOrder(term.neutral.from, term.neutral.to)) {
    problems.push({
      path: [...path, 'neutral', 'from'],
      message: `must not be more than "to"; found ${term.neutral.from} and ${term.neutral.to}`,
    });
  }
  if (!term.above && !term.below) {
    problems.push({ path, message: 'must have steps "above", "below" or both' });
  }
  problems.push(...checkSteps(term.above, [...path, 'above']), ...checkSteps(term.below, [...path, 'below']));
  if (term.unit === 'percent') {
    for (const key of ['per', 'weight'] as const) {
      if (term[key] !== undefined) {
        problems.push({
          path: [...path, key],
          message: 'has no meaning where "unit" is "percent"; remove it',
        });
      }
    }
  } else if (term.per === undefined) {
    problems.push({
      path: [...path, 'per'],
      message: 'is missing: what the money is per, like "short-ton" or "load"',
    });
  } else {
    problems.push(...checkPer({ per: term.per, weight: term.weight }, path));
  }
  return problems;
}

function checkSteps(steps: readonly Step[] | undefined, path: JsonPath): AgreementProblem[] {
  return (steps ?? [])
    .slice(0, -1)
    .flatMap((step, index) =>
      step.points === undefined
        ? [{ path: [...path, index, 'points'], message: 'is missing: only the last step may be open' }]
        : [],
    );
}

function checkLimit({ floor, ceiling }: TermOf<'limit'>, path: JsonPath): AgreementProblem[] {
  if (floor === undefined && ceiling === undefined) {
    return [{ path, message: 'must have a "floor", a "ceiling" or both' }];
  }
  if (inOrder(floor, ceiling)) return [];
  return [
    { path: [...path, 'floor'], message: `must not be above the ceiling; found ${floor} above ${ceiling}` },
  ];
}
