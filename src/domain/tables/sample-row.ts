/**
 * A row of `samples.csv` as a laboratory's result, with the checks that figures must pass to be figures of one sample.
 */
import { CONSTITUENTS, type Tested } from '../agreement/measures.ts';
import { add, compare, decimal, type Exact, HUNDRED, isZero, ZERO } from '../numbers/exact.ts';
import { printWithEllipsis } from '../numbers/printing.ts';
import { type Basis, type LabResult, onDryMatter } from '../samples/lab-result.ts';
import type { Row } from './row.ts';
import { columnOf, found, MEASURE_COLUMNS } from './table-shape.ts';

const BASES: readonly Basis[] = ['as-fed', 'dry-matter'];
const PERCENTAGES: ReadonlySet<Tested> = new Set<Tested>([...CONSTITUENTS, 'ammonia-nitrogen']);
const HIGHEST_PH = decimal('14');
/** Fibre holds some protein and ash, so together they may pass 100 % a little without being wrong. */
const SUMMED: readonly Tested[] = ['starch', 'ndf', 'crude-protein', 'crude-fat', 'ash'];

/**
 * The measures that a `samples.csv` reports beside dry matter, in the order of its header. One list serves all its
 * results.
 */
export function reportedMeasures(header: readonly string[]): Tested[] {
  return header.flatMap((column) => {
    const measure = MEASURE_COLUMNS.get(column);
    return measure === undefined || measure === 'dry-matter' ? [] : [measure];
  });
}

/** The result, or undefined where the row has faults (which the row then holds). */
export function readSampleRow(row: Row, reported: readonly Tested[]): LabResult | undefined {
  const sample = row.name('sample');
  const basis = row.word('basis', BASES);
  const dryMatter = readDryMatter(row);
  const figures = reported.map((measure) => readFigure(row, measure));
  if (row.problems.length > 0 || !basis || !dryMatter) return undefined;

  const result: LabResult = { sample, basis, dryMatter, reported, figures };
  checkConversion(row, result);
  return row.problems.length > 0 ? undefined : result;
}

/** Wetter feed than this is not hauled; a spreadsheet writes 0.592 for 59.2 %. */
const LEAST_USUAL_DRY_MATTER = decimal('15');

/** A note where the dry matter is so small that a percentage was probably written as a fraction. */
export function warnOfDryMatter({ sample, dryMatter }: LabResult): string | undefined {
  if (compare(dryMatter, LEAST_USUAL_DRY_MATTER) >= 0) return undefined;
  const shown = printWithEllipsis(dryMatter);
  return `sample ${sample}: dry matter ${shown} %; was a percentage like 59.2 meant?`;
}

/** A note where the solids together pass 100 % of dry matter; nothing is refused for it. */
export function warnOfSum(result: LabResult): string | undefined {
  let sum = ZERO;
  for (const measure of SUMMED) sum = add(sum, onDryMatter(result, measure) ?? ZERO);
  if (compare(sum, HUNDRED) <= 0) return undefined;
  return `sample ${result.sample}: starch, NDF, protein, fat and ash together are ${printWithEllipsis(sum, 4)} % of dry matter, above 100`;
}

function readDryMatter(row: Row): Exact | undefined {
  const dryMatter = row.optionalPercent('dry_matter');
  if (dryMatter && !isZero(dryMatter)) return dryMatter;
  if (row.problems.some(({ column }) => column === 'dry_matter')) return undefined;
  return row.fault('dry_matter', `must be a percentage above 0, as-fed; ${found(row.text('dry_matter'))}`);
}

function readFigure(row: Row, measure: Tested): Exact | undefined {
  const column = columnOf(measure);
  if (PERCENTAGES.has(measure)) return row.optionalPercent(column);
  const figure = row.optionalAmount(column);
  if (measure === 'ph' && figure && compare(figure, HIGHEST_PH) > 0) {
    return row.fault(column, `must be a pH from 0 to 14; ${found(row.text(column))}`);
  }
  return figure;
}

/** What as-fed figures come to on dry matter must still be parts of it. */
function checkConversion(row: Row, result: LabResult): void {
  const converted = result.basis === 'as-fed' ? ' once the as-fed figures are divided by the dry matter' : '';
  for (const measure of CONSTITUENTS) {
    const share = onDryMatter(result, measure);
    if (share && compare(share, HUNDRED) > 0) {
      row.fault(
        columnOf(measure),
        `is ${printWithEllipsis(share, 4)} % of dry matter${converted}; no part can be above 100. Is the basis right?`,
      );
    }
  }
  const starch = onDryMatter(result, 'starch');
  const ndf = onDryMatter(result, 'ndf');
  const adf = onDryMatter(result, 'adf');
  if (row.problems.length === 0 && starch && ndf && compare(add(starch, ndf), HUNDRED) > 0) {
    const sum = printWithEllipsis(add(starch, ndf), 4);
    row.fault('ndf', `and starch together are ${sum} % of dry matter${converted}; they cannot be above 100`);
  }
  if (adf && ndf && compare(adf, ndf) > 0) {
    row.fault(
      'adf',
      `must not be above NDF, which holds it; found ${row.text('adf')} above ${row.text('ndf')}`,
    );
  }
}
