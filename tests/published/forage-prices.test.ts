/**
 * Worked prices of silage and of nutrients, each as an agreement that the product settles, and ranges that
 * publications give for whole-ear corn.
 */
import { describe, expect, test } from 'vitest';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import type { Term } from '../oracle/season.ts';
import { dryMatterAs, outcomeOf, pay, reference } from './priced-load.ts';

const TON = { net: '2000' } as const;

describe('silage from corn $5.50 at 13 % and hay $90 a ton at 10 %, itself 35 % dry matter (NDSU Extension EC1343, read)', () => {
  const corn = reference('5.50', { pounds: '56', moisture: '13' });
  const hay = reference('90', { pounds: '2000', moisture: '10' });
  const shares: [grain: string, forage: string, exact: string, paid: string][] = [
    ['50', '50', '57.011494', '57.01'],
    ['25', '75', '46.005747', '46.01'],
    ['0', '100', '35', '35.00'],
  ];
  test.each(shares)(
    '%s percent of its dry matter as grain, %s percent as hay: %s, paid %s',
    (grain, forage, exact, paid) => {
      const price = [dryMatterAs('corn', grain), dryMatterAs('hay', forage)];
      const found = pay({ ...TON, references: { corn, hay }, price, moisture: '65' });
      expect(printDecimal(found.exact)).toBe(exact);
      expect(found.total).toBe(paid);
    },
  );

  test('57.02 as printed, when a pound of corn dry matter is first rounded to 0.1129', () => {
    // 0.1129 a pound on half of the dry matter is 0.05645 on all of it.
    const corn: Term = { term: 'flat', label: 'Corn', rate: '0.05645', per: 'lb', weight: 'dry-matter' };
    const price = [corn, dryMatterAs('hay', '50')];
    expect(pay({ ...TON, references: { hay }, price, moisture: '65' }).total).toBe('57.02');
  });
});

test('silage at $28.35 and 65 %, re-based to 70 %: 24.30 (Iowa State Extension A1-65, 2018, reprint)', () => {
  const silage = reference('28.35', { pounds: '2000', moisture: '65' });
  const paid = pay({ ...TON, references: { silage }, price: [dryMatterAs('silage')], moisture: '70' });
  expect(printDecimal(paid.exact)).toBe('24.3');
  expect(paid.total).toBe('24.30');
});

describe('two feeds, two nutrients: 3a + o = 6 and a + 3o = 10 give a = 1, o = 3 (N. St-Pierre, Buckeye Dairy News 5(2) 2003, Ohio State, read)', () => {
  const one = reference('1', { pounds: '1', moisture: '0' });
  const other = reference('3', { pounds: '1', moisture: '0' });
  const price: Term[] = [
    { term: 'constituent', label: 'a', of: 'crude-protein', at: { reference: 'one', per: 'dry-matter' } },
    { term: 'constituent', label: 'o', of: 'starch', at: { reference: 'other', per: 'dry-matter' } },
  ];
  const feeds: [a: string, o: string, worth: string][] = [
    ['3', '1', '6.00'],
    ['1', '3', '10.00'],
  ];
  test.each(feeds)('%s lb of a and %s lb of o in 100 lb are worth %s', (crude_protein, starch, worth) => {
    const figures = { crude_protein, starch };
    const paid = pay({ net: '100', references: { one, other }, price, moisture: '0', figures });
    expect(paid.total).toBe(worth);
  });
});

describe('energy from ADF (National Forage Testing Association, App. A3, read; results computed)', () => {
  /** A straight line in ADF as a flat line and a schedule: what it is at none, and its fall a point. */
  function lineInAdf(adf: string, { start, fall }: { start: string; fall: string }): string {
    const price: Term[] = [
      { term: 'flat', label: 'At no ADF', rate: start, per: 'load' },
      {
        term: 'schedule',
        label: 'By ADF',
        on: 'adf',
        neutral: { from: '0', to: '0' },
        above: [{ perPoint: `-${fall}` }],
        count: 'exact',
        unit: 'money',
        per: 'load',
      },
    ];
    return printDecimal(pay({ ...TON, price, moisture: '40', figures: { ndf: '25', adf } }).exact);
  }

  const lines: [what: string, start: string, fall: string, expected: string][] = [
    ['ear corn TDN, percent of dry matter', '99.72', '1.927', '80.45'],
    ['ear corn NEL, Mcal/lb', '1.036', '0.0203', '0.833'],
    ['corn silage TDN, percent of dry matter', '87.84', '0.70', '80.84'],
    // 0.01114 TDN − 0.054, with TDN as above: 0.9245376 at no ADF, falling 0.007798 a point.
    ['corn silage NEL, Mcal/lb', '0.9245376', '0.007798', '0.846558'],
  ];
  test.each(lines)('%s at ADF 10: %s − %s × ADF = %s', (_, start, fall, expected) => {
    expect(lineInAdf('10', { start, fall })).toBe(expected);
  });
});

describe('whole-ear corn', () => {
  const price: Term[] = [{ term: 'flat', label: 'Price', rate: '80', per: 'short-ton', weight: 'as-fed' }];
  const window: [moisture: string, status: string][] = [
    ['31.99', 'waiting'],
    ['32', 'settled'],
    ['45', 'settled'],
    ['45.01', 'waiting'],
  ];
  test.each(window)(
    'at %s percent is %s by a moisture window of 32 to 45 (Univ. of Wisconsin Team Forage, read)',
    (moisture, status) => {
      const agreement = { acceptance: [{ on: 'moisture', below: '32', above: '45' } as const] };
      expect(outcomeOf({ ...TON, price, moisture, agreement }).outcome.status).toBe(status);
    },
  );

  const usual: [starch: string, ndf: string, moisture: string, paid: string][] = [
    ['50', '25', '45', '81.98'],
    ['60', '25', '40', '95.15'],
  ];
  test.each(usual)(
    'starch %s and NDF %s of dry matter, moisture %s: paid %s, fibre at six tenths of corn dry matter (common practice, no source)',
    (starch, ndf, moisture, paid) => {
      const corn = {
        ...reference('4.00', { pounds: '56', moisture: '15.5' }),
        starchPercentOfDryMatter: '71',
      };
      const at = { reference: 'corn', per: 'dry-matter' } as const;
      const terms: Term[] = [
        { term: 'constituent', label: 'Grain', of: 'grain-equivalent', at },
        { term: 'remainder', label: 'Fibre', after: ['grain-equivalent'], at, sharePercent: '60' },
      ];
      const figures = { starch, ndf };
      expect(pay({ ...TON, references: { corn }, price: terms, moisture, figures }).total).toBe(paid);
    },
  );
});
