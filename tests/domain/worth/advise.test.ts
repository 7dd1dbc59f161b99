/**
 * Each kind of advice is provoked by a formula that earns it, with the figures worked by hand, and kept silent by one
 * that does not.
 */
import { describe, expect, test } from 'vitest';
import type { Agreement } from '../../../src/domain/agreement/document.ts';
import { ADVICE_KINDS, type AdviceKind } from '../../../src/domain/worth/advice/advice.ts';
import { adviseOn } from '../../../src/domain/worth/advise.ts';
import { workedExample } from '../../oracle/worked-example.ts';
import { CORN, demoAgreement, draft, FIBRE, GRAIN, ROUND_QUOTES, schedule, valid } from './drafts.ts';

function messages(agreement: Agreement, kind: AdviceKind): string[] {
  return adviseOn(agreement, { quotes: ROUND_QUOTES })
    .filter((advice) => advice.kind === kind)
    .map(({ message }) => message);
}

/** The only message of a kind. */
function only(agreement: Agreement, kind: AdviceKind): string {
  const found = messages(agreement, kind);
  expect(found).toHaveLength(1);
  return found[0] ?? '';
}

const kindsOf = (agreement: Agreement) => adviseOn(agreement).map(({ kind }) => kind);

describe('a formula without a fault', () => {
  test.each([
    ['grain by its starch and the rest at 60 %', draft()],
    ['the worked example of the format', valid(workedExample.agreement)],
    [
      'a schedule on fibre that counts fractions',
      draft({ price: [GRAIN, FIBRE, schedule('ndf', { above: [{ perPoint: '-1' }] })] }),
    ],
    [
      'a limit on either side',
      draft({
        price: [
          GRAIN,
          FIBRE,
          { term: 'limit', label: 'Held', floor: '60', ceiling: '140', per: 'short-ton', weight: 'as-fed' },
        ],
      }),
    ],
    ['ranges far from ordinary loads', draft({ acceptance: [{ on: 'moisture', below: '32', above: '50' }] })],
    ['samples kept for as long as may be asked', draft({ retest: { askWithinDays: '14', keptDays: '30' } })],
  ])('raises no warning: %s', (_, agreement) => {
    expect(adviseOn(agreement)).toEqual([]);
  });
});

