/**
 * Questions and retests in words: who may ask and until when, what is kept, and for each figure who tests what again
 * and which figure then counts. Every figure and name of the block stands in them as it was written.
 */
import { MEASURE_NAMES, MEASURE_UNITS } from '../agreement/measures.ts';
import {
  type DecidingMethod,
  type NoReferee,
  partsTested,
  QUESTIONED,
  type Questioned,
  type RetestRules,
  type SamplePart,
} from '../agreement/retest-rules.ts';
import type { AskedRule } from '../retests/asked-rule.ts';
import { asSentence, countOfDays, listed } from './figures-in-words.ts';
import type { Parties } from './parties.ts';

/** The paragraphs of a well-formed `retest` block. */
export function retestInWords(rules: RetestRules, parties: Parties): string[] {
  const { seller, buyer } = parties;
  return [
    `${seller} or ${buyer} may question a figure that is named here within ${countOfDays(rules.askWithinDays)} after it was reported. Other figures stand as they were reported.`,
    ...keptWords(rules, parties),
    ...(rules.referee === undefined ? [] : [`The referee is ${asSentence(rules.referee)}`]),
    ...QUESTIONED.flatMap((name) => {
      const method = rules.measures[name];
      return method ? [`${headOf(name)}: ${methodInWords(method)}`] : [];
    }),
    ...timeWords(rules),
    FEE_WORDS[rules.fee],
    'While a question is open, the part of the price that nobody disputes stays due, and the rest is held until the question is decided.',
  ];
}

function keptWords({ parts, keptDays }: RetestRules, { seller, buyer }: Parties): string[] {
  const kept = keptDays === undefined ? '' : `, and kept for ${countOfDays(keptDays)} after it was taken`;
  if (!parts) {
    return keptDays === undefined
      ? []
      : [`What is left of each sample is kept for ${countOfDays(keptDays)} after it was taken.`];
  }
  const holders: Record<SamplePart, string> = {
    laboratory: 'the laboratory',
    seller,
    buyer,
    referee: 'the referee',
  };
  const whose = listed(parts.map((part) => `one for ${holders[part]}`));
  return [`Each sample is split into sealed parts (${whose})${kept}.`];
}

function timeWords({
  testWithinDays,
  ifNoReferee,
}: Pick<RetestRules, 'testWithinDays' | 'ifNoReferee'>): string[] {
  const lapse = 'if one is not in by then, the first figure stands';
  return [
    ...(testWithinDays === undefined
      ? []
      : [
          `Each test is to be reported within ${countOfDays(testWithinDays)} after it is called for; ${lapse}.`,
        ]),
    ...(ifNoReferee === undefined ? [] : [NO_REFEREE_WORDS[ifNoReferee]]),
  ];
}

const NO_REFEREE_WORDS: Record<NoReferee, string> = {
  'first-stands': 'Where the referee does not report in time, the first figure stands.',
  'mean-of-others':
    'Where the referee does not report in time, the mean of the figures that it was to judge counts.',
};

/** "Starch (% of dry matter)": the unit that a tolerance is in. */
function headOf(name: Questioned): string {
  if (name === 'weight') return 'Net weight';
  const called = MEASURE_NAMES[name];
  const unit = MEASURE_UNITS[name];
  const first = name === 'ph' ? called : `${called.charAt(0).toUpperCase()}${called.slice(1)}`;
  return unit === '' ? first : `${first} (${unit})`;
}

const THREE_FIGURES =
  'The laboratory tests its part again and the referee tests its own, so that there are three figures with the first.';

/** The rule of one question in sentences: how it is decided, by when tests are due and what counts without, and who pays. */
export function askedRuleInWords({ method, testDays, ifNoReferee, rounding, fee }: AskedRule): string[] {
  const isReferee = partsTested(method).includes('referee');
  return [
    methodInWords(method),
    ...(WORKED_OUT.includes(method.method) ? [ROUNDING_WORDS[rounding]] : []),
    ...timeWords({ testWithinDays: testDays, ifNoReferee: isReferee ? ifNoReferee : undefined }),
    FEE_WORDS[fee],
  ];
}

/** The methods that can end in a mean. */
const WORKED_OUT: readonly DecidingMethod['method'][] = ['closest-two', 'iso-5725', 'astm-d3244'];

