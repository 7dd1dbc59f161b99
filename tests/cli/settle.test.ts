/**
 * `huskledger settle`: its table, JSON, CSV, explanation and exit statuses.
 */
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { AGREEMENT, seasonWith } from './example-season.ts';
import { folderOf, runCli } from './run-cli.ts';

describe('settle', () => {
  test('prints the worked example of the format to the last digit, and waits with status 2', async () => {
    const { status, output, said } = await runCli('settle', await folderOf(seasonWith()), '--json');
    expect(status).toBe(2);
    expect(said).toEqual([]);
    const { loads, ...document } = JSON.parse(output) as { loads: Record<string, unknown>[] };
    expect(document).toEqual({
      format: 'huskledger-settlements/1',
      agreement: 'A-26-014',
      currency: 'USD',
      total: '1986.85',
    });
    const [first, second] = loads;
    expect(Object.keys(first ?? {})).toEqual([
      'ticket',
      'status',
      'deliveredOn',
      'net',
      'dryMatter',
      'references',
      'lines',
      'total',
    ]);
    expect(first).toMatchObject({
      ticket: 'T1',
      status: 'settled',
      deliveredOn: '2026-09-14',
      net: { pounds: '47120' },
      dryMatter: { pounds: '27895.04' },
      references: { corn: { price: '4.05', quote: '4.2', quotedOn: ['2026-09-14'] } },
      lines: [
        {
          label: 'Grain, by its starch',
          quantity: '21215.945915',
          unit: 'lb',
          rate: '0.0855875',
          amount: '1815.82',
        },
        {
          label: 'Cob, husk and other fibre',
          quantity: '6679.094085',
          unit: 'lb',
          rate: '0.0513525',
          amount: '342.99',
        },
        {
          label: 'Fibre above range',
          quantity: '13.94752',
          unit: 'short-ton',
          rate: '-5.15',
          amount: '-71.83',
        },
        { label: 'Hauling', quantity: '23.56', unit: 'short-ton', rate: '-4.25', amount: '-100.13' },
      ],
      total: '1986.85',
    });
    expect(second).toMatchObject({
      ticket: 'T2',
      status: 'waiting',
      reason: 'no-result',
      detail: expect.stringContaining('S2'),
      deliveredOn: '2026-09-15',
      net: { pounds: '46820' },
    });
    expect(second).not.toHaveProperty('dryMatter');
  });

  test('ends with 0 once every load has settled or was refused', async () => {
    const samples =
      'sample,basis,dry_matter,starch,ndf\nS1,dry-matter,59.2,54,31.34\nS2,dry-matter,49.5,50,30\n';
    const folder = await folderOf(
      seasonWith({ 'samples.csv': samples, 'choices.csv': 'ticket,choice\nT2,refuse\n' }),
    );
    const { status, output } = await runCli('settle', folder);
    expect(status).toBe(0);
    expect(output).toMatch(/T2 .*refused/);
    expect(output).toContain('1 settled, 1 refused, 0 waiting');
  });

  test('prints a table with every load, the reason of a waiting one, and totals', async () => {
    const { output } = await runCli('settle', await folderOf(seasonWith()));
    expect(output).toMatch(/T1 +2026-09-14 +47,120 +59\.20 +54\.00 +4\.05 +1,986\.85/);
    expect(output).toMatch(
      /T2 +2026-09-15 +46,820 .*waits \(no-result\): There is no result of sample S2 yet/,
    );
    expect(output).toMatch(/Total +47,120 +59\.20 +1,986\.85/);
  });

  test('prints CSV that a spreadsheet can open without running it', async () => {
    const price = AGREEMENT.price.map((term) => ({
      ...term,
      label: term.term === 'flat' ? '=HYPERLINK("x")' : term.label,
    }));
    const folder = await folderOf(seasonWith({ 'agreement.json': JSON.stringify({ ...AGREEMENT, price }) }));
    const { output } = await runCli('settle', folder, '--csv');
    const [head, first] = output.split('\r\n');
    expect(head).toContain('"\'=HYPERLINK(""x"")"');
    expect(first).toBe(
      'T1,settled,,,2026-09-14,78220,31100,47120,lb,47120,S1,,27895.04,59.2,USD,1986.85,1815.82,342.99,-71.83,-100.13',
    );
  });

  test('gives every CSV row as many cells as the header, whatever became of the load', async () => {
    const { output } = await runCli('settle', await folderOf(seasonWith()), '--csv');
    const rows = output.trimEnd().split('\r\n').slice(1);
    expect(rows).toHaveLength(2);
    for (const row of parse(rows.join('\n')) as string[][]) expect(row).toHaveLength(20);
  });

  test('explains a load in figures that add up', async () => {
    const { output, status } = await runCli('settle', await folderOf(seasonWith()), '--explain', 'T1');
    expect(status).toBe(0);
    expect(output).toContain('gross 78220 − tare 31100 = net 47120 lb');
    expect(output).toContain(
      '47120 lb × 59.2 % × 54 % ÷ 71 % × 4.05 ÷ 56 ÷ 84.5 % = 1815.819546867… → 1815.82 USD',
    );
    expect(output).toContain('4 × −0.80 + 1.3 × −1.50 = −5.15 USD per short ton of dry matter');
    expect(output).toContain('Total: 1815.82 + 342.99 − 71.83 − 100.13 = 1986.85 USD');
  });

  test.each([
    [['settle'], 'Name one folder'],
    [['settle', 'a', 'b'], 'Name one folder'],
    [['settle', '.', '--json', '--csv'], 'Choose one of'],
    [['settle', '.', '--by', 'day'], 'go with --pdf'],
    [['settle', '.', '--pdf', 'x.pdf', '--by', 'week'], '--by takes load, day, season'],
    [['settle', '.', '--pdf', 'x.pdf', '--issued', '2026-02-30'], '--issued takes a date'],
    [['settle', '.', '--frob'], '--frob'],
    [['frob'], 'There is no command "frob"'],
  ])('says how to use it: %j', async (args, message) => {
    const { status, output, said } = await runCli(...args);
    expect(status).toBe(1);
    expect(output).toBe('');
    expect(said.join('\n')).toContain(message);
    expect(said.join('\n')).not.toMatch(/\bat .*:\d+:\d+/);
  });

  test('says which ticket it does not know', async () => {
    const { status, said } = await runCli('settle', await folderOf(seasonWith()), '--explain', 't1');
    expect(status).toBe(1);
    expect(said).toEqual(['loads.csv has no ticket "t1". Tickets are compared letter by letter.']);
  });
});