describe('a cliff', () => {
  const completed = (on: string, changes: Readonly<Record<string, unknown>>) =>
    draft({ price: [GRAIN, FIBRE, schedule(on, { count: 'completed', ...changes })] });

  test('is a schedule in whole points, with the money that a hundredth moves', () => {
    const message = only(completed('ndf', { above: [{ perPoint: '-1' }] }), 'cliff');
    // 48,000 lb at 58 % dry matter are 13.92 short tons of it: a point at 1.00 is 13.92.
    expect(message).toContain(
      '“By ndf” jumps by 13.92 USD for a load of 24 short tons between 27.99 and 28 % NDF.',
    );
    // 28 to 40 within 10.5 to 40.5, the usual 18 to 33 and half as much on either side.
    expect(message).toContain('There are 13 such steps');
    // 2.8 × 0.37 and 2.8 × 2.24 (AOAC 2002.04, Mertens 2002).
    expect(message).toContain(
      'can lie 1.0 to 6.3 points of NDF apart (AOAC 2002.04, Mertens 2002). Away from the step, the smaller of these moves nothing',
    );
    expect(message).toContain('Count fractions of a point');
  });

  test('is in the words of the term: moisture, and where it starts rather than ends', () => {
    const moisture = schedule('moisture', {
      count: 'started',
      neutral: { from: '0', to: '42' },
      above: [{ points: '1', perPoint: '-6' }],
      weight: 'as-fed',
    });
    const message = only(draft({ price: [GRAIN, FIBRE, moisture] }), 'cliff');
    // 24 short tons at 6.00 and what a hundredth of a point is worth by itself: 4.8 lb at 0.10 less fibre's part.
    expect(message).toMatch(/jumps by 144\.\d\d USD .* between 42 and 42\.01 % moisture/);
    expect(message).not.toContain('such steps');
    // 2.8 × 0.44 % × 58 and 2.8 × 0.77 % × 58 (J AOAC 85:318).
    expect(message).toContain('can lie 0.7 to 1.3 points of moisture apart');
  });

  test('counts the steps alone where the line moves between them, too', () => {
    const {
      per: _,
      weight: __,
      ...percent
    } = schedule('moisture', {
      count: 'completed',
      neutral: { from: '0', to: '42' },
      above: [{ perPoint: '-3' }],
      unit: 'percent',
    });
    // 43 to 55, half a usual range below the least dry matter that is usual: 52 − 7 = 45 %.
    expect(only(draft({ price: [GRAIN, FIBRE, percent] }), 'cliff')).toContain('There are 13 such steps');
  });

  test('is none where the laboratories’ scatter moves more money than the step', () => {
    // A point of moisture is worth about 40 USD of dry matter, and the step 6.
    const small = schedule('moisture', {
      count: 'completed',
      neutral: { from: '0', to: '42' },
      above: [{ perPoint: '-0.25' }],
      weight: 'as-fed',
    });
    expect(messages(draft({ price: [GRAIN, FIBRE, small] }), 'cliff')).toEqual([]);
  });

  const table = (moistures: readonly number[], between: string) =>
    draft({
      feed: 'high-moisture-shelled-corn',
      price: [
        {
          term: 'equivalent-bushels',
          label: 'Dry bushels',
          at: { reference: 'corn' },
          method: {
            kind: 'table',
            rows: moistures.map((moisture) => ({
              moisture: String(moisture),
              poundsPerBushel: ((56 * 84.5) / (100 - moisture)).toFixed(2),
            })),
            between,
          },
        },
      ],
    });
  const rows = (from: number, step: number) => Array.from({ length: 9 }, (_, index) => from + index * step);

  test('is a table of bushels read row by row, with rows wider apart than the scatter', () => {
    const message = only(table(rows(16, 3), 'next-wetter'), 'cliff');
    expect(message).toContain('“Dry bushels” jumps by');
    // Read from 16 to 40 % moisture: each row but the last gives way to the next.
    expect(message).toContain('There are 8 such steps');
    expect(message).toContain('Read between the rows of the table in proportion');
    expect(messages(table(rows(16, 3), 'linear'), 'cliff')).toEqual([]);
    // R is at least 2.8 × 0.44 % × 66, 0.8 points: rows half a point apart only round the figure.
    const fine = table(
      Array.from({ length: 60 }, (_, index) => 12 + index / 2),
      'next-wetter',
    );
    expect(messages(fine, 'cliff')).toEqual([]);
  });

  test('is a test kept to whole percent, and bushels or tonnes kept to whole ones', () => {
    const tests = (decimals: string) => draft({ tests: { 'dry-matter': { decimals } } });
    expect(only(tests('0'), 'cliff')).toContain('Keep the test of dry matter to one decimal more.');
    expect(messages(tests('1'), 'cliff')).toEqual([]);

    const tonnes = (bushelDecimals: string) =>
      draft({
        references: { corn: { ...CORN, unit: 'tonne', poundsPerUnit: '2204.6226218488' } },
        price: [
          {
            term: 'equivalent-bushels',
            label: 'Dry tonnes',
            at: { reference: 'corn' },
            method: { kind: 'dry-matter' },
            bushelDecimals,
          },
        ],
      });
    expect(
      adviseOn(tonnes('0'))
        .map(({ message }) => message)
        .join(),
    ).toContain('Round the bushels to two decimals');
    expect(kindsOf(tonnes('2'))).toEqual([]);
  });

  test('is said of a measure without a published limit, too, unless the step is slight', () => {
    const ash = (perPoint: string) =>
      draft({
        price: [
          GRAIN,
          FIBRE,
          schedule('ash', { neutral: { from: '0', to: '3' }, count: 'started', above: [{ perPoint }] }),
        ],
      });
    expect(only(ash('-3'), 'cliff')).toContain(
      'No published limit is known here for how far laboratories differ on ash',
    );
    // 13.92 tons at 0.10 are 1.39, less than a thousandth of a load of about 2,500.
    expect(messages(ash('-0.10'), 'cliff')).toEqual([]);
  });

  test('is none on a slope that is steeper by itself', () => {
    const ash = (changes: Readonly<Record<string, unknown>>) =>
      schedule('ash', { neutral: { from: '0', to: '3' }, ...changes });
    const slope = ash({ above: [{ perPoint: '-10' }] });
    const step = ash({ count: 'completed', above: [{ perPoint: '-0.10' }] });
    expect(messages(draft({ price: [GRAIN, FIBRE, slope, step] }), 'cliff')).toEqual([]);
    // Two slopes that cancel hide no step.
    const back = { ...slope, above: [{ perPoint: '10' }] };
    const high = { ...step, label: 'A whole point of ash', above: [{ perPoint: '-0.50' }] };
    expect(only(draft({ price: [GRAIN, FIBRE, slope, back, high] }), 'cliff')).toMatch(
      /^“A whole point of ash” jumps by 6\.96 USD .* between 3\.99 and 4 % ash\./,
    );
  });

  test('is an edge of acceptance on which ordinary loads lie, unless a second test decides', () => {
    const edge = { acceptance: [{ on: 'moisture', above: '42.5' }] };
    const message = only(draft(edge), 'cliff');
    expect(message).toContain('Tarn Hollow Dairy may refuse a load above 42.5 % moisture');
    expect(message).toContain('usually tests about 42 % moisture');
    expect(message).toContain('Move the edge at least 0.7 points away from ordinary loads');
    const retest = { measures: { 'dry-matter': { method: 'median' } } };
    expect(messages(draft({ ...edge, retest }), 'cliff')).toEqual([]);
  });
});

