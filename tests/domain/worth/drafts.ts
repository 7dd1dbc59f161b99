/**
 * Sound agreements to bend, one change at a time, for the tests of what a formula is worth.
 */
import { readFileSync } from 'node:fs';
import { checkAgreement } from '../../../src/domain/agreement/check-agreement.ts';
import type { Agreement } from '../../../src/domain/agreement/document.ts';
import type { Tested } from '../../../src/domain/agreement/measures.ts';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import type { TrialFigures } from '../../../src/domain/worth/try-out.ts';

/** A formula that raises no warning: grain by its starch, the rest at 60 %, one fibre schedule in fractions. */
const SOUND = {
  format: 'huskledger-agreement/1',
  id: 'A-26-050',
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  feed: 'whole-ear-corn',
  currency: 'USD',
  timeZone: 'America/Boise',
  references: {
    corn: {
      series: 'corn-county-bid',
      unit: 'bushel',
      poundsPerUnit: '56',
      dryMatterPercent: '84.5',
      starchPercentOfDryMatter: '71',
      rule: { kind: 'delivery-day', maxAgeDays: '7' },
    },
  },
  price: [
    {
      term: 'constituent',
      label: 'Grain, by its starch',
      of: 'grain-equivalent',
      at: { reference: 'corn', per: 'dry-matter' },
    },
    {
      term: 'remainder',
      label: 'Cob and husk',
      after: ['grain-equivalent'],
      at: { reference: 'corn', per: 'dry-matter' },
      sharePercent: '60',
    },
  ],
};

export const GRAIN = SOUND.price[0];
export const FIBRE = SOUND.price[1];
export const CORN = SOUND.references.corn;

/** One dry pound of corn at 4.732 is 0.10: 4.732 ÷ 47.32. */
export const ROUND_QUOTES = new Map([['corn', '4.732']]);

/** The sound agreement with some keys replaced; throws with the problems where it is not valid. */
export function draft(changes: Readonly<Record<string, unknown>> = {}): Agreement {
  return valid({ ...SOUND, ...changes });
}

export function valid(document: unknown): Agreement {
  const { agreement, problems } = checkAgreement(document);
  if (!agreement) throw new Error(JSON.stringify(problems));
  return agreement;
}

export function demoAgreement(folder: string): Agreement {
  return valid(JSON.parse(readFileSync(`demo/${folder}/agreement.json`, 'utf8')));
}

/** A schedule in money per short ton of dry matter on one side of a neutral range that starts at 0. */
export function schedule(on: string, changes: Readonly<Record<string, unknown>>) {
  return {
    term: 'schedule',
    label: `By ${on}`,
    on,
    neutral: { from: '0', to: '27' },
    count: 'exact',
    unit: 'money',
    per: 'short-ton',
    weight: 'dry-matter',
    ...changes,
  };
}

export function figures(given: Partial<Record<Tested, string>>): TrialFigures {
  return new Map(Object.entries(given).map(([measure, figure]) => [measure as Tested, decimal(figure)]));
}
