/**
 * One truckload of a published example, settled by the product: a whole agreement document and whole table rows go
 * through the same checks as files do. What comes back is the exact value beside the amounts that are paid.
 */
import {
  add,
  decimal,
  type Exact,
  HUNDRED,
  multiply,
  subtract,
  ZERO,
} from '../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import { printAmount } from '../../src/domain/settlement/line.ts';
import type { Outcome } from '../../src/domain/settlement/outcome.ts';
import type { Agreement, BushelMethod, BushelTerm, Reference, SampleRow, Term } from '../oracle/season.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';

export interface PublishedLoad {
  readonly references?: Record<string, Reference>;
  readonly price: Term[];
  /** Net weight as the scale has it, in pounds unless `unit` says otherwise. */
  readonly net: string;
  readonly unit?: string;
  /** Percent as-fed. */
  readonly moisture: string;
  readonly figures?: Partial<SampleRow>;
  readonly agreement?: Partial<Agreement>;
}

export interface PaidLoad {
  /** Quantity of each line, not rounded. */
  readonly quantities: readonly Exact[];
  /** Sum of quantity × rate over the lines, not rounded. */
  readonly exact: Exact;
  /** What is paid: the sum of the rounded lines, as printed. */
  readonly total: string;
}

/** `56 lb at 15 %` for a price: a grain or forage by its pounds a unit and its moisture. */
export function reference(
  price: string,
  { pounds, moisture }: { readonly pounds: string; readonly moisture: string },
): Reference {
  const dryMatterPercent = printDecimal(subtract(HUNDRED, decimal(moisture)));
  return { unit: 'unit', poundsPerUnit: pounds, dryMatterPercent, rule: { kind: 'fixed', price } };
}

/** A term that pays equivalent bushels of `corn`. */
export function bushels(method: BushelMethod, more: Partial<BushelTerm> = {}): BushelTerm {
  return { term: 'equivalent-bushels', label: 'Bushels', at: { reference: 'corn' }, method, ...more };
}

/** A term that pays all dry matter as that of a reference, or a share of it. */
export function dryMatterAs(name: string, sharePercent = '100'): Term {
  return {
    term: 'constituent',
    label: `As ${name}`,
    of: 'dry-matter',
    at: { reference: name, per: 'dry-matter' },
    sharePercent,
  };
}

/** What becomes of the load. Throws where the document or a row has a fault. */
export function outcomeOf(published: PublishedLoad): { outcome: Outcome; print: (amount: bigint) => string } {
  const { references = {}, price, net, unit = 'lb', moisture, figures, agreement } = published;
  const dryMatter = printDecimal(subtract(HUNDRED, decimal(moisture)), 10);
  const product = prepareProduct({
    agreement: {
      format: 'huskledger-agreement/1',
      id: 'A-1',
      seller: 'Fennmark Rows',
      buyer: 'Pell Bight Dairy',
      feed: 'high-moisture-shelled-corn',
      currency: 'USD',
      timeZone: 'America/Boise',
      references,
      price,
      ...agreement,
    },
    loads: [],
    samples: [{ sample: 'S1', basis: 'dry-matter', dry_matter: dryMatter, ...figures }],
    prices: [],
    elections: [],
    choices: [],
  });
  const delivered_at = '2026-09-14T21:40:00-06:00';
  const outcome = product.settle({ ticket: 'T1', delivered_at, gross: net, tare: '0', unit, sample: 'S1' });
  return { outcome, print: (amount) => printAmount(amount, product.money) };
}

/** As `outcomeOf`, for a load that must settle. */
export function pay(published: PublishedLoad): PaidLoad {
  const { outcome, print } = outcomeOf(published);
  if (outcome.status !== 'settled') throw new Error(`The load is ${outcome.status}`);
  return {
    quantities: outcome.lines.map(({ quantity }) => quantity),
    exact: outcome.lines.reduce((sum, line) => add(sum, multiply(line.quantity, line.rate)), ZERO),
    total: print(outcome.total),
  };
}

/** The quantity of the only line. */
export function onlyQuantity(published: PublishedLoad): Exact {
  const [quantity, ...others] = pay(published).quantities;
  if (quantity === undefined || others.length > 0) throw new Error('The load has not one line');
  return quantity;
}
