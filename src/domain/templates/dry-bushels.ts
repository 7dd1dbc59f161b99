/**
 * Dry-equivalent bushels (tonnes, where the parties are metric): the wet weight is turned into the weight of dry shelled
 * corn, by its dry matter, by a shrink factor or by a table, and each bushel is paid at the feed's share of the price.
 */
import type { BushelMethod, Reference } from '../agreement/document.ts';
import { ceiling, decimal, divide, multiply, subtract, whole } from '../numbers/exact.ts';
import { printFixed, printUnits } from '../numbers/printing.ts';
import { cornReference, drawAgreement } from './drawn-agreement.ts';
import { STARTING } from './starting-figures.ts';
import type { Template, TemplateBasics } from './template.ts';

function drawBushels(basics: TemplateBasics, methodFor: (corn: Reference) => BushelMethod) {
  const corn = cornReference(basics.metric);
  return drawAgreement(basics, {
    references: { corn },
    price: [
      {
        term: 'equivalent-bushels',
        label: basics.metric ? 'Feed as dry tonnes of corn' : 'Feed as dry bushels of corn',
        method: methodFor(corn),
        at: { reference: 'corn' },
        sharePercent: STARTING[basics.feed].energyPercent,
      },
    ],
    tested: ['dry-matter'],
  });
}

export const BUSHELS_BY_DRY_MATTER: Template = {
  id: 'bushels-by-dry-matter',
  name: 'Dry bushels or tonnes, by dry matter',
  suits: 'Suits parties who think in dry shelled corn and want no water paid for, at any moisture.',
  leavesToLuck:
    'Leaves to luck what the dry matter is: a pound of cob counts like a pound of kernel, but for the share that the agreement names.',
  draw(basics) {
    return drawBushels(basics, () => ({ kind: 'dry-matter' }));
  },
};

/** Water alone: 100 ÷ (100 − base) percent a point, 1.1834 from 15.5 % and 1.1628 from 14 % (SDSU Extension, read). */
function waterShrink(corn: Reference): string {
  return printFixed(divide(whole(100), decimal(corn.dryMatterPercent)), 4);
}

export const BUSHELS_BY_SHRINK: Template = {
  id: 'bushels-by-shrink',
  name: 'Dry bushels or tonnes, by a shrink factor',
  suits:
    'Suits parties who are used to a fixed percentage off for each point of moisture, and can check it with a pocket calculator.',
  leavesToLuck:
    'Leaves to luck what the dry matter is, and a factor above that of water alone takes dry matter off too, most of all from wet loads.',
  draw(basics) {
    return drawBushels(basics, (corn) => ({ kind: 'shrink', percentPerPoint: waterShrink(corn) }));
  },
};

/**
 * Pounds of wet feed that hold the dry matter of one bushel or tonne, for each whole percent of moisture:
 * 56 × 84.5 ÷ (100 − M) to hundredths, as printed in AGF-502, Ohio State Univ. Extension 2018 (25 %: 63.09). Of a
 * tonne the hundredths are rounded up, so that no row makes dry corn itself worth more than its price.
 */
function tableRows({ feed, metric }: TemplateBasics, corn: Reference) {
  const { from, to } = STARTING[feed].table;
  const dryPounds = multiply(decimal(corn.poundsPerUnit), decimal(corn.dryMatterPercent));
  return Array.from({ length: to - from + 1 }, (_, index) => {
    const moisture = from + index;
    const pounds = divide(dryPounds, subtract(whole(100), whole(moisture)));
    const poundsPerBushel = metric
      ? printUnits(ceiling(multiply(pounds, whole(100))), 2)
      : printFixed(pounds, 2);
    return { moisture: String(moisture), poundsPerBushel };
  });
}

export const BUSHELS_BY_TABLE: Template = {
  id: 'bushels-by-table',
  name: 'Dry bushels or tonnes, by a table',
  suits: 'Suits parties who want to read the pounds of a bushel off a printed table that both have signed.',
  leavesToLuck:
    'Leaves to luck how cob and kernel dry apart: the rows are those of shelled corn until a table for ear corn stands in their place, and a load wetter than the table waits.',
  draw(basics) {
    return drawBushels(basics, (corn) => ({
      kind: 'table',
      rows: tableRows(basics, corn),
      between: 'linear',
      drier: 'first-row',
    }));
  },
};
