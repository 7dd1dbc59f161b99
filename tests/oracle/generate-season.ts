/**
 * A whole valid season from a seed: agreement, loads, samples, prices, elections and choices. Nothing in
 * it breaks an input rule, so whatever does not settle waits or is refused for a reason of the agreement's.
 */
import { feeds, profiles } from './feed-profiles.ts';
import { generateLoads, sampleNames } from './generate-loads.ts';
import { generateChoices, generateElections, generatePrices } from './generate-prices.ts';
import { type Calendar, generateCalendar, generateReferences } from './generate-references.ts';
import { generateSample, type Laboratory } from './generate-samples.ts';
import { generateAcceptance, marksOf } from './generate-schedule.ts';
import { generateTerms } from './generate-terms.ts';
import { neededMeasures } from './measures.ts';
import { type Chance, chanceFrom } from './random.ts';
import { moneyIn } from './random-figures.ts';
import {
  type Agreement,
  constituents,
  currencyDecimals,
  type OracleSeason,
  otherMeasures,
  type SampleRow,
  type TestedMeasure,
} from './season.ts';

const measures: readonly TestedMeasure[] = ['dry-matter', ...constituents, ...otherMeasures];

function generateTests(chance: Chance): NonNullable<Agreement['tests']> {
  const tests: NonNullable<Agreement['tests']> = {};
  const usual: readonly TestedMeasure[] = ['dry-matter', 'starch', 'ndf'];
  for (const measure of new Set([...chance.shuffled(measures).slice(0, 3), chance.pick(usual)]))
    tests[measure] = { decimals: String(chance.integer(0, 2)) };
  return tests;
}

function generateAgreement(chance: Chance, calendar: Calendar): Agreement {
  const feed = chance.pick(feeds);
  const profile = profiles[feed];
  const currency = chance.pick([...currencyDecimals.keys(), 'USD']);
  const money = moneyIn(currency);
  const references = generateReferences(chance, currency, calendar);
  const agreement: Agreement = {
    format: 'huskledger-agreement/1',
    id: `A-${chance.integer(20, 29)}-${chance.integer(100, 999)}`,
    seller: chance.pick(['Fennmark Rows', 'Two Culverts', 'Oster "Low" Field']),
    buyer: chance.pick(['Pell Bight Dairy', 'Molkerei Übergrün', 'Sallow, Reed & Sons']),
    feed,
    currency,
    timeZone: calendar.timeZone,
    references,
    price: generateTerms({ chance, money, profile, references }),
  };
  if (chance.happens(0.6)) agreement.rounding = chance.pick(['half-up', 'half-even']);
  if (chance.happens(0.5)) agreement.tests = generateTests(chance);
  if (chance.happens(0.4)) agreement.acceptance = generateAcceptance({ chance, money, profile });
  if (chance.happens(0.7))
    agreement.sampling = { plan: chance.pick(['per-load', 'composite', 'per-day'] as const) };
  return agreement;
}

function reportedMeasures(chance: Chance, agreement: Agreement): ReadonlySet<TestedMeasure> {
  const reported = new Set<TestedMeasure>();
  // Now and then the laboratory was never asked for something that the terms need.
  for (const measure of neededMeasures(agreement))
    if (measure !== 'moisture' && !chance.happens(0.01)) reported.add(measure);
  for (const measure of measures) if (chance.happens(0.25)) reported.add(measure);
  return reported;
}

/** The same seed gives the same season; `loads` asks for a number of loads other than 5 to 60. */
export function generateSeason(seed: number, { loads: count }: { loads?: number } = {}): OracleSeason {
  const chance = chanceFrom(seed);
  const calendar = generateCalendar(chance);
  const agreement = generateAgreement(chance, calendar);
  const loads = generateLoads(chance, agreement, calendar, count ?? chance.integer(5, 60));
  const laboratory: Laboratory = {
    chance,
    agreement,
    profile: profiles[agreement.feed],
    marks: marksOf(agreement),
    reported: reportedMeasures(chance, agreement),
  };
  const samples: SampleRow[] = [];
  const late = chance.pick([0, 0, 0.03, 0.3]);
  for (const name of sampleNames(agreement, loads))
    if (!chance.happens(late)) samples.push(generateSample(laboratory, name));
  if (chance.happens(0.1)) samples.push(generateSample(laboratory, 'unused, "spare"'));
  return {
    agreement,
    loads: chance.happens(0.2) ? chance.shuffled(loads) : loads,
    samples: chance.happens(0.3) ? chance.shuffled(samples) : samples,
    prices: generatePrices(chance, agreement, calendar),
    elections: generateElections(chance, agreement, loads),
    choices: generateChoices(chance, agreement, loads),
  };
}
