/**
 * One load settled by an agreement as a template draws it, at quotes of the day: label, quantity, rate and amount of
 * each line as the product prints them.
 */
import type { Template, TemplateBasics } from '../../../src/domain/templates/template.ts';
import type { Agreement } from '../../oracle/season.ts';
import { prepareProduct } from '../../oracle/settle-by-product.ts';

export const BASICS: TemplateBasics = {
  id: 'A-26-014',
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  feed: 'whole-ear-corn',
  currency: 'USD',
  timeZone: 'America/Boise',
  metric: false,
};

export const METRIC: TemplateBasics = {
  ...BASICS,
  currency: 'EUR',
  timeZone: 'Europe/Berlin',
  metric: true,
};

export interface LoadToPrice {
  readonly basics?: TemplateBasics;
  /** Of the corn series. */
  readonly corn?: string;
  /** Of the hay series. */
  readonly hay?: string;
  /** Pounds, or kilograms where the basics are metric. */
  readonly net: string;
  readonly dryMatter: string;
  readonly starch?: string;
}

export interface PrintedLine {
  readonly label: string;
  readonly quantity: string;
  readonly unit: string;
  readonly rate: string;
  readonly amount: string;
}

/** What is printed of the load: `status`, and of a settled one its lines and total. */
export function priceByTemplate(template: Template, load: LoadToPrice) {
  const { basics = BASICS, corn, hay, net, dryMatter, starch } = load;
  const quotes = { 'corn-local-bid': corn, 'hay-local-market': hay };
  const product = prepareProduct({
    agreement: template.draw(basics) as unknown as Agreement,
    loads: [],
    samples: [
      {
        sample: 'S1',
        basis: 'dry-matter',
        dry_matter: dryMatter,
        ...(starch === undefined ? {} : { starch }),
      },
    ],
    prices: Object.entries(quotes).flatMap(([series, price]) =>
      price === undefined ? [] : [{ series, date: '2026-09-14', price }],
    ),
    elections: [],
    choices: [],
  });
  const outcome = product.settle({
    ticket: 'T1',
    delivered_at: '2026-09-14T12:00:00Z',
    gross: net,
    tare: '0',
    unit: basics.metric ? 'kg' : 'lb',
    sample: 'S1',
  });
  return product.print(outcome) as {
    readonly status: string;
    readonly reason?: string;
    readonly lines?: readonly PrintedLine[];
    readonly total?: string;
  };
}

/** The amounts of the lines and their total, of a load that must settle. */
export function amountsBy(template: Template, load: LoadToPrice): { amounts: string[]; total: string } {
  const { status, lines = [], total = '' } = priceByTemplate(template, load);
  if (status !== 'settled') throw new Error(`The load is ${status}`);
  return { amounts: lines.map(({ amount }) => amount), total };
}
