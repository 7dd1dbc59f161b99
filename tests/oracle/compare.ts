/**
 * Where the product and the oracle differ on one load: every figure, unit, status, reason and date, as printed.
 * The words (`how`, `detail`) are the product's own; the printed rate is held to its rule instead.
 */
import { compare, multiply, parse, printTrimmed, type Rounding, rounded } from './fraction.ts';
import type { OracleLine, OracleLoad } from './oracle.ts';
import { printedRate } from './printed-rate.ts';

type Plain = Readonly<Record<string, unknown>>;

export interface Comparison {
  readonly decimals: number;
  readonly rounding: Rounding;
}

/** In words, each difference; none where all agree. */
export function differences(oracle: OracleLoad, product: Plain, by: Comparison): string[] {
  const { lines: expectedLines, ...expected } = 'lines' in oracle ? oracle : { ...oracle, lines: [] };
  const { lines, detail: _, ...rest } = product as Plain & { lines?: readonly Plain[] };
  const found: string[] = [];
  if (stable(expected) !== stable(rest)) found.push(`expected ${stable(expected)}\nproduct  ${stable(rest)}`);
  if ((lines ?? []).length !== expectedLines.length) {
    found.push(`expected ${expectedLines.length} lines, product has ${lines?.length}`);
  }
  for (const [index, line] of expectedLines.entries()) {
    found.push(...lineDifferences(line, lines?.[index] ?? {}, by));
  }
  return found;
}

function lineDifferences(line: OracleLine, product: Plain, by: Comparison): string[] {
  const { rate: exactRate, exact: _, ...expected } = line;
  const { rate, how, ...rest } = product;
  const found: string[] = [];
  if (stable(expected) !== stable(rest)) found.push(`expected ${stable(expected)}\nproduct  ${stable(rest)}`);
  if (typeof how !== 'string' || !/\d/.test(how)) found.push(`${line.label}: no derivation`);
  if (typeof rate !== 'string') return [...found, `${line.label}: no rate`];

  const wanted = printedRate(line, by.decimals, by.rounding);
  if (wanted !== undefined && wanted.length <= MOST_TRUE_PLACES && rate !== wanted) {
    found.push(`${line.label}: rate ${rate}, expected ${wanted}`);
  }
  const quantity = parse(line.quantity);
  if (quantity.n !== 0n) {
    const product = rounded(multiply(quantity, parse(rate)), by.decimals, by.rounding);
    if (compare(product, parse(line.amount)) !== 0) {
      found.push(
        `${line.label}: ${line.quantity} × ${rate} is not ${line.amount} (rate ${printTrimmed(exactRate, 20)})`,
      );
    }
  }
  return found;
}

/** A rate that needs more digits than this is the product's to choose, as long as it multiplies to the amount. */
const MOST_TRUE_PLACES = 16;

/** JSON with its keys in order, at any depth. */
function stable(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
