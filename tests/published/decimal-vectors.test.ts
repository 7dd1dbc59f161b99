/**
 * The number module against the General Decimal Arithmetic test vectors (M. Cowlishaw, IBM, 1981 to 2008, read), as
 * the Debian package libpython3.11-testsuite installs them. They are read where they lie and are not copied in.
 * Where they are not installed the checks are skipped; in continuous integration that is a failure instead.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkVector } from './check-vector.ts';
import { readVectors } from './decimal-vector-file.ts';

const FOLDER = '/usr/lib/python3.11/test/decimaltestdata';
const excused = !existsSync(FOLDER) && process.env['CI'] !== 'true';
const title = 'General Decimal Arithmetic vectors';

interface Tally {
  agreed: number;
  readonly outside: Map<string, number>;
  readonly differing: string[];
}

function tallyOf(file: string): Tally {
  const tally: Tally = { agreed: 0, outside: new Map(), differing: [] };
  for (const vector of readVectors(readFileSync(join(FOLDER, file), 'utf8'))) {
    const verdict = checkVector(vector);
    if ('agrees' in verdict) tally.agreed++;
    else if ('differs' in verdict) tally.differing.push(`${vector.id} ${verdict.differs}`);
    else tally.outside.set(verdict.outside, (tally.outside.get(verdict.outside) ?? 0) + 1);
  }
  return tally;
}

describe.skipIf(excused)(
  excused ? `${title}: skipped, since libpython3.11-testsuite is not installed (${FOLDER})` : title,
  () => {
    // A little under and over what version 2.59 of the files holds. Outside of the module are NaN and infinities,
    // exponents past 9,999, limits of precision and exponent, other rules of rounding, powers.
    test.each([
      ['quantize.decTest', 500, 260],
      ['rounding.decTest', 320, 720],
      ['add.decTest', 1400, 680],
      ['subtract.decTest', 490, 190],
      ['multiply.decTest', 220, 310],
      ['divide.decTest', 450, 180],
      ['compare.decTest', 510, 130],
    ] as const)('%s: at least %s cases agree, at most %s are outside, none differs', (file, least, most) => {
      const { agreed, outside, differing } = tallyOf(file);
      expect(differing).toEqual([]);
      expect(agreed).toBeGreaterThanOrEqual(least);
      const left = [...outside.values()].reduce((sum, count) => sum + count, 0);
      expect(left, JSON.stringify([...outside])).toBeLessThanOrEqual(most);
    });
  },
);