describe('a price that falls as starch rises', () => {
  test('is found with NDF held, and names the line', () => {
    const above = schedule('starch', { neutral: { from: '0', to: '58' }, above: [{ perPoint: '-5' }] });
    const message = only(draft({ price: [GRAIN, FIBRE, above] }), 'falls-with-starch');
    // At 58 %: (58/71 + (1 − 58/71) × 0.6) × 2,000 lb × 0.10 = 185.35. A point of starch adds 0.4/71 × 200 = 1.127 and
    // takes 5: at 62 % it is 185.35 + 4.51 − 20 = 169.86.
    expect(message).toContain(
      'from 185.35 USD at 58 % to 169.86 USD at 62 % starch per short ton of dry matter',
    );
    expect(message).toContain('NDF held at 25 %');
    expect(message).toContain('“By starch”');
  });

  test('is found where only NDF’s giving way shows it', () => {
    const premium = schedule('ndf', { neutral: { from: '0', to: '18' }, above: [{ perPoint: '2' }] });
    const message = only(draft({ price: [GRAIN, FIBRE, premium] }), 'falls-with-starch');
    expect(message).toContain('NDF giving way by as much');
  });

  test('is none where the price stays', () => {
    const flat = { term: 'flat', label: 'By the ton', rate: '90', per: 'short-ton', weight: 'as-fed' };
    expect(messages(draft({ price: [flat] }), 'falls-with-starch')).toEqual([]);
  });
});

