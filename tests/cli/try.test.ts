/**
 * `huskledger try` and `huskledger words`: what a formula does, before anyone signs it.
 */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { AGREEMENT, seasonWith } from './example-season.ts';
import { folderOf, runCli } from './run-cli.ts';

async function agreementFile(document: unknown = AGREEMENT): Promise<string> {
  return join(await folderOf({ 'agreement.json': JSON.stringify(document) }), 'agreement.json');
}

const GRID = ['--starch', '50:64:2', '--ndf', '20:32:4', '--dry-matter', '58', '--price', '4.25'];

/** The cells of the table under a heading, by its row's first figure. */
function tableUnder(output: string, heading: string): Map<string, string[]> {
  const lines = output.slice(output.indexOf(heading)).split('\n').slice(2);
  const rows = lines.slice(0, lines.indexOf('')).map((line) => line.trim().split(/\s{2,}/));
  return new Map(rows.map(([first = '', ...rest]) => [first, rest]));
}

describe('try', () => {
  test('prints the price per ton, as fed and dry, over a grid of starch and NDF', async () => {
    const { status, output } = await runCli('try', await agreementFile(), ...GRID);
    expect(status).toBe(0);
    const wet = tableUnder(output, 'USD per short ton as fed');
    const dry = tableUnder(output, 'USD per short ton of dry matter');
    expect([...wet.keys()]).toEqual(['starch \\ NDF', '50', '52', '54', '56', '58', '60', '62', '64']);
    expect(wet.get('starch \\ NDF')).toEqual(['20', '24', '28', '32']);
    // By hand, 54 % starch, 20 % NDF: R 4.10, so 0.0866441… a pound of dry matter; 1,160 lb of it in a short ton at
    // (54/71 + (1 − 54/71) × 0.6) make 90.879; less 4.25 haul is 86.63; ÷ 0.58 is 149.36.
    expect(wet.get('54')?.[0]).toBe('86.63');
    expect(dry.get('54')?.[0]).toBe('149.36');
    // 32 % NDF is 6 points over: 4 × 0.80 + 2 × 1.50 = 6.20 a dry ton, 3.596 a wet one.
    expect(wet.get('54')?.[3]).toBe('83.04');
  });

  test('takes moisture for dry matter, and one figure where there is no range', async () => {
    const { output } = await runCli(
      'try',
      await agreementFile(),
      '--starch',
      '54',
      '--ndf',
      '20',
      '--moisture',
      '42',
      '--price',
      'corn=4.25',
    );
    expect(output).toContain('moisture 42 % as-fed');
    expect(output).toMatch(/Price\n +86\.63\n/);
  });

  test('marks feed that cannot be, and says why', async () => {
    const { output } = await runCli(
      'try',
      await agreementFile(),
      '--starch',
      '60:80:20',
      '--ndf',
      '30',
      '--dry-matter',
      '58',
      '--price',
      '4.25',
    );
    expect(output).toMatch(/80 +–/);
    expect(output).toContain('–  no price: starch and NDF together pass 100 % of dry matter');
  });

  test('speaks of tonnes where the agreement does, and needs the haul that it prices', async () => {
    const price = [
      AGREEMENT.price[0],
      { term: 'flat', label: 'Hauling', rate: '-1.50', per: 'km' },
      { term: 'flat', label: 'Chopping', rate: '2', per: 'tonne', weight: 'as-fed' },
    ];
    const file = await agreementFile({ ...AGREEMENT, price });
    const figures = ['--starch', '54', '--dry-matter', '58', '--price', '4.25'];
    const without = await runCli('try', file, ...figures);
    expect(without.status).toBe(1);
    expect(without.said).toEqual(['This formula has a price per distance: --distance is missing.']);
    const { output } = await runCli('try', file, ...figures, '--distance', '12');
    expect(output).toContain('USD per tonne as fed');
    expect(output).toContain('a load of 22,000 kg, hauled 12 km');
  });

  test.each([
    [[], '--dry-matter is missing'],
    [['--dry-matter', '58'], 'This formula needs --starch, --ndf too.'],
    [['--dry-matter', '58', '--moisture', '42', '--starch', '54', '--ndf', '20'], 'not both'],
    [['--dry-matter', '58', '--starch', '54', '--ndf', '20'], 'A price is missing: --price corn=4.25'],
    [
      ['--dry-matter', '58', '--starch', '54', '--ndf', '20', '--price', 'barley=3'],
      'the reference prices that follow a series are corn',
    ],
    [
      ['--dry-matter', '58', '--starch', '54', '--ndf', '20', '--price', '$4'],
      '--price must be a number like 4.25; found "$4"',
    ],
    [['--dry-matter', '58', '--starch', '54:50:2', '--ndf', '20', '--price', '4'], '--starch must rise'],
    [
      ['--dry-matter', '58', '--starch', '50:54', '--ndf', '20', '--price', '4'],
      '--starch must be a figure like 58, or from:to:step',
    ],
    [
      ['--dry-matter', '58', '--starch', '0:100:1', '--ndf', '20', '--price', '4'],
      '--starch has more than 40 steps',
    ],
    [
      ['--dry-matter', '50:60:5', '--starch', '50:54:2', '--ndf', '20:24:2', '--price', '4'],
      'At most two of the figures can be ranges',
    ],
  ])('says what is missing or wrong: %j', async (options, message) => {
    const { status, output, said } = await runCli('try', await agreementFile(), ...options);
    expect(status).toBe(1);
    expect(output).toBe('');
    expect(said.join('\n')).toContain(message);
  });

  test('lists the faults of an agreement', async () => {
    const { status, said } = await runCli(
      'try',
      await agreementFile({ ...AGREEMENT, rounding: 'up', buyer: '' }),
      ...GRID,
    );
    expect(status).toBe(1);
    expect(said).toHaveLength(2);
  });
});

describe('words', () => {
  test('says an agreement in sentences, from its folder or its file', async () => {
    const folder = await folderOf(seasonWith());
    const { status, output } = await runCli('words', folder);
    expect(status).toBe(0);
    const text = output.replace(/\s+/g, ' ');
    expect(text).toContain('Quillback Acres sells and Tarn Hollow Dairy buys whole-ear corn');
    expect(text).toContain('at 60 % of what the corn price comes to per pound of dry matter');
    expect(text).toContain(
      'for each of the first 4 points 0.80 USD is taken off and for each further point 1.50 USD is taken off',
    );
    expect(text).toContain('moisture (% as-fed) below 32 or above 50. The limits themselves are inside');
    expect((await runCli('words', join(folder, 'agreement.json'))).output).toBe(output);
  });

  test('warns of a formula that pays for the same matter twice', async () => {
    const price = [
      { ...AGREEMENT.price[0], of: 'starch', at: { reference: 'corn', per: 'starch' } },
      { ...AGREEMENT.price[1], after: ['starch'] },
    ];
    // Starch carries the whole grain, 100 %, and the 29 % that is not starch earns 60 % once more: 117.4 %.
    const { output } = await runCli('words', await agreementFile({ ...AGREEMENT, price }));
    expect(output.replace(/\s+/g, ' ')).toContain(
      'The formula pays 117.4 % of the corn price for that grain itself',
    );
  });
});