const MEAN_DECIMALS = 'A mean is rounded to the decimals of the most precise figure in it';
const ROUNDING_WORDS: Record<AskedRule['rounding'], string> = {
  'half-up': `${MEAN_DECIMALS}; an exact half goes away from zero (half-up).`,
  'half-even': `${MEAN_DECIMALS}; an exact half goes to the even neighbour (half-even).`,
};

/** How one figure is decided, in sentences. */
export function methodInWords(method: DecidingMethod): string {
  switch (method.method) {
    case 'referee-stands':
      return `The referee tests its part. If its figure differs from the first by more than ${method.tolerance}, the referee’s figure counts; otherwise the first stands.`;
    case 'closest-two':
      return `${THREE_FIGURES} The mean of the two that lie nearest to each other counts; if both neighbours of the middle one are equally near, the middle one counts.`;
    case 'median':
      return `${THREE_FIGURES} The middle one counts.`;
    case 'iso-5725':
      return [...withinOneLaboratory(method), ...betweenLaboratories(method)].join(' ');
    case 'astm-d3244':
      return assignedValue(method);
    case 'second-scale':
      return secondScale(method);
  }
}

type MethodOf<Name extends DecidingMethod['method']> = Extract<DecidingMethod, { method: Name }>;

/**
 * ISO 5725-6, results of one laboratory: r is 2.8 times the standard deviation s, and the critical range of n results
 * is f(n) × s with f(3) = 3.3 and f(4) = 3.6 (from memory; recomputed as the 95 % quantile of a normal range).
 */
function withinOneLaboratory({ repeatability, test }: MethodOf<'iso-5725'>): string[] {
  return [
    `This is decided as in ISO 5725-6, with ${repeatability} as what two tests of one laboratory may differ by (r). The laboratory tests its part again. If its two figures differ by no more than r, their mean counts.`,
    test === 'cheap'
      ? 'If not, it tests twice more, since the test is cheap: if the four figures lie within r × 3.6 ÷ 2.8, their mean counts, and if not, their median (the mean of the middle two).'
      : 'If not, it tests once more, since the test is dear: if the three figures lie within r × 3.3 ÷ 2.8, their mean counts, and if not, the middle one.',
  ];
}

function betweenLaboratories({ reproducibility }: MethodOf<'iso-5725'>): string[] {
  if (reproducibility === undefined) return [];
  return [
    `Then the referee tests its part twice, with ${reproducibility} as what two laboratories may differ by (R). If the laboratory’s figure and the referee’s mean differ by no more than √(R² − r² × (1 − 1 ÷ (2 × n) − 1 ÷ (2 × m))), n and m being how often each has tested, the mean of the two counts; if not, the referee’s.`,
  ];
}

const TIES: Record<MethodOf<'astm-d3244'>['tie'], string> = {
  median: 'the middle one counts',
  mean: 'the mean of all three counts',
  'first-stands': 'the figure that was first reported stands',
  'referee-stands': 'the referee’s figure counts',
};

/** ASTM D3244, section 8.3 (read), which leaves equal distance open. */
function assignedValue({ reproducibility, tie }: MethodOf<'astm-d3244'>): string {
  return [
    `This is decided as in ASTM D3244, with ${reproducibility} as what two laboratories may differ by (R). Each side has its own part tested. If the two figures differ by no more than R, their mean counts.`,
    'If not, both are dropped and each side has its part tested again: if these differ by no more than R, their mean counts.',
    `If not, the referee tests its part: if its figure and the two new ones lie within 1.2 × R, the mean of the three counts, and if not, the mean of the two that are nearer to each other. If both pairs are equally near, ${TIES[tie]}.`,
  ].join(' ');
}

function secondScale({ toleranceDivisions }: MethodOf<'second-scale'>): string {
  const allowed =
    toleranceDivisions === undefined
      ? 'the tolerances of the two scales together'
      : `${toleranceDivisions} ${toleranceDivisions === '1' ? 'division' : 'divisions'} of the coarser scale`;
  return `The truck is weighed on a second scale that is legal for trade. If the two net weights differ by more than ${allowed}, the second counts; otherwise the first stands.`;
}

/** Who pays for a retest, by rule. */
export const FEE_WORDS: Record<RetestRules['fee'], string> = {
  'asker-unless-moved':
    'Whoever asks pays for the retest, unless the decision moves the price its way: then the other side pays.',
  split: 'Each side pays half of what the retest costs.',
  'further-from-referee':
    'The side that held to the figure further from the referee’s pays for the retest; where the referee gave none, or both were equally far, each side pays half.',
};
