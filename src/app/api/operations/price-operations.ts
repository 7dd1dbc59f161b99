/**
 * Price quotes and pricing dates by /api/v1.
 */
import { z } from 'zod';
import { correctQuote } from '../../../usecases/corrections/correct-recorded.ts';
import { contestQuote } from '../../../usecases/prices/contest-quote.ts';
import { readStandingQuotes } from '../../../usecases/prices/read-standing-quotes.ts';
import { recordElections } from '../../../usecases/prices/record-elections.ts';
import { recordQuotes } from '../../../usecases/prices/record-quotes.ts';
import { setSeriesTerms } from '../../../usecases/prices/set-series-terms.ts';
import { COUNT, DATE, DECIMAL, ID, RECORDED, VERSION } from '../answers/scalars.ts';
import { operation } from '../operation.ts';
import { CONFIRMED, ELECTION_ROW, QUOTE_ROW, REASON, rows } from '../row-shapes.ts';

export const listQuotes = operation({
  id: 'listQuotes',
  method: 'GET',
  path: '/agreements/{id}/quotes',
  summary: 'The price quotes of an agreement as they stand, by series and date.',
  scopes: ['quotes:read'],
  refusals: ['not-found'],
  answer: z.strictObject({
    quotes: z.array(
      z.strictObject({
        id: ID,
        series: z.string(),
        date: DATE,
        price: DECIMAL,
        version: VERSION,
        reason: z.string().nullable(),
      }),
    ),
  }),
  work: async (context, { in: { id } }) => ({
    quotes: await readStandingQuotes(context, { agreementId: id }),
  }),
});

export const recordSomeQuotes = operation({
  id: 'recordQuotes',
  method: 'POST',
  path: '/agreements/{id}/quotes',
  summary: 'Records price quotes, all or none. A quote that is there already, the same, adds nothing.',
  scopes: ['quotes:write'],
  refusals: ['not-found', 'quote-taken', 'not-yours', 'unusual'],
  body: z.strictObject({ quotes: rows(QUOTE_ROW), confirmed: CONFIRMED }),
  answer: RECORDED,
  work: async (context, { in: { id }, body, once }) =>
    await recordQuotes(context, { agreementId: id, ...body, ...once }),
});

export const correctOneQuote = operation({
  id: 'correctQuote',
  method: 'POST',
  path: '/agreements/{id}/quotes/{quote}/correction',
  summary: 'Puts a quote right while no load has settled from it: a new version with its reason.',
  scopes: ['quotes:write'],
  refusals: ['not-found', 'changed-meanwhile', 'not-yours', 'already-settled', 'unusual'],
  body: z.strictObject({
    price: z.string({ error: 'must be a text: "4.20"' }).meta({ examples: ['4.25'] }),
    reason: REASON,
    confirmed: CONFIRMED,
  }),
  answer: z.strictObject({ corrected: z.literal(true) }),
  work: async (context, { in: { id, quote: quoteId }, body: { price, ...body }, once }) =>
    await correctQuote(context, { agreementId: id, id: quoteId, figures: { price }, ...body, ...once }),
});

export const contestOneQuote = operation({
  id: 'contestQuote',
  method: 'POST',
  path: '/agreements/{id}/quotes/{quote}/contest',
  summary:
    'Contests a quote that the other side entered: a correction that the other side confirms or refuses.',
  scopes: ['quotes:write'],
  refusals: [
    ...(['not-found', 'changed-meanwhile', 'not-yours', 'correction-over', 'correction-open'] as const),
    'not-ready',
  ],
  body: z.strictObject({
    price: z.string({ error: 'must be a text: "4.20"' }).meta({ examples: ['4.25'] }),
    reason: REASON,
  }),
  answer: z.strictObject({
    correctionId: ID,
    loads: COUNT.describe('Settled loads that would settle anew.'),
  }),
  work: async (context, { in: { id, quote: quoteId }, body, once }) =>
    await contestQuote(context, { agreementId: id, quoteId, ...body, ...once }),
});

export const setTermsOfSeries = operation({
  id: 'setSeriesTerms',
  method: 'POST',
  path: '/agreements/{id}/series',
  summary:
    'Says where a price is published, who enters its quotes, and how long the other side may contest one.',
  // It gives rights away, which a person does.
  scopes: [],
  refusals: ['not-found', 'not-yours'],
  body: z.strictObject({
    series: z.string(),
    source: z.string(),
    enteredBy: z.enum(['both', 'seller', 'buyer']),
    contestDays: z.string().describe('"5"; "0" where both enter quotes.'),
  }),
  answer: z.strictObject({ series: z.string() }),
  work: async (context, { in: { id }, body, once }) =>
    await setSeriesTerms(context, { agreementId: id, ...body, ...once }),
});

export const recordSomeElections = operation({
  id: 'recordElections',
  method: 'POST',
  path: '/agreements/{id}/elections',
  summary: 'Records pricing dates that the seller names.',
  scopes: ['settlements:write'],
  refusals: ['not-found', 'election-taken', 'not-yours', 'already-settled'],
  body: z.strictObject({ elections: rows(ELECTION_ROW) }),
  answer: RECORDED,
  work: async (context, { in: { id }, body, once }) =>
    await recordElections(context, { agreementId: id, ...body, ...once }),
});
