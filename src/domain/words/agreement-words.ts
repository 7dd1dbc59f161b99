/**
 * A whole agreement as plain sentences that both parties can sign, and that say what the settlement does.
 */
import { conditionsOf } from '../agreement/conditions.ts';
import type { Agreement } from '../agreement/document.ts';
import type { FreeBlock, FreeValue } from '../agreement/free-block.ts';
import { FEEDS, MEASURE_NAMES, MEASURE_UNITS, type Tested } from '../agreement/measures.ts';
import { retestRulesOf } from '../agreement/retest-rules.ts';
import { currencyDecimals } from '../money/currency.ts';
import { printUnits, withMinus } from '../numbers/printing.ts';
import { warnOfPrice } from '../settlement/makes-sense.ts';
import { conditionsInWords } from './conditions-words.ts';
import { countOfDecimals, listed } from './figures-in-words.ts';
import { referenceInWords } from './reference-words.ts';
import { retestInWords } from './retest-words.ts';
import { grainEquivalentInWords, termInWords } from './term-words.ts';

export interface Section {
  readonly heading: string;
  /** Each a sentence or a few that belong together. */
  readonly paragraphs: readonly string[];
}

/** The agreement in words. Every figure stands as it does in the file (a deduction in words for its minus sign). */
export function agreementInWords(agreement: Agreement): Section[] {
  const { currency, references, price } = agreement;
  return [
    { heading: `Agreement ${agreement.id}`, paragraphs: openingWords(agreement) },
    ...(Object.keys(references).length === 0
      ? []
      : [
          {
            heading: 'Reference prices',
            paragraphs: Object.entries(references).map(([name, reference]) =>
              referenceInWords(name, reference, currency).join(' '),
            ),
          },
        ]),
    {
      heading: 'The price of a load',
      paragraphs: [
        'A load is priced by these lines, in this order, and its amount is their sum. A positive amount is owed by the buyer to the seller.',
        ...price.map(
          (term, index) => `${index + 1}. ${term.label}. ${termInWords(term, agreement).join(' ')}`,
        ),
        ...grainEquivalentInWords(agreement),
      ],
    },
    { heading: 'Samples and tests', paragraphs: testWords(agreement) },
    { heading: 'Loads outside the agreed ranges', paragraphs: acceptanceWords(agreement) },
    ...retestSections(agreement),
    ...conditionSections(agreement),
    {
      heading: 'Before you sign',
      paragraphs: [...warnOfPrice(agreement).map((warning) => `Please check: ${warning}.`), CAUTION],
    },
  ];
}

const CAUTION =
  'Who may deal in feed, liens on farm products (in the United States, 7 USC 1631) and times to pay are set by law where you live. Have a licensed adviser read this agreement.';

function openingWords({ seller, buyer, feed, currency, rounding, timeZone }: Agreement): string[] {
  const decimals = currencyDecimals(currency) ?? 0;
  const smallest = printUnits(1n, decimals);
  const tie =
    (rounding ?? 'half-up') === 'half-up'
      ? 'an exact half goes away from zero (half-up)'
      : 'an exact half goes to the even neighbour (half-even)';
  return [
    `${seller} sells and ${buyer} buys ${FEEDS[feed]}.`,
    `Money is in ${currency}. Each line is worked out exactly and rounded once, to ${smallest} ${currency}; ${tie}. Nothing is rounded before that unless this agreement says so.`,
    `The day of delivery is the local date in the time zone ${timeZone}.`,
    'Net weight is gross less tare, in the unit of the scale. 1 lb is 0.45359237 kg, 1 short ton is 2,000 lb, 1 tonne is 1,000 kg and 1 mile is 1.609344 km.',
  ];
}

const PLANS: Record<NonNullable<Agreement['sampling']>['plan'], string> = {
  'per-load':
    'A load takes the sample that its ticket names; each load is to have one of its own (plan per-load).',
  composite:
    'One sample may stand for several loads; the ticket of each names it, and the figures are the laboratory’s for the whole (plan composite).',
  'per-day':
    'A load takes the sample that its ticket names or, where it names none, the sample of its day of delivery (plan per-day).',
};

