/**
 * Wrong input: every fault is named with its file, line and column and what was expected; nothing is written.
 */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { AGREEMENT, LOADS, PRICES, SAMPLES, seasonWith } from './example-season.ts';
import { filesIn, folderOf, runCli } from './run-cli.ts';

const ELECTED = {
  ...AGREEMENT.references['corn'],
  rule: { kind: 'seller-elects', from: '2026-09-01', to: '2026-11-30' },
};

describe('a folder with faults', () => {
  test('of 12 different kinds lists all 12, ends with 1 and writes nothing', async () => {
    const agreement = structuredClone(AGREEMENT) as unknown as {
      currency: string;
      price: { rate?: string | number; at?: { reference: string } }[];
    };
    agreement.currency = 'USX';
    agreement.price = agreement.price.map((term, index) => (index === 3 ? { ...term, rate: -4.25 } : term));
    const folder = await folderOf({
      'agreement.json': JSON.stringify(agreement, undefined, 2),
      'loads.csv': [
        'ticket,delivered_at,gross,tare,unit,sample',
        'T1,2026-09-14T21:40:00-06:00,78220,31100,lb,S1',
        'T2,2026-09-14T22:10:00,78220,31100,lb,S1',
        'T3,2026-09-15T06:10:00-06:00,31100,78220,lb,S1',
        'T1,2026-09-15T07:10:00-06:00,78220,31100,lb,S1',
        'T5,2026-09-15T08:10:00-06:00,"78,220",31100,stone,S1',
      ].join('\n'),
      'samples.csv': [
        'sample,basis,dry_matter,starch,ndf,adf',
        'S1,dry-matter,59.2,74,31.34,12',
        'S2,dry-matter,0,54,30,12',
      ].join('\n'),
      'prices.csv': 'series,date,price\ncorn-elevator-bid,2026-02-30,4.20\ncorn-elevator-bid,2026-09-14,-4\n',
      'choices.csv': 'ticket,choice\nT9,refuse\n',
    });
    const out = join(folder, 'invoices.pdf');
    const before = await filesIn(folder);
    const { status, output, said } = await runCli('settle', folder, '--json', '--pdf', out);
    expect(status).toBe(1);
    expect(output).toBe('');
    expect(await filesIn(folder)).toEqual(before);
    expect(said).toEqual([
      expect.stringMatching(
        /^agreement\.json, \$\.currency, line 7, column 3: must be an ISO 4217 code.*found "USX"$/,
      ),
      expect.stringMatching(
        /^agreement\.json, \$\.price\[3\]\.rate, line 79, column 7: must be a number in quotes.*found the bare number -4\.25$/,
      ),
      expect.stringMatching(/^loads\.csv, line 3, column delivered_at: must be a time with its offset/),
      expect.stringMatching(
        /^loads\.csv, line 4, column tare: must be below the gross weight of 31100; found 78220$/,
      ),
      expect.stringMatching(
        /^loads\.csv, line 5, column ticket: must be its own; T1 stands on line 2 already$/,
      ),
      expect.stringMatching(
        /^loads\.csv, line 6, column gross: must be a number of 0 or more.*found "78,220"$/,
      ),
      expect.stringMatching(
        /^loads\.csv, line 6, column unit: must be one of lb, kg, short-ton, tonne; found "stone"$/,
      ),
      expect.stringMatching(
        /^samples\.csv, line 2, column ndf: and starch together are 105\.34 % of dry matter/,
      ),
      expect.stringMatching(
        /^samples\.csv, line 3, column dry_matter: must be a percentage above 0.*found "0"$/,
      ),
      expect.stringMatching(
        /^prices\.csv, line 2, column date: must be a date on the calendar.*found "2026-02-30"$/,
      ),
      expect.stringMatching(/^prices\.csv, line 3, column price: must be a number of 0 or more.*found "-4"$/),
      expect.stringMatching(
        /^choices\.csv, line 2, column ticket: must be a ticket of loads\.csv; there is no "T9"$/,
      ),
      '12 problems; nothing was settled.',
    ]);
  });

  const [, ...rows] = LOADS.trimEnd().split('\n');
  const head = 'ticket,delivered_at,gross,tare,unit,sample';
  const binary = new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 8, 0, 0xff, 0xfe]);
  test.each<[string, Record<string, string | Uint8Array | undefined>, string]>([
    ['loads.csv missing', { 'loads.csv': undefined }, 'loads.csv: is not there'],
    ['agreement.json missing', { 'agreement.json': undefined }, 'agreement.json: is not there'],
    ['an empty loads.csv', { 'loads.csv': '' }, 'loads.csv: is empty; its first line must name the columns'],
    [
      'an empty agreement',
      { 'agreement.json': ' \n' },
      'agreement.json: is empty; it must hold an agreement',
    ],
    ['a binary file', { 'loads.csv': binary }, 'loads.csv, line 1: is not a text file (it holds zero bytes)'],
    [
      'an old code page',
      { 'samples.csv': new Uint8Array([...Buffer.from(SAMPLES), 0xe9, 0x0a]) },
      'samples.csv: is not UTF-8 text',
    ],
    [
      'semicolons',
      { 'loads.csv': LOADS.replaceAll(',', ';') },
      'loads.csv, line 1: is separated by semicolons',
    ],
    [
      'an unknown column',
      { 'prices.csv': PRICES.replace('price', 'prise') },
      'prices.csv, line 1, column prise: is not known',
    ],
    [
      'a missing column',
      { 'loads.csv': 'ticket,gross\n' },
      'loads.csv, line 1, column delivered_at: is missing from the header',
    ],
    ['a column twice', { 'loads.csv': `${head},gross\n` }, 'loads.csv, line 1, column gross: stands twice'],
    [
      'a ticket that would turn a terminal red',
      { 'loads.csv': `${head}\n\u001b[31mT1,2026-09-14T21:40:00-06:00,78220,31100,lb,S1\n` },
      'loads.csv, line 2, column ticket: must be plain text, without control characters; found "\\u001b[31mT1"',
    ],
    [
      'a short row',
      { 'loads.csv': `${head}\nT1,2026-09-14T21:40:00-06:00,78220\n` },
      'loads.csv, line 2: has 3 cells; the header has 6 columns',
    ],
    [
      'a stray quote',
      { 'loads.csv': `${head}\nT"1,x,1,0,lb,S1\n${rows.join('\n')}\n` },
      'loads.csv, line 2: has a quote out of place',
    ],
    [
      'an open quote',
      { 'loads.csv': `${head}\n"T1,x,1,0,lb,S1\n${rows.join('\n')}\n` },
      'loads.csv, line 2: has a quote that is never closed',
    ],
    [
      'a line of 10 MB',
      { 'loads.csv': `${head}\n${'x'.repeat(10_000_000)},a,1,0,lb,S1\n${rows.join('\n')}\n` },
      'loads.csv, line 2: is longer than 1000000 characters',
    ],
    [
      'broken JSON',
      { 'agreement.json': '{ "format": "huskledger-agreement/1",, }' },
      'agreement.json, line 1, column 38: is not JSON here',
    ],
    [
      'JSON nested without end',
      { 'agreement.json': `{"conditions":${'['.repeat(50_000)}` },
      'agreement.json, line 1, column 46: has more than 32 groups and lists within one another',
    ],
    [
      'a key that readers of JSON pass over',
      {
        'agreement.json': JSON.stringify(AGREEMENT).replace('"ndf":', '"__proto__":{"decimals":"9"},"ndf":'),
      },
      'agreement.json, $.tests.__proto__',
    ],
    [
      'a bare number among conditions',
      { 'agreement.json': JSON.stringify({ ...AGREEMENT, conditions: { days: ['net', { late: 30 }] } }) },
      '$.conditions.days[1].late, line 1, column',
    ],
    [
      'an election outside its window',
      {
        'agreement.json': JSON.stringify({ ...AGREEMENT, references: { corn: ELECTED } }),
        'elections.csv': 'ticket,series,date\nT1,corn-elevator-bid,2026-08-31\n',
      },
      'elections.csv, line 2, column date: must be from 2026-09-01 to 2026-11-30, the agreed window of corn; found 2026-08-31',
    ],
    [
      'a comment in JSON',
      { 'agreement.json': `// ours\n${JSON.stringify(AGREEMENT)}` },
      'agreement.json, line 1, column 1: is not JSON here',
    ],
    [
      'a key twice',
      { 'agreement.json': JSON.stringify(AGREEMENT).replace('"id":', '"buyer":"Other","id":') },
      'agreement.json, $.buyer',
    ],
    [
      'JSON of another kind',
      { 'agreement.json': '[1]' },
      'agreement.json, $, line 1, column 1: must be a group in braces',
    ],
    [
      'a sample twice',
      { 'samples.csv': `${SAMPLES}S1,dry-matter,60,54,31\n` },
      'samples.csv, line 3, column sample: must not be repeated; S1 stands on line 2 already',
    ],
    [
      'a quote twice',
      { 'prices.csv': `${PRICES}corn-elevator-bid,2026-09-15,4.30\n` },
      'prices.csv, line 4, column series and date: must not be repeated',
    ],
    [
      'ADF above NDF',
      { 'samples.csv': 'sample,basis,dry_matter,starch,ndf,adf\nS1,dry-matter,59.2,54,20,21\n' },
      'samples.csv, line 2, column adf: must not be above NDF',
    ],
    [
      'as-fed beyond the dry matter',
      { 'samples.csv': 'sample,basis,dry_matter,starch,ndf\nS1,as-fed,50,54,20\n' },
      'samples.csv, line 2, column starch: is 108 % of dry matter',
    ],
    [
      'a percentage above 100',
      { 'samples.csv': 'sample,basis,dry_matter,starch\nS1,dry-matter,50,100.1\n' },
      'samples.csv, line 2, column starch: must be a percentage from 0 to 100',
    ],
    [
      'a basis of another name',
      { 'samples.csv': 'sample,basis,dry_matter\nS1,wet,50\n' },
      'samples.csv, line 2, column basis: must be one of as-fed, dry-matter; found "wet"',
    ],
    [
      'a choice of another name',
      { 'choices.csv': 'ticket,choice\nT1,maybe\n' },
      'choices.csv, line 2, column choice: must be one of accept, refuse',
    ],
    [
      'an election of an unknown load',
      { 'elections.csv': 'ticket,series,date\nX,corn,2026-09-14\n' },
      'elections.csv, line 2, column ticket: must be a ticket of loads.csv',
    ],
    [
      'a number in scientific notation',
      { 'loads.csv': `${head}\nT1,2026-09-14T21:40:00-06:00,7.8e4,31100,lb,S1\n` },
      'loads.csv, line 2, column gross: must be a number',
    ],
    [
      'an impossible day',
      { 'loads.csv': `${head}\nT1,2026-02-29T21:40:00-06:00,78220,31100,lb,S1\n` },
      'a date on the calendar; 2026-02-29 is not',
    ],
    [
      'both miles and km',
      { 'loads.csv': `${head},miles,km\n` },
      'loads.csv, line 1, column km: stands beside "miles"',
    ],
  ])('says what to do about %s', async (_, files, message) => {
    const { status, output, said } = await runCli('settle', await folderOf(seasonWith(files)));
    expect(status).toBe(1);
    expect(output).toBe('');
    expect(said.join('\n')).toContain(message);
    expect(said.join('\n')).not.toMatch(/\bat .*:\d+:\d+/);
  });

  test('finds the faults on either side of a record that is no CSV', async () => {
    const loads = `${head}\nT1,2026-09-14T21:40:00,1,0,lb,S1\nT"2,x,1,0,lb,S1\nT3,2026-09-14T21:40:00-06:00,1,2,lb,S1\n`;
    const { said } = await runCli('settle', await folderOf(seasonWith({ 'loads.csv': loads })));
    expect(said.map((line) => line.split(':')[0])).toEqual([
      'loads.csv, line 2, column delivered_at',
      'loads.csv, line 3',
      'loads.csv, line 4, column tare',
      '3 problems; nothing was settled.',
    ]);
  });

  test('blames no election or choice for a loads.csv that could not be read', async () => {
    const files = {
      'loads.csv': LOADS.replaceAll(',', ';'),
      'choices.csv': 'ticket,choice\nT1,refuse\nT2,refuse\n',
    };
    const { said } = await runCli('settle', await folderOf(seasonWith(files)));
    expect(said).toHaveLength(2);
    expect(said[0]).toContain('separated by semicolons');
  });

  test('says so of a folder that is not there', async () => {
    const { status, said } = await runCli('settle', '/nowhere/at/all');
    expect(status).toBe(1);
    expect(said[0]).toMatch(/^\/nowhere\/at\/all: is not a folder that can be read/);
  });
});