describe('fibre taken off twice', () => {
  const ndf = schedule('ndf', { above: [{ perPoint: '-1' }] });

  test('is two schedules that take off for the same husk', () => {
    const adf = schedule('adf', { neutral: { from: '0', to: '12' }, above: [{ perPoint: '-2' }] });
    const message = only(draft({ price: [GRAIN, FIBRE, ndf, adf] }), 'fibre-twice');
    // Half a range below the least starch that is seen, 48 − 7 = 41 %, NDF is 39 %: 12 points over, on 13.92 short tons.
    expect(message).toContain('41 % starch and 39 % NDF, “By ndf” takes off 167.04 USD');
    const starch = schedule('starch', { neutral: { from: '52', to: '100' }, below: [{ perPoint: '-2' }] });
    expect(only(draft({ price: [GRAIN, FIBRE, ndf, starch] }), 'fibre-twice')).toContain(
      '“By starch” takes off 306.24 USD',
    );
  });

  test('is none where the schedules never act on one load, or one of them adds', () => {
    const far = schedule('adf', { neutral: { from: '0', to: '25' }, above: [{ perPoint: '-2' }] });
    const premium = schedule('starch', { neutral: { from: '0', to: '57' }, above: [{ perPoint: '2' }] });
    expect(messages(draft({ price: [GRAIN, FIBRE, ndf, far] }), 'fibre-twice')).toEqual([]);
    expect(messages(draft({ price: [GRAIN, FIBRE, ndf, premium] }), 'fibre-twice')).toEqual([]);
  });

  test('is a schedule beside fibre that is priced low, or not at all', () => {
    const low = { ...FIBRE, sharePercent: '35' };
    const message = only(draft({ price: [GRAIN, low, ndf] }), 'fibre-twice');
    expect(message).toContain('“Cob and husk” pays fibre at 35 % of the price of grain already');
    expect(message).toContain('“By ndf” takes off 167.04 USD besides');
    expect(only(draft({ price: [GRAIN, ndf] }), 'fibre-twice')).toContain(
      'fibre earns nothing in this formula',
    );
    expect(messages(draft({ price: [GRAIN, low] }), 'fibre-twice')).toEqual([]);
    const dryMatter = { ...GRAIN, of: 'dry-matter', sharePercent: '84' };
    expect(messages(draft({ price: [dryMatter, ndf] }), 'fibre-twice')).toEqual([]);
  });
});

describe('no rule for a missing quote', () => {
  const ruled = (rule: unknown) => draft({ references: { corn: { ...CORN, rule } } });
  const window = { kind: 'seller-elects', from: '2026-09-01', to: '2026-11-30' };

  test.each([
    [{ kind: 'delivery-day' }, 'even one that is weeks old'],
    [{ kind: 'average', quotes: '5' }, 'as a mean of 5'],
    [{ ...window, maxAgeDays: '5' }, 'If Quillback Acres names none, the load is never priced'],
    [
      { ...window, default: 'window-end' },
      'on a day that Quillback Acres names. If there is no quote on that day',
    ],
  ])('is said of %j', (rule, said) => {
    expect(only(ruled(rule), 'no-missing-quote-rule')).toContain(said);
  });

  test.each([
    [{ kind: 'fixed', price: '4.50' }],
    [{ kind: 'month-average' }],
    [{ kind: 'average', quotes: '5', maxAgeDays: '7' }],
    [{ ...window, maxAgeDays: '5', default: 'window-end' }],
  ])('is not said of %j', (rule) => {
    expect(messages(ruled(rule), 'no-missing-quote-rule')).toEqual([]);
  });

  test('is not said of a reference that no line follows', () => {
    const spare = { ...CORN, series: 'hay', rule: { kind: 'delivery-day' } };
    expect(adviseOn(draft({ references: { corn: CORN, spare } }))).toEqual([]);
  });
});

describe('a floor above a ceiling', () => {
  const limit = (label: string, ends: Readonly<Record<string, string>>) => ({
    term: 'limit',
    label,
    per: 'short-ton',
    weight: 'as-fed',
    ...ends,
  });
  const crossed = (...terms: readonly unknown[]) =>
    messages(draft({ price: [GRAIN, FIBRE, ...terms] }), 'floor-above-ceiling');

  test('is two limits of which the later undoes the earlier, in whichever order', () => {
    const [undone] = crossed(limit('Least', { floor: '90' }), limit('Most', { ceiling: '80' }));
    expect(undone).toContain('“Least” lifts a load of 24 short tons by');
    expect(undone).toContain('“Most” then takes 240.00 USD off again');
    expect(crossed(limit('Most', { ceiling: '80' }), limit('Least', { floor: '90' }))[0]).toContain(
      '“Most” cuts',
    );
    expect(crossed(limit('Least', { floor: '70' }), limit('Most', { ceiling: '130' }))).toEqual([]);
  });

  test('is none where what comes between keeps them apart', () => {
    const haul = { term: 'flat', label: 'Hauling', rate: '-20', per: 'short-ton', weight: 'as-fed' };
    expect(crossed(limit('Least', { floor: '90' }), haul, limit('Most', { ceiling: '80' }))).toEqual([]);
  });

  test('is a floor of the reference price at which a ceiling always bites, and the other way round', () => {
    const held = (ends: Readonly<Record<string, string>>, term: unknown) =>
      messages(
        draft({ references: { corn: { ...CORN, ...ends } }, price: [GRAIN, FIBRE, term] }),
        'floor-above-ceiling',
      );
    expect(held({ floor: '4.50' }, limit('Most', { ceiling: '60' }))[0]).toContain(
      'Even at the lowest corn price that can count, the formula comes to more than the ceiling of “Most”',
    );
    expect(held({ ceiling: '4.50' }, limit('Least', { floor: '150' }))[0]).toContain(
      'Even at the highest corn price that can count, the formula comes to less than the floor of “Least”',
    );
    expect(held({ floor: '2.00' }, limit('Most', { ceiling: '110' }))).toEqual([]);
    expect(held({}, limit('Most', { ceiling: '60' }))).toEqual([]);
  });
});

