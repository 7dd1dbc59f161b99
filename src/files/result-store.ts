/**
 * Results by sample, each kept as one short text and read into exact numbers when it is asked for: a season of a
 * million samples would not fit otherwise.
 */
import type { Tested } from '../domain/agreement/measures.ts';
import { parseDecimal } from '../domain/numbers/exact.ts';
import type { Basis, LabResult } from '../domain/samples/lab-result.ts';

/** One row of `samples.csv`, as it was written and checked. */
export interface ResultRow {
  readonly line: number;
  readonly sample: string;
  readonly basis: string;
  readonly dryMatter: string;
  /** In the order of the store's measures; '' where not reported. */
  readonly figures: readonly string[];
}

export class ResultStore {
  /** Line, basis, dry matter and figures with blanks between. */
  readonly #texts = new Map<string, string>();
  #reported: readonly Tested[] = [];

  /** Says which measures beside dry matter the figures are of. */
  report(measures: readonly Tested[]): void {
    this.#reported = measures;
  }

  add({ line, sample, basis, dryMatter, figures }: ResultRow): void {
    // A joined text holds on to nothing else; a concatenated one would keep its parts alive.
    this.#texts.set(sample, [line, basis, dryMatter, ...figures].join(' '));
  }

  get(sample: string): LabResult | undefined {
    const text = this.#texts.get(sample);
    if (text === undefined) return undefined;
    const [, basis, dryMatter = '', ...figures] = text.split(' ');
    const exactDryMatter = parseDecimal(dryMatter);
    if (exactDryMatter === undefined) throw new Error(`The result of ${sample} was not kept whole`);
    return {
      sample,
      basis: basis as Basis,
      dryMatter: exactDryMatter,
      reported: this.#reported,
      figures: figures.map(parseDecimal),
    };
  }

  /** The line that a sample's result was read from. */
  lineOf(sample: string): number | undefined {
    const text = this.#texts.get(sample);
    return text === undefined ? undefined : Number.parseInt(text, 10);
  }
}
