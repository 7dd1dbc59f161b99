/**
 * The retest block of an agreement: how long a figure may be questioned, which parts of a sample are kept, who pays,
 * and for each measure the method that decides. Nothing is decided here; what a method needs is checked to be there.
 * The agreement file itself takes any block (`free-block.ts`); this stricter check is for offers that are made here.
 */
import { z } from 'zod';
import { checkBlock } from './check-block.ts';
import type { Agreement } from './document.ts';
import { UNSAFE_KEY } from './free-block.ts';
import { inOrder } from './in-order.ts';
import { TESTED } from './measures.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asDecimal, asGroup, asList, asText, asWord, type RawGroup } from './raw.ts';
import { aboveZero, notNegative, text, wholeNumber } from './scalar-shapes.ts';

/** Sealed parts of a sample, by whom each is for. */
export const SAMPLE_PARTS = ['laboratory', 'seller', 'buyer', 'referee'] as const;
export type SamplePart = (typeof SAMPLE_PARTS)[number];

/** What can be questioned: a figure of a laboratory, or the net weight. */
export const QUESTIONED = [...TESTED, 'weight'] as const;
export type Questioned = (typeof QUESTIONED)[number];

/** Without the referee's figure: the first stands, or the mean of those that the method had come to. */
export const NO_REFEREE = ['first-stands', 'mean-of-others'] as const;
export type NoReferee = (typeof NO_REFEREE)[number];

export const decidingMethod = z.discriminatedUnion('method', [
  z.strictObject({ method: z.literal('referee-stands'), tolerance: notNegative }),
  z.strictObject({ method: z.literal('closest-two') }),
  z.strictObject({ method: z.literal('median') }),
  z.strictObject({
    method: z.literal('iso-5725'),
    /** r, within one laboratory. */
    repeatability: aboveZero,
    /** R, between two laboratories; without it one laboratory decides alone. */
    reproducibility: aboveZero.optional(),
    test: z.enum(['cheap', 'dear']),
  }),
  z.strictObject({
    method: z.literal('astm-d3244'),
    reproducibility: aboveZero,
    /** What counts where the third figure lies just between the two. */
    tie: z.enum(['median', 'mean', 'first-stands', 'referee-stands']),
  }),
  z.strictObject({ method: z.literal('second-scale'), toleranceDivisions: notNegative.optional() }),
]);

export const retestShape = z.strictObject({
  askWithinDays: wholeNumber(1, 999),
  keptDays: wholeNumber(1, 999).optional(),
  parts: z.array(z.enum(SAMPLE_PARTS)).min(1, { error: 'at least one part' }).optional(),
  referee: text.optional(),
  /** Days for each round of tests, from the day on which it is called for. */
  testWithinDays: wholeNumber(1, 99).optional(),
  /** What counts where the referee has reported nothing by then. */
  ifNoReferee: z.enum(NO_REFEREE).optional(),
  fee: z.enum(['asker-unless-moved', 'split', 'further-from-referee']),
  measures: z.partialRecord(z.enum(QUESTIONED), decidingMethod),
});

export type RetestRules = z.infer<typeof retestShape>;
export type DecidingMethod = z.infer<typeof decidingMethod>;

/**
 * All problems of a `retest` block, with paths that begin with `retest`. A method that sends a part somewhere needs
 * that part kept, and the referee named; only a second scale decides about a weight, and about nothing else.
 */
export function checkRetestRules(block: unknown): AgreementProblem[] {
  return checkBlock({ shape: retestShape, rules: retestBlockRules, block, path: ['retest'] });
}

/** The rules for retests where they have the known shape; undefined where they are absent or free. */
export function retestRulesOf({ retest }: Pick<Agreement, 'retest'>): RetestRules | undefined {
  if (retest === undefined || checkRetestRules(retest).length > 0) return undefined;
  return retestShape.safeParse(retest).data;
}

/**
 * The parts that a method tests: the laboratory tests its own again, each side has its own tested, or the referee
 * tests. ISO 5725-6 between two laboratories takes the referee as the second one.
 */
export function partsTested(method: RawGroup): readonly SamplePart[] {
  switch (method.method) {
    case 'referee-stands':
      return ['referee'];
    case 'closest-two':
    case 'median':
      return ['laboratory', 'referee'];
    case 'iso-5725':
      return method['reproducibility'] === undefined ? ['laboratory'] : ['laboratory', 'referee'];
    case 'astm-d3244':
      return ['seller', 'buyer', 'referee'];
    default:
      return [];
  }
}

