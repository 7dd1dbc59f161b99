/**
 * Every demo season settles to the figures in `demo/expected`, which the oracle worked out, without a warning.
 */
import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { runCli } from './cli/run-cli.ts';

const DEMO = join(dirname(fileURLToPath(import.meta.url)), '..', 'demo');

interface Load {
  readonly ticket: string;
  readonly status: string;
  readonly reason?: string;
  readonly total?: string;
  readonly lines?: readonly { readonly amount: string }[];
}

describe('the demo', () => {
  test.each([
    ['quillback-tarn-hollow', 120],
    ['feldmark-metric', 40],
    ['bushels-dry', 40],
    ['paid-by-week', 20],
    ['asked-again', 15],
  ])('%s comes to its expected figures', async (name, leastLoads) => {
    const { status, output, said } = await runCli('settle', join(DEMO, name), '--json');
    expect(said).toEqual([]);
    expect(status).toBe(2);
    const settled = JSON.parse(output) as { loads: Load[]; total: string };
    const rows = settled.loads.map((load) =>
      [
        load.ticket,
        load.status,
        load.reason,
        load.total,
        load.lines?.map(({ amount }) => amount).join(' '),
      ].join(','),
    );
    const expected = await readFile(join(DEMO, 'expected', `${name}.csv`), 'utf8');
    expect(settled.loads.length).toBeGreaterThanOrEqual(leastLoads);
    expect([...rows, `all loads,,,${settled.total},`]).toEqual(expected.trimEnd().split('\n').slice(1));
  });
});
