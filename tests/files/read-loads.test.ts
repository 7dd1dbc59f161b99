/**
 * A large `loads.csv` is read a second time when its loads are settled, and refused if it changed in between.
 */
import { appendFile, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { zoneCalendar } from '../../src/domain/dates/instant.ts';
import type { InputProblem } from '../../src/files/input-problem.ts';
import { readLoads } from '../../src/files/read-loads.ts';
import { folderOf } from '../cli/run-cli.ts';

const ROW_COUNT = 5_000;
const ROWS = Array.from(
  { length: ROW_COUNT },
  (_, index) => `T${index},2026-09-14T21:40:00-06:00,${60_000 + index * 20},30000,lb,S1`,
);
const FILE = `ticket,delivered_at,gross,tare,unit,sample\n${ROWS.join('\n')}\n`;

async function readingOf(mostKept: number) {
  const path = join(await folderOf({ 'loads.csv': FILE }), 'loads.csv');
  const problems: InputProblem[] = [];
  const counts: number[] = [];
  const file = await readLoads(path, {
    rules: { calendar: zoneCalendar('America/Boise'), distanceNeeded: () => false },
    report: (problem) => problems.push(problem),
    warn: () => {},
    onLoads: (count) => counts.push(count),
    mostKept,
  });
  return { path, file, problems, counts };
}

async function ticketsAndNets(file: Awaited<ReturnType<typeof readLoads>>): Promise<string[]> {
  const found: string[] = [];
  for await (const batch of file.loads()) found.push(...batch.map(({ ticket, net }) => `${ticket} ${net.n}`));
  return found;
}

describe('loads.csv', () => {
  test('gives the same loads kept or read again, in file order, each time', async () => {
    const kept = await readingOf(ROW_COUNT);
    const again = await readingOf(10);
    expect([...kept.problems, ...again.problems]).toEqual([]);
    expect(again.file.ticketWidth).toBe(5);
    expect(again.counts.at(-1)).toBe(ROW_COUNT);
    const first = await ticketsAndNets(again.file);
    expect(first).toHaveLength(ROW_COUNT);
    expect(first[17]).toBe('T17 30340');
    expect(await ticketsAndNets(again.file)).toEqual(first);
    expect(await ticketsAndNets(kept.file)).toEqual(first);
  });

  test('is refused when it changed between the two readings', async () => {
    const { path, file } = await readingOf(10);
    await appendFile(path, 'T9999,2026-09-14T21:40:00-06:00,1,0,lb,S1\n');
    await expect(ticketsAndNets(file)).rejects.toThrow('has changed while it was being read');
    const touched = await readingOf(10);
    await utimes(touched.path, new Date(0), new Date(0));
    await expect(ticketsAndNets(touched.file)).rejects.toThrow('has changed');
  });
});
