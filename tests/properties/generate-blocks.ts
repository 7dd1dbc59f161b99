/**
 * The blocks of an agreement that do not price, by chance: every key, every choice and every method of a retest turns
 * up, alone and beside the others. What comes out has the known shape; the tests that use it hold that too.
 */
import { type Questioned, SAMPLE_PARTS } from '../../src/domain/agreement/retest-rules.ts';
import type { Chance } from '../oracle/random.ts';
import { decimalText } from '../oracle/random-figures.ts';
import { generateAdvance, generateDeductions, generatePayment } from './generate-payment.ts';

type Group = Readonly<Record<string, unknown>>;

/** The members that chance keeps, at least one. */
function some(chance: Chance, group: Group): Group {
  const kept = Object.entries(group).filter(() => chance.happens(0.6));
  return Object.fromEntries(kept.length > 0 ? kept : [chance.pick(Object.entries(group))]);
}

function days(chance: Chance): string {
  return String(chance.integer(1, 90));
}

function tons(chance: Chance): string {
  return decimalText(chance.integer(1_000, 900_000), chance.integer(0, 2));
}

function tenths(chance: Chance, low: number, high: number): string {
  return decimalText(chance.integer(low, high), 1);
}

function who(chance: Chance): string {
  return chance.pick(['seller', 'buyer', 'both together', 'Culvert Road Weighers']);
}

/** What tons short and tons over come to, each by one of its ways. */
function generateVolumeRules(chance: Chance): Group {
  const from = () => chance.pick(['range', 'amount']);
  const rate = () => ({ rate: tenths(chance, 1, 400) });
  const share = () => ({ percentOfAverage: tenths(chance, 1, 999) });
  const price = () => ({ price: tenths(chance, 0, 900) });
  return {
    ...(chance.happens(0.5)
      ? {
          shortfall: {
            owedBy: chance.pick(['seller', 'buyer']),
            from: from(),
            ...chance.pick([rate, share])(),
          },
        }
      : {}),
    ...(chance.happens(0.5) ? { surplus: { from: from(), ...chance.pick([rate, share, price])() } } : {}),
  };
}

export function generateConditions(chance: Chance): Group {
  const unit = () => chance.pick(['short-ton', 'tonne']);
  const yearly = chance.happens(0.5) ? { yearlyVolume: tons(chance), unit: unit() } : {};
  const lenders = ['Third Furrow Lending', 'Harrow Mutual', 'Quern & Sons, lenders'];
  return some(chance, {
    volume: {
      amount: tons(chance),
      unit: unit(),
      weight: chance.pick(['as-fed', 'dry-matter']),
      ...(chance.happens(0.6) ? { tolerancePercent: tenths(chance, 1, 250) } : {}),
      ...generateVolumeRules(chance),
    },
    trueUp: some(chance, {
      prices: { from: `2026-09-${chance.integer(10, 30)}`, to: `2026-11-${chance.integer(10, 30)}` },
      tests: true,
    }),
    delivery: some(chance, {
      from: `2026-09-${chance.integer(10, 30)}`,
      to: `2026-10-${chance.integer(10, 31)}`,
      place: chance.pick(['The west bunker', 'Pile 2, behind the barn.']),
      hauledBy: chance.pick(['seller', 'buyer']),
    }),
    quality: 'Kernels broken, no stones',
    weighing: some(chance, {
      by: who(chance),
      scale: 'The scale at the mill road',
      legalForTrade: chance.happens(0.5),
    }),
    samplingDuty: some(chance, { by: who(chance), how: 'A handful from each third of the load' }),
    laboratory: some(chance, {
      name: 'Sedge Lane Laboratory',
      dryMatterMethod: chance.pick(['Karl Fischer', 'oven, corrected for acids']),
      starchMethod: 'enzymatic',
    }),
    payment: generatePayment(chance),
    advance: generateAdvance(chance),
    deductions: generateDeductions(chance),
    lienHolders: chance
      .shuffled(lenders)
      .slice(0, chance.integer(1, 3))
      .map((name) => ({ name })),
    buyerStatement: {
      feedsToOwnAnimals: chance.happens(0.5),
      ...yearly,
      ...(chance.happens(0.4) ? { licence: 'licence 4417 of the state' } : {}),
    },
    governingLaw: 'The law of the place of delivery',
    notes: 'No trucks on Sundays',
  });
}

function generateMethod(chance: Chance): Group {
  const repeatability = chance.integer(1, 30);
  return chance.pick<Group>([
    { method: 'referee-stands', tolerance: tenths(chance, 0, 30) },
    { method: 'closest-two' },
    { method: 'median' },
    {
      method: 'iso-5725',
      repeatability: decimalText(repeatability, 1),
      ...(chance.happens(0.5)
        ? { reproducibility: decimalText(repeatability + chance.integer(1, 30), 1) }
        : {}),
      test: chance.pick(['cheap', 'dear']),
    },
    {
      method: 'astm-d3244',
      reproducibility: tenths(chance, 1, 60),
      tie: chance.pick(['median', 'mean', 'first-stands', 'referee-stands']),
    },
  ]);
}

export function generateRetest(chance: Chance): Group {
  const asked: readonly Questioned[] = ['dry-matter', 'starch', 'ndf', 'ash', 'ph', 'vomitoxin'];
  const measures: Record<string, Group> = {};
  for (const name of chance.shuffled(asked).slice(0, chance.integer(1, 4))) {
    measures[name] = generateMethod(chance);
  }
  if (chance.happens(0.5)) {
    measures['weight'] = {
      method: 'second-scale',
      ...(chance.happens(0.5) ? { toleranceDivisions: String(chance.integer(1, 9)) } : {}),
    };
  }
  return {
    askWithinDays: days(chance),
    keptDays: days(chance),
    ...(chance.happens(0.7) ? { parts: chance.shuffled(SAMPLE_PARTS) } : {}),
    referee: 'Bell Reach Referees',
    ...(chance.happens(0.5) ? { testWithinDays: days(chance) } : {}),
    ...(chance.happens(0.5) ? { ifNoReferee: chance.pick(['first-stands', 'mean-of-others']) } : {}),
    fee: chance.pick(['asker-unless-moved', 'split', 'further-from-referee']),
    measures,
  };
}
