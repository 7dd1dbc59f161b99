/**
 * What a laboratory clerk asks about. The figures of whole-ear corn are those of the format's own example; what is
 * usual of each feed is common practice, no source, but for moisture 32 to 45 % of whole-ear corn (Univ. of Wisconsin
 * Team Forage, read) and starch 50 to 60 % with NDF about 25 %.
 */
import { describe, expect, test } from 'vitest';
import { FEED_KINDS, type Feed, type Tested } from '../../../src/domain/agreement/measures.ts';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import { clerkChecks } from '../../../src/domain/samples/clerk-checks.ts';
import type { Basis, LabResult } from '../../../src/domain/samples/lab-result.ts';
import { plausibleRange } from '../../../src/domain/samples/plausible-ranges.ts';
import { usualFeed } from '../../../src/domain/worth/usual-figures.ts';

function result(
  dryMatter: string,
  figures: Partial<Record<Tested, string>>,
  basis: Basis = 'dry-matter',
): LabResult {
  const reported = Object.keys(figures) as Tested[];
  return {
    sample: 'S1',
    basis,
    dryMatter: decimal(dryMatter),
    reported,
    figures: reported.map((measure) => decimal(figures[measure] ?? '0')),
  };
}

function ask(of: LabResult, feed: Feed | undefined = 'whole-ear-corn', readings: [string, string][] = []) {
  return clerkChecks(of, {
    feed,
    readings: readings.map(([ticket, moisture]) => ({ ticket, moisture: decimal(moisture) })),
  });
}

describe('nothing is asked', () => {
  test('about a good result', () => {
    expect(ask(result('59.2', { starch: '54', ndf: '31.34', adf: '13' }))).toEqual([]);
    expect(ask(result('59.2', { starch: '31.97', ndf: '18.55' }, 'as-fed'))).toEqual([]);
    for (const dryMatter of ['55', '68'])
      expect(ask(result(dryMatter, { starch: '50', ndf: '25' }))).toEqual([]);
  });

  test.each(FEED_KINDS)('about usual %s, nor at the ends of what is usual of it', (feed) => {
    const { figures, range } = usualFeed(feed);
    const written = [...figures].filter(([measure]) => measure !== 'dry-matter');
    const usual: LabResult = {
      sample: 'S1',
      basis: 'dry-matter',
      dryMatter: figures.get('dry-matter') ?? decimal('0'),
      reported: written.map(([measure]) => measure),
      figures: written.map(([, figure]) => figure),
    };
    expect(clerkChecks(usual, { feed, readings: [] })).toEqual([]);
    for (const [measure, { low, high }] of Object.entries(range)) {
      const plausible = plausibleRange(feed, measure as Tested);
      expect(plausible && low.n * plausible.low.d >= plausible.low.n * low.d, measure).toBe(true);
      expect(plausible && high.n * plausible.high.d <= plausible.high.n * high.d, measure).toBe(true);
    }
  });
});

describe('the basis', () => {
  test('as-fed figures entered as percent of dry matter: both readings are said', () => {
    // 31.97 ÷ 59.2 % = 54.0034 and 18.55 ÷ 59.2 % = 31.3345, by hand.
    const [asked, ...more] = ask(result('59.2', { starch: '31.97', ndf: '18.55' }));
    expect(asked).toMatch(/starch 31\.97 % and NDF 18\.55 % of dry matter/);
    expect(asked).toMatch(
      /Read as percent as-fed, it has starch 54 % and NDF 31\.33 % of dry matter, which is plausible/,
    );
    expect(more).toEqual([]);
  });

  test('figures of dry matter entered as-fed', () => {
    // 50 ÷ 60 % = 83.33 and 9 ÷ 60 % = 15.
    const [asked] = ask(result('60', { starch: '50', ndf: '12' }, 'as-fed'));
    expect(asked).toMatch(/starch 83\.33 % and NDF 20 %/);
    expect(asked).toMatch(/Read as percent of dry matter, it has starch 50 % and NDF 12 %/);
  });

  test('neither reading is plausible: only what is odd is said', () => {
    const asked = ask(result('59.2', { starch: '12' }));
    expect(asked).toEqual([
      'sample S1: starch 12 % of dry matter is unlikely in whole-ear corn (the ground ear: grain, cob and husk), which has 40 to 72.',
    ]);
  });
});

describe('the decimal point', () => {
  test.each([
    ['dry-matter', '5.92', 'Ten times that, 59.2'],
    ['starch', '5.4', 'Ten times that, 54'],
    ['crude-protein', '82', 'A tenth of that, 8.2'],
    ['ph', '39', 'A tenth of that, 3.9'],
  ] as const)('%s %s', (measure, figure, told) => {
    const of =
      measure === 'dry-matter' ? result(figure, {}) : result('59.2', { ndf: '25', [measure]: figure });
    const asked = ask(of);
    expect(asked[0]).toContain(told);
    expect(asked[0]).toMatch(/is the decimal point right\?$/);
  });

  test('a fraction for a percentage', () => {
    expect(ask(result('0.592', {})).join(' ')).toContain('A hundred times that, 59.2');
  });
});

describe('sums, and the moisture reading', () => {
  test('starch, NDF, protein, fat and ash above 100 %', () => {
    const asked = ask(
      result('59.2', { starch: '60', ndf: '30', 'crude-protein': '8', 'crude-fat': '3', ash: '2' }),
      undefined,
    );
    expect(asked).toEqual([expect.stringContaining('together are 103 % of dry matter, above 100')]);
  });

  test('a dry matter that the ticket speaks against', () => {
    expect(ask(result('59.2', {}), undefined, [['T1', '36.5']])).toEqual([]);
    expect(
      ask(result('59.2', {}), undefined, [
        ['T1', '42'],
        ['T2', '34.7'],
        ['T3', '20'],
      ]),
    ).toEqual(['sample S1: dry matter 59.2 % leaves 40.8 % moisture; the reading on ticket T2 is 34.7 %.']);
  });
});
