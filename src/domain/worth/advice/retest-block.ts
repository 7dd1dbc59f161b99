/**
 * What advice reads of an agreement's retest block, whatever else stands in it; a draft's block may be half written.
 */
import type { FreeBlock, FreeValue } from '../../agreement/free-block.ts';
import { compare, type Exact, parseDecimal } from '../../numbers/exact.ts';
import { printDecimal } from '../../numbers/printing.ts';
import type { Advice } from './advice.ts';

export interface RetestBlock {
  /** Days after a result in which either side may ask. */
  readonly askWithinDays: Exact | undefined;
  /** Days for which the parts of a sample are kept. */
  readonly keptDays: Exact | undefined;
  /** Measures that a second test is agreed for. */
  readonly measures: readonly string[];
}

/** The figures of a retest block; undefined or empty for what is not there. */
export function readRetestBlock(block: FreeBlock | undefined): RetestBlock {
  return {
    askWithinDays: days(block?.['askWithinDays']),
    keptDays: days(block?.['keptDays']),
    measures: Object.keys(group(block?.['measures']) ?? {}),
  };
}

function days(value: FreeValue | undefined): Exact | undefined {
  return typeof value === 'string' ? parseDecimal(value.trim()) : undefined;
}

function group(value: FreeValue | undefined): FreeBlock | undefined {
  return typeof value === 'object' && !Array.isArray(value) ? (value as FreeBlock) : undefined;
}

/** A warning where a question may still be asked after the sample is thrown away. */
export function adviseOnKeeping(block: FreeBlock | undefined): Advice[] {
  const { askWithinDays, keptDays } = readRetestBlock(block);
  if (!askWithinDays || !keptDays || compare(askWithinDays, keptDays) <= 0) return [];
  const [asked, kept] = [printDecimal(askWithinDays), printDecimal(keptDays)];
  return [
    {
      kind: 'kept-too-short',
      message: `A retest may be asked for within ${asked} days, but the parts of a sample are kept for ${kept}. Whoever asks after day ${kept} finds nothing left to test. Keep the parts for longer than ${asked} days, or shorten the time to ask.`,
    },
  ];
}