function retestBlockRules(block: RawGroup, path: JsonPath): AgreementProblem[] {
  const measures = asGroup(block['measures']);
  const questioned = Object.entries(measures ?? {}).flatMap(([name, value]) => {
    const method = asGroup(value);
    return method && asWord(name, QUESTIONED) ? [{ name, method }] : [];
  });
  return [
    ...partsOnce(asList(block['parts']), [...path, 'parts']),
    ...questioned.flatMap((asked) => methodRules(asked, [...path, 'measures', asked.name])),
    ...measureKeys(measures, [...path, 'measures']),
    ...keptForTests(block, { questioned, path }),
  ];
}

function partsOnce(parts: readonly unknown[], path: JsonPath): AgreementProblem[] {
  return parts.flatMap((part, index) =>
    asWord(part, SAMPLE_PARTS) === undefined || parts.indexOf(part) === index
      ? []
      : [{ path: [...path, index], message: `names ${JSON.stringify(part)} a second time; remove one` }],
  );
}

function measureKeys(measures: RawGroup | undefined, path: JsonPath): AgreementProblem[] {
  if (!measures) return [];
  // The schema library passes this one key over in a record.
  if (Object.hasOwn(measures, UNSAFE_KEY)) {
    return [{ path: [...path, UNSAFE_KEY], message: 'is not a known key; remove it' }];
  }
  if (Object.keys(measures).length > 0) return [];
  return [{ path, message: 'must name at least one figure or the weight, with the method that decides' }];
}

interface QuestionedMeasure {
  readonly name: string;
  readonly method: RawGroup;
}

function methodRules({ name, method }: QuestionedMeasure, path: JsonPath): AgreementProblem[] {
  const kind = asText(method.method);
  if (name === 'weight' && kind !== undefined && kind !== 'second-scale') {
    const message = `must be "second-scale" for a weight; found ${JSON.stringify(kind)}`;
    return [{ path: [...path, 'method'], message }];
  }
  if (name !== 'weight' && kind === 'second-scale') {
    const message = 'decides about "weight" only; choose another method for a laboratory’s figure';
    return [{ path: [...path, 'method'], message }];
  }
  if (kind !== 'iso-5725') return [];
  const within = asDecimal(method['repeatability']);
  const between = asDecimal(method['reproducibility']);
  if (inOrder(within, between)) return [];
  // Below r, the critical difference between laboratories would be the root of a negative number.
  const message = `must not be less than "repeatability"; found ${between} and ${within}`;
  return [{ path: [...path, 'reproducibility'], message }];
}

interface QuestionedBlock {
  readonly questioned: readonly QuestionedMeasure[];
  readonly path: JsonPath;
}

function keptForTests(block: RawGroup, { questioned, path }: QuestionedBlock): AgreementProblem[] {
  const problems: AgreementProblem[] = [];
  const tested = questioned.find(({ method }) => partsTested(method).length > 0);
  if (tested && block['keptDays'] === undefined) {
    const message = `is missing: how many days samples are kept, since ${tested.name} is tested again`;
    problems.push({ path: [...path, 'keptDays'], message });
  }
  const sent = questioned.find(({ method }) => partsTested(method).includes('referee'));
  if (block['referee'] === undefined && (sent || block['fee'] === 'further-from-referee')) {
    const why = sent
      ? `the method ${JSON.stringify(sent.method.method)} for ${sent.name} needs one`
      : 'the fee depends on its figure';
    problems.push({
      path: [...path, 'referee'],
      message: `is missing: the name of the referee laboratory, since ${why}`,
    });
  }
  return [...problems, ...partsKept(block, { questioned, path })];
}

function partsKept(block: RawGroup, { questioned, path }: QuestionedBlock): AgreementProblem[] {
  if (block['parts'] === undefined) return [];
  const kept = asList(block['parts']);
  return SAMPLE_PARTS.flatMap((part) => {
    const needs = questioned.find(({ method }) => partsTested(method).includes(part));
    if (!needs || kept.includes(part)) return [];
    const message = `must name ${JSON.stringify(part)}: the method ${JSON.stringify(needs.method.method)} for ${needs.name} tests that part`;
    return [{ path: [...path, 'parts'], message }];
  });
}