describe('the rest', () => {
  test('samples that are thrown away before a question may still be asked', () => {
    const message = only(draft({ retest: { askWithinDays: '30', keptDays: '14' } }), 'kept-too-short');
    expect(message).toContain('within 30 days, but the parts of a sample are kept for 14');
    for (const retest of [
      { askWithinDays: '14', keptDays: '14' },
      { askWithinDays: '30' },
      { askWithinDays: 'soon', keptDays: '14' },
      { fee: 'split' },
    ]) {
      expect(messages(draft({ retest }), 'kept-too-short')).toEqual([]);
    }
  });

  test('ordinary loads that have no price', () => {
    const dry = {
      term: 'equivalent-bushels',
      label: 'Dry bushels',
      at: { reference: 'corn' },
      method: {
        kind: 'table',
        rows: [
          { moisture: '15.5', poundsPerBushel: '56' },
          { moisture: '28', poundsPerBushel: '65.72' },
        ],
        between: 'linear',
      },
    };
    expect(messages(draft({ price: [dry] }), 'cannot-price')[0]).toContain(
      'outside the table of bushel weights',
    );
    const few = draft({ price: [dry], acceptance: [{ on: 'moisture', above: '28' }] });
    expect(messages(few, 'cannot-price')).toEqual([]);
    const less = { ...FIBRE, after: ['grain-equivalent', 'ndf'] };
    expect(messages(draft({ price: [GRAIN, less] }), 'cannot-price')[0]).toContain(
      'less than nothing cannot be left',
    );
  });

  test('grain paid twice, and a share that looks like a fraction', () => {
    const twice = [
      { ...GRAIN, of: 'starch', at: { reference: 'corn', per: 'starch' } },
      { ...FIBRE, after: ['starch'] },
    ];
    expect(only(draft({ price: twice }), 'pays-twice')).toContain('pays 117.4 % of the corn price');
    expect(
      only(draft({ price: [GRAIN, { ...FIBRE, sharePercent: '0.6' }] }), 'looks-like-fraction'),
    ).toContain('was 60 % meant?');
  });

  test('every message is whole sentences', () => {
    const all = [
      draft({
        price: [
          GRAIN,
          { ...FIBRE, sharePercent: '0.6' },
          schedule('ndf', { count: 'completed', above: [{ perPoint: '-1' }] }),
        ],
      }),
      draft({ references: { corn: { ...CORN, rule: { kind: 'delivery-day' } } } }),
      demoAgreement('feldmark-metric'),
    ].flatMap((agreement) => adviseOn(agreement));
    expect(all.length).toBeGreaterThan(4);
    for (const { kind, message } of all) {
      expect(ADVICE_KINDS).toContain(kind);
      expect(message).toMatch(/^[A-Z“].*[.?]$/);
    }
  });
});

describe('the demo agreements', () => {
  test.each([
    ['quillback-tarn-hollow', []],
    // A started point of ash takes 1.5 or 3 % of a load; an election that never comes leaves loads unpaid.
    ['feldmark-metric', ['cliff']],
    ['bushels-dry', ['no-missing-quote-rule']],
  ])('%s: %j', (folder, kinds) => {
    expect(kindsOf(demoAgreement(folder))).toEqual(kinds);
  });
});