describe('unusual files that are right', () => {
  const expected = '1986.85';
  const bom = '\uFEFF';
  test.each<[string, Record<string, string | undefined>]>([
    [
      'a byte-order mark',
      {
        'loads.csv': bom + LOADS,
        'samples.csv': bom + SAMPLES,
        'agreement.json': bom + JSON.stringify(AGREEMENT),
      },
    ],
    ['CRLF', { 'loads.csv': LOADS.replaceAll('\n', '\r\n'), 'prices.csv': PRICES.replaceAll('\n', '\r\n') }],
    ['no line break at the end', { 'loads.csv': LOADS.trimEnd(), 'samples.csv': SAMPLES.trimEnd() }],
    ['blank lines', { 'loads.csv': LOADS.replaceAll('\n', '\n\n') }],
    [
      'blanks around cells',
      { 'samples.csv': 'sample , basis,dry_matter , starch,ndf\n S1 , dry-matter , 59.2 , 54 , 31.34 \n' },
    ],
    [
      'quoted cells',
      {
        'samples.csv':
          '"sample","basis","dry_matter","starch","ndf"\n"S1","dry-matter","59.2","54","31.34"\n',
      },
    ],
    [
      'columns in another order',
      {
        'prices.csv':
          'price,series,date\n4.20,corn-elevator-bid,2026-09-14\n4.25,corn-elevator-bid,2026-09-15\n',
      },
    ],
    [
      'quotes in another order',
      {
        'prices.csv':
          'series,date,price\ncorn-elevator-bid,2026-09-15,4.25\ncorn-elevator-bid,2026-09-14,4.20\n',
      },
    ],
  ])('are read alike: %s', async (_, files) => {
    const { status, output, said } = await runCli('settle', await folderOf(seasonWith(files)), '--json');
    expect(said).toEqual([]);
    expect(status).toBe(2);
    expect((JSON.parse(output) as { total: string }).total).toBe(expected);
  });

  test('quoted commas and line breaks stay in their cell, and lines are counted through them', async () => {
    const loads = `ticket,delivered_at,gross,tare,unit,sample,truck\n"T,1",2026-09-14T21:40:00-06:00,78220,31100,lb,S1,"Truck\n4, ""blue"""\nT2,never,1,0,lb,S1,\n`;
    const { said } = await runCli('settle', await folderOf(seasonWith({ 'loads.csv': loads })));
    expect(said[0]).toMatch(/^loads\.csv, line 4, column delivered_at/);
  });
});

