/**
 * A template's agreement with the figures of a publication in the place of its own: prices fixed, a reference's dry
 * matter, a share. The terms, their order and what they are on stay the template's.
 */
import type { Template, TemplateBasics } from '../../src/domain/templates/template.ts';
import type { Agreement, Reference, SampleRow, Term } from '../oracle/season.ts';
import { type PublishedLoad, pay } from './priced-load.ts';

export interface PublishedFormula {
  readonly template: Template;
  readonly feed: TemplateBasics['feed'];
  /** Each reference's published price, and what else the publication says of it. */
  readonly references: Readonly<Record<string, { readonly price: string } & Partial<Reference>>>;
  /** For each term in order, what the publication has instead. */
  readonly terms?: readonly Readonly<Record<string, unknown>>[];
}

/** The agreement; its acceptance ranges are left out, since no publication refuses its own example. */
export function drawnFormula(formula: PublishedFormula): Agreement {
  const { template, feed, references, terms = [] } = formula;
  const drawn = template.draw({
    id: 'A-1',
    seller: 'Fennmark Rows',
    buyer: 'Pell Bight Dairy',
    feed,
    currency: 'USD',
    timeZone: 'America/Boise',
    metric: false,
  }) as unknown as Agreement;
  const { acceptance: _, ...rest } = drawn;
  const published = Object.entries(drawn.references).map(([name, reference]) => {
    const { price = '', ...said } = references[name] ?? {};
    if (price === '') throw new Error(`No price for ${name}`);
    return [name, { ...reference, ...said, rule: { kind: 'fixed', price } }];
  });
  return {
    ...rest,
    references: Object.fromEntries(published) as Record<string, Reference>,
    price: drawn.price.map((term, index) => ({ ...term, ...terms[index] }) as Term),
  };
}

export interface WeighedLoad {
  readonly net: string;
  readonly moisture: string;
  readonly figures?: Partial<SampleRow>;
}

/** What such a load is paid, as `pay` has it. */
export function payByTemplate(formula: PublishedFormula, load: WeighedLoad) {
  return pay(asPublished(formula, load));
}

/** The load as `priced-load.ts` takes it. */
export function asPublished(formula: PublishedFormula, load: WeighedLoad): PublishedLoad {
  return { ...load, price: [], agreement: drawnFormula(formula) };
}
