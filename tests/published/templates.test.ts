/**
 * Worked prices that others published, by the agreements that the templates draw: what a template starts from is what
 * the trade's own examples come to.
 */
import { describe, expect, test } from 'vitest';
import { decimal, divide, HUNDRED, subtract } from '../../src/domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../src/domain/numbers/printing.ts';
import {
  BUSHELS_BY_DRY_MATTER,
  BUSHELS_BY_SHRINK,
  BUSHELS_BY_TABLE,
} from '../../src/domain/templates/dry-bushels.ts';
import { ENERGY_SHARE } from '../../src/domain/templates/energy-share.ts';
import { STARCH_AND_FORAGE } from '../../src/domain/templates/starch-and-fibre.ts';
import { STARTING } from '../../src/domain/templates/starting-figures.ts';
import { asPublished, drawnFormula, type PublishedFormula, payByTemplate } from './drawn-formula.ts';
import { onlyQuantity } from './priced-load.ts';

describe('a share of shelled corn by energy', () => {
  test('ear corn: corn $4.50, share 90, a ton at the moisture of the reference: 144.642857 (R. Rasby, Univ. of Nebraska 2010, read)', () => {
    const formula = {
      template: ENERGY_SHARE,
      feed: 'high-moisture-ear-corn',
      references: { corn: { price: '4.50' } },
    } as const;
    expect(drawnFormula(formula).price[0]).toMatchObject({ sharePercent: '90' });
    const paid = payByTemplate(formula, { net: '2000', moisture: '15.5' });
    expect(printDecimal(paid.exact)).toBe('144.642857');
    expect(paid.total).toBe('144.64');
  });

  test('high-moisture shelled corn: $3.50 at 15 %, a ton at 30 %: 102.941176 (W. Rusche, SDSU Extension 2020, read)', () => {
    const formula = {
      template: ENERGY_SHARE,
      feed: 'high-moisture-shelled-corn',
      references: { corn: { price: '3.50', dryMatterPercent: '85' } },
    } as const;
    const paid = payByTemplate(formula, { net: '2000', moisture: '30' });
    expect(printDecimal(paid.exact)).toBe('102.941176');
    expect(paid.total).toBe('102.94');
  });
});

describe('silage from corn $5.50 at 13 % and hay $90 a ton at 10 %, itself 35 % dry matter (NDSU Extension EC1343, read)', () => {
  // The publication counts its grain by weight: here the figure under "starch" is that grain, whole and at its whole price.
  const formula: PublishedFormula = {
    template: STARCH_AND_FORAGE,
    feed: 'corn-silage',
    references: {
      corn: { price: '5.50', dryMatterPercent: '87', starchPercentOfDryMatter: '100' },
      hay: { price: '90' },
    },
    terms: [{ sharePercent: '100' }],
  };
  const rows: [grain: string, exact: string, paid: string][] = [
    ['50', '57.011494', '57.01'],
    ['25', '46.005747', '46.01'],
    ['0', '35', '35.00'],
  ];
  test.each(rows)('%s percent of its dry matter as grain: %s, paid %s', (starch, exact, paid) => {
    const found = payByTemplate(formula, { net: '2000', moisture: '65', figures: { starch } });
    expect(printDecimal(found.exact)).toBe(exact);
    expect(found.total).toBe(paid);
  });

  test('the hay of the template is that of the publication: 2,000 lb at 10 %', () => {
    expect(drawnFormula(formula).references['hay']).toMatchObject({
      poundsPerUnit: '2000',
      dryMatterPercent: '90',
    });
  });
});

// "Useful Tables", AGF-502, Lindsey & Zoller, Ohio State Univ. Extension 2018, read: pounds that make a bushel at 15.5 %.
const SHELLED: readonly [moisture: string, pounds: string][] = [
  ['10', '52.58'],
  ['12', '53.77'],
  ['13', '54.39'],
  ['14', '55.02'],
  ['15', '55.67'],
  ['16', '56.33'],
  ['24', '62.26'],
  ['25', '63.09'],
  ['26', '63.95'],
  ['27', '64.82'],
  ['28', '65.72'],
];
const EAR: readonly [moisture: string, pounds: string][] = [
  ['24', '79.76'],
  ['24.5', '80.50'],
  ['25', '81.25'],
  ['25.5', '82.03'],
  ['26', '82.82'],
  ['27', '84.19'],
  ['28', '85.62'],
  ['28.5', '86.32'],
];

function poundsPerBushel(formula: PublishedFormula, moisture: string): string {
  const quantity = onlyQuantity(asPublished(formula, { net: '2000', moisture }));
  return printFixed(divide(decimal('2000'), quantity), 2);
}

