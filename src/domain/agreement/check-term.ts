/**
 * The rules of one price term that its shape alone cannot hold: its reference exists and carries what the term
 * needs, no part of the dry matter is paid for twice, steps and ranges are in order, a unit has its weight.
 * Each rule reads what is well formed of the term, so that a fault elsewhere in it does not hide this one.
 */
import { compare, decimal } from '../numbers/exact.ts';
import { DISTANCE_UNITS, WEIGHT_UNITS } from '../quantities/units.ts';
import { inOrder } from './in-order.ts';
import { PARTS, type Part } from './measures.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asDecimal, asGroup, asList, asText, asWord, type RawGroup } from './raw.ts';

export interface TermPlace {
  readonly path: JsonPath;
  /** By name, as they stand in the document; undefined where one is no group at all. */
  readonly references: ReadonlyMap<string, RawGroup | undefined>;
}

/** The rules of one term, over whatever of it is well formed. */
export function checkTerm(term: RawGroup, place: TermPlace): AgreementProblem[] {
  const { path } = place;
  switch (term.term) {
    case 'constituent':
      return [...checkUnitPrice(term, { ...place, parts: [term.of] }), ...checkConstituent(term, path)];
    case 'remainder':
      return [...checkUnitPrice(term, { ...place, parts: asList(term.after) }), ...checkAfter(term, path)];
    case 'equivalent-bushels':
      return [...checkReferenceName(term, place), ...checkMethod(term, path)];
    case 'flat':
      return checkPer(term, path);
    case 'schedule':
      return checkSchedule(term, path);
    case 'limit':
      return [...checkPer(term, path), ...checkLimit(term, path)];
    default:
      return [];
  }
}

function checkReferenceName({ at }: RawGroup, { path, references }: TermPlace): AgreementProblem[] {
  const name = asText(asGroup(at)?.reference);
  if (name === undefined || name.trim() === '' || references.has(name)) return [];
  const names = [...references.keys()].map((known) => JSON.stringify(known)).join(', ');
  const expected = names === '' ? 'there are none under "references"' : `must be one of ${names}`;
  return [{ path: [...path, 'at', 'reference'], message: `${expected}; found ${JSON.stringify(name)}` }];
}

function checkUnitPrice(
  term: RawGroup,
  place: TermPlace & { readonly parts: readonly unknown[] },
): AgreementProblem[] {
  const problems = checkReferenceName(term, place);
  const at = asGroup(term.at);
  const name = asText(at?.reference) ?? '';
  const reference = place.references.get(name);
  const needsStarch = at?.per === 'starch' || place.parts.includes('grain-equivalent');
  if (reference && needsStarch && reference.starchPercentOfDryMatter === undefined) {
    problems.push({
      path: ['references', name, 'starchPercentOfDryMatter'],
      message: `is missing: ${at?.per === 'starch' ? 'a price per pound of starch' : 'the grain-equivalent'} in price term ${Number(place.path[1]) + 1} needs it`,
    });
  }
  return problems;
}

function checkConstituent(term: RawGroup, path: JsonPath): AgreementProblem[] {
  if (term.of !== 'grain-equivalent' || asGroup(term.at)?.per !== 'starch') return [];
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

function checkAfter(term: RawGroup, path: JsonPath): AgreementProblem[] {
  const after = asList(term.after);
  const place = [...path, 'after'];
  const problems: AgreementProblem[] = after.flatMap((part, index) =>
    asWord(part, PARTS) === undefined || after.indexOf(part) === index
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

function checkMethod(term: RawGroup, path: JsonPath): AgreementProblem[] {
  const method = asGroup(term.method);
  if (method?.kind !== 'table') return [];
  const moistures = asList(method.rows).map((row) => asDecimal(asGroup(row)?.moisture));
  return moistures.flatMap((moisture, index) => {
    const before = moistures[index - 1];
    if (before === undefined || moisture === undefined || compare(decimal(before), decimal(moisture)) < 0) {
      return [];
    }
    return [
      {
        path: [...path, 'method', 'rows', index, 'moisture'],
        message: `must be above the row before it (rows in rising moisture); found ${moisture} after ${before}`,
      },
    ];
  });
}

function checkPer(term: RawGroup, path: JsonPath): AgreementProblem[] {
  const per = asText(term.per);
  if (asWord(per, WEIGHT_UNITS) !== undefined && term.weight === undefined) {
    return [
      { path: [...path, 'weight'], message: `is missing: "as-fed" or "dry-matter", since "per" is "${per}"` },
    ];
  }
  if (asWord(per, ['load', ...DISTANCE_UNITS]) !== undefined && term.weight !== undefined) {
    return [{ path: [...path, 'weight'], message: `has no meaning per ${per}; remove it` }];
  }
  return [];
}

function checkSchedule(term: RawGroup, path: JsonPath): AgreementProblem[] {
  const problems: AgreementProblem[] = [];
  const neutral = asGroup(term.neutral);
  const from = asDecimal(neutral?.from);
  const to = asDecimal(neutral?.to);
  if (!inOrder(from, to)) {
    problems.push({
      path: [...path, 'neutral', 'from'],
      message: `must not be more than "to"; found ${from} and ${to}`,
    });
  }
  if (term.above === undefined && term.below === undefined) {
    problems.push({ path, message: 'must have steps "above", "below" or both' });
  }
  for (const side of ['above', 'below']) problems.push(...checkSteps(term[side], [...path, side]));
  return [...problems, ...checkScheduleUnit(term, path)];
}

function checkScheduleUnit(term: RawGroup, path: JsonPath): AgreementProblem[] {
  if (term.unit === 'percent') {
    return ['per', 'weight']
      .filter((key) => term[key] !== undefined)
      .map((key) => ({
        path: [...path, key],
        message: 'has no meaning where "unit" is "percent"; remove it',
      }));
  }
  if (term.unit !== 'money') return [];
  if (term.per !== undefined) return checkPer(term, path);
  return [
    { path: [...path, 'per'], message: 'is missing: what the money is per, like "short-ton" or "load"' },
  ];
}

function checkSteps(steps: unknown, path: JsonPath): AgreementProblem[] {
  return asList(steps)
    .slice(0, -1)
    .flatMap((step, index) => {
      const group = asGroup(step);
      return group && group.points === undefined
        ? [{ path: [...path, index, 'points'], message: 'is missing: only the last step may be open' }]
        : [];
    });
}

function checkLimit(term: RawGroup, path: JsonPath): AgreementProblem[] {
  if (term.floor === undefined && term.ceiling === undefined) {
    return [{ path, message: 'must have a "floor", a "ceiling" or both' }];
  }
  const floor = asDecimal(term.floor);
  const ceiling = asDecimal(term.ceiling);
  if (inOrder(floor, ceiling)) return [];
  return [
    { path: [...path, 'floor'], message: `must not be above the ceiling; found ${floor} above ${ceiling}` },
  ];
}