function testWords({ sampling, tests, rounding }: Agreement): string[] {
  const rounded = Object.entries(tests ?? {}).flatMap(([measure, rule]) =>
    rule ? [`${MEASURE_NAMES[measure as Tested]} to ${countOfDecimals(rule.decimals)}`] : [],
  );
  return [
    PLANS[sampling?.plan ?? 'per-load'],
    'Constituents that a laboratory reports as-fed are divided by the dry matter that it reports, exactly.',
    rounded.length === 0
      ? 'Figures are used as they are, without rounding.'
      : `Before any use these are rounded (${rounding ?? 'half-up'}): ${rounded.join('; ')}. Other figures are used as they are.`,
    'A load that lacks a figure that its price or its ranges need, or a price, waits. No figure is ever guessed.',
  ];
}

function acceptanceWords({ acceptance, buyer }: Agreement): string[] {
  if (!acceptance || acceptance.length === 0) {
    return [`There are no ranges: ${buyer} cannot refuse a load by its figures.`];
  }
  const ranges = acceptance.map(({ on, below, above }) => {
    const unit = MEASURE_UNITS[on];
    const ends = [
      ...(below === undefined ? [] : [`below ${withMinus(below)}`]),
      ...(above === undefined ? [] : [`above ${withMinus(above)}`]),
    ];
    return `${MEASURE_NAMES[on]}${unit === '' ? '' : ` (${unit})`} ${listed(ends, 'or')}`;
  });
  return [
    `A load is outside the agreed ranges with ${listed(ranges, 'or with')}. The limits themselves are inside, and figures are compared as they are used, not rounded to the limit.`,
    ...toxinWords(acceptance),
    `${buyer} may refuse such a load or accept it, and records the choice; until then it waits. A load inside the ranges is not ${buyer}’s to refuse alone: if ${buyer} does, it waits until both sides agree.`,
  ];
}

const TOXINS: readonly string[] = ['aflatoxin', 'vomitoxin'];

function toxinWords(acceptance: NonNullable<Agreement['acceptance']>): string[] {
  if (!acceptance.some(({ on }) => TOXINS.includes(on))) return [];
  return [
    'Mould toxins reach cattle and milk: the United States Food and Drug Administration acts at 20 µg/kg of aflatoxin in corn for dairy cattle, and advises at most 10 mg/kg of vomitoxin in their grain and 5 mg/kg in the whole ration. Other countries have limits of their own; ask a veterinarian or nutritionist before feeding.',
  ];
}

const RETESTS = 'Questions and retests';

/** In sentences where the block has the known shape, else as it stands. */
function retestSections(agreement: Agreement): Section[] {
  const rules = retestRulesOf(agreement);
  if (!rules) return freeSection(RETESTS, agreement.retest);
  return [{ heading: RETESTS, paragraphs: retestInWords(rules, agreement) }];
}

function conditionSections(agreement: Agreement): Section[] {
  const conditions = conditionsOf(agreement);
  return conditions
    ? conditionsInWords(conditions, agreement)
    : freeSection('Other conditions, which do not change the price', agreement.conditions);
}

function freeSection(heading: string, block: FreeBlock | undefined): Section[] {
  return block === undefined ? [] : [{ heading, paragraphs: freeWords(block, '') }];
}

/** `{ "payment": { "days": "30" } }` as "payment, days: 30". */
function freeWords(block: FreeBlock, before: string): string[] {
  return Object.entries(block).flatMap(([key, value]) =>
    freeValueWords(value, before === '' ? key : `${before}, ${key}`),
  );
}

function freeValueWords(value: FreeValue, name: string): string[] {
  if (typeof value === 'string') return [`${name}: ${value}`];
  if (typeof value === 'boolean') return [`${name}: ${value ? 'yes' : 'no'}`];
  if (isList(value)) return value.flatMap((item, index) => freeValueWords(item, `${name} ${index + 1}`));
  return freeWords(value, name);
}

function isList(value: FreeBlock | readonly FreeValue[]): value is readonly FreeValue[] {
  return Array.isArray(value);
}