describe('pounds of shelled corn that make one bushel (AGF-502, Ohio State Univ. Extension 2018, read)', () => {
  test.each(SHELLED)('at %s percent: %s lb, by dry matter and by table', (moisture, pounds) => {
    const feed = Number(moisture) < 20 ? 'dry-shelled-corn' : 'high-moisture-shelled-corn';
    for (const template of [BUSHELS_BY_DRY_MATTER, BUSHELS_BY_TABLE]) {
      const formula = { template, feed, references: { corn: { price: '4.50' } } } as const;
      expect(poundsPerBushel(formula, moisture), template.id).toBe(pounds);
      const [term] = drawnFormula(formula).price;
      if (term?.term !== 'equivalent-bushels' || term.method.kind !== 'table') continue;
      expect(term.method.rows).toContainEqual({ moisture, poundsPerBushel: pounds });
    }
  });

  // A table for ear corn is empirical, and stands in the place of the template's rows.
  test.each(EAR)('of ear corn at %s percent: %s lb, once its rows stand in the table', (moisture, pounds) => {
    const rows = EAR.map(([percent, poundsPerRow]) => ({ moisture: percent, poundsPerBushel: poundsPerRow }));
    const method = { kind: 'table', rows, between: 'linear' };
    const formula: PublishedFormula = {
      template: BUSHELS_BY_TABLE,
      feed: 'high-moisture-ear-corn',
      references: { corn: { price: '4.50' } },
      terms: [{ method, sharePercent: '100' }],
    };
    expect(poundsPerBushel(formula, moisture)).toBe(pounds);
  });
});

describe('shrink', () => {
  function shrinkFormula(dryMatterPercent: string, method?: Record<string, string>): PublishedFormula {
    return {
      template: BUSHELS_BY_SHRINK,
      feed: 'high-moisture-shelled-corn',
      references: { corn: { price: '3.50', dryMatterPercent } },
      terms: method ? [{ method }] : [],
    };
  }

  test('the factor of the template is that of water alone from 15.5 %: 1.1834 (K. Dillivan, SDSU Extension 2014, read)', () => {
    expect(drawnFormula(shrinkFormula('84.5')).price[0]).toMatchObject({
      method: { kind: 'shrink', percentPerPoint: '1.1834' },
    });
  });

  test('25 to 15.5 %: 11.2426 % exact by dry matter, 11.2423 by four places of the factor (K. Dillivan; D. Karki, SDSU Extension: 11.24, read)', () => {
    // 5,600 lb are 100 bushels as they weigh, so what is missing of 100 is the shrink in percent.
    const lost = (formula: PublishedFormula) =>
      printDecimal(subtract(HUNDRED, onlyQuantity(asPublished(formula, { net: '5600', moisture: '25' }))));
    expect(lost({ ...shrinkFormula('84.5'), template: BUSHELS_BY_DRY_MATTER })).toBe('11.242604');
    // 9.5 × 1.1834, computed.
    expect(lost(shrinkFormula('84.5'))).toBe('11.2423');
  });

  test('pencil shrink: 216 wet bushels at 25 %, 1.4 % a point to 15 %: 185.76 (FEFO 09-16, Univ. of Illinois farmdoc 2009, read)', () => {
    const formula = shrinkFormula('85', { kind: 'shrink', percentPerPoint: '1.4' });
    // 216 × 56 lb.
    expect(printDecimal(onlyQuantity(asPublished(formula, { net: '12096', moisture: '25' })))).toBe('185.76');
  });

  test('56,000 lb at 20.5 %, base 15 %, $3.50, 2 % a point: 3,115.00 (Iowa State Extension 2019, reprint)', () => {
    const formula = shrinkFormula('85', { kind: 'shrink', percentPerPoint: '2' });
    expect(payByTemplate(formula, { net: '56000', moisture: '20.5' }).total).toBe('3115.00');
  });
});

describe('dry bushels by dry matter', () => {
  const formula: PublishedFormula = {
    template: BUSHELS_BY_DRY_MATTER,
    feed: 'high-moisture-shelled-corn',
    references: { corn: { price: '3.50', dryMatterPercent: '85' } },
  };

  test('100,000 lb, 20 to 15 %: 1,680.672 bushels (R. L. Nielsen, Purdue Agronomy 2020, reprint)', () => {
    const quantity = onlyQuantity(asPublished(formula, { net: '100000', moisture: '20' }));
    expect(printFixed(quantity, 3)).toBe('1680.672');
  });

  test('1,000 wet bushels, 26 to 15 %: 870.588 (Purdue guide, reprint)', () => {
    const quantity = onlyQuantity(asPublished(formula, { net: '56000', moisture: '26' }));
    expect(printFixed(quantity, 3)).toBe('870.588');
  });
});

test('whole-ear corn is taken from 32 to 45 % moisture (Univ. of Wisconsin Team Forage, read)', () => {
  expect(STARTING['whole-ear-corn'].accepted).toEqual({ below: '32', above: '45' });
});