describe('things to check that stop nothing', () => {
  test('are said on standard error: sums above 100, gaps, unquoted series, files that are not read, overpricing', async () => {
    const price = [
      ...AGREEMENT.price.slice(0, 1),
      { ...AGREEMENT.price[1], after: [] },
      ...AGREEMENT.price.slice(2),
    ];
    const folder = await folderOf(
      seasonWith({
        'agreement.json': JSON.stringify({ ...AGREEMENT, price }),
        'samples.csv': 'sample,basis,dry_matter,starch,ndf,crude_protein\nS1,dry-matter,59.2,54,31.34,16\n',
        'prices.csv': 'series,date,price\nother,2026-08-01,1\nother,2026-09-14,1\n',
        'sample.csv': 'x',
      }),
    );
    const { status, said } = await runCli('settle', folder, '--json');
    expect(status).toBe(2);
    expect(said).toEqual([
      expect.stringContaining('sample.csv: is not read'),
      expect.stringMatching(/samples\.csv, line 2: sample S1: .* together are 101\.34 % of dry matter/),
      expect.stringContaining('other has no quote for 44 days, from 2026-08-01 to 2026-09-14'),
      expect.stringContaining('no quote names the series corn-elevator-bid'),
      expect.stringContaining('The formula pays 160 % of the corn price for that grain itself'),
    ]);
  });

  test('are said of an election that no reference takes', async () => {
    const elections = 'ticket,series,date\nT1,corn,2026-09-14\n';
    const unasked = await runCli('settle', await folderOf(seasonWith({ 'elections.csv': elections })));
    expect(unasked.said).toEqual([
      'Please check: elections.csv, line 2: corn is elected for but not used; no reference of the agreement lets the seller elect',
    ]);
    const agreement = JSON.stringify({ ...AGREEMENT, references: { corn: ELECTED } });
    const files = { 'agreement.json': agreement, 'elections.csv': elections };
    const misspelt = await runCli('settle', await folderOf(seasonWith(files)));
    expect(misspelt.said.join()).toContain('the seller elects for corn-elevator-bid');
  });

  test('are said of matter that two references to one series pay for twice', async () => {
    const { corn } = AGREEMENT.references;
    const price = AGREEMENT.price.map((term, index) =>
      index === 1 ? { ...term, after: [], at: { reference: 'fibre', per: 'dry-matter' } } : term,
    );
    const agreement = { ...AGREEMENT, references: { corn, fibre: { ...corn, basis: '0' } }, price };
    const folder = await folderOf(seasonWith({ 'agreement.json': JSON.stringify(agreement) }));
    const words = (await runCli('words', folder)).output.replace(/\s+/g, ' ');
    expect(words).toContain('Please check: The formula pays 160 % of the corn price for that grain itself');
    expect((await runCli('settle', folder)).said).toHaveLength(2);
  });

  test('are said of weights, quotes and files that look mistyped', async () => {
    const prices =
      'series,date,price\ncorn-elevator-bid,2026-09-14,4.20\ncorn-elevator-bid,2026-09-15,42.5\n';
    const loads = LOADS.replace('78220,31400,lb', '782200,31400,lb');
    const folder = await folderOf(seasonWith({ 'prices.csv': prices, 'loads.csv': loads }));
    expect((await runCli('settle', folder, '--json')).said).toEqual([
      'Please check: prices.csv: corn-elevator-bid goes from 4.2 on 2026-09-14 to 42.5 on 2026-09-15; is a price mistyped?',
      'Please check: loads.csv, line 3: T2 weighs 750800 lb net, which no usual truck does; is a weight or its unit mistyped?',
    ]);
    const empty = await runCli(
      'settle',
      await folderOf(seasonWith({ 'loads.csv': 'ticket,delivered_at,gross,tare,unit,sample\n' })),
    );
    expect(empty.said).toEqual(['Please check: loads.csv: names no load yet']);
  });

  test('are said of percentages that a spreadsheet wrote as fractions', async () => {
    const references = { corn: { ...AGREEMENT.references['corn'], dryMatterPercent: '0.845' } };
    const folder = await folderOf(
      seasonWith({
        'agreement.json': JSON.stringify({ ...AGREEMENT, references }),
        'samples.csv': SAMPLES.replace('59.2', '0.592'),
      }),
    );
    const { said } = await runCli('settle', folder, '--json');
    expect(said).toEqual([
      expect.stringContaining('sample S1: dry matter 0.592 %; was a percentage like 59.2 meant?'),
      expect.stringContaining('the dry matter of corn is 0.845 %; was 84.5 % meant?'),
    ]);
  });
});
