/**
 * What a scale house does beside whole tickets, by /api/v1: weighing in and out, the book of tickets, trucks and scales.
 */
import { z } from 'zod';
import { readTicketBook } from '../../../usecases/loads/read-ticket-book.ts';
import { readTrucks } from '../../../usecases/loads/read-trucks.ts';
import { recordSeries, spendTicket } from '../../../usecases/loads/spend-ticket.ts';
import { weighIn } from '../../../usecases/loads/weigh-in.ts';
import { readOpenWeighings, weighOut } from '../../../usecases/loads/weigh-out.ts';
import { changeScale, readScales, recordScale } from '../../../usecases/scales/keep-scale.ts';
import { RECORDED_LOAD } from '../answers/load-answers.ts';
import { ID, VERSION } from '../answers/scalars.ts';
import { OPEN_WEIGHING, SCALE, TICKET_BOOK, TRUCK } from '../answers/scale-house-answers.ts';
import { operation } from '../operation.ts';
import {
  CONFIRMED,
  REASON,
  SCALE_ROW,
  TICKET_SERIES_ROW,
  WEIGHING_OUT_ROW,
  WEIGHING_ROW,
} from '../row-shapes.ts';

const READ = ['loads:read'] as const;
const WRITE = ['loads:write'] as const;

export const listWeighings = operation({
  id: 'listWeighings',
  method: 'GET',
  path: '/agreements/{id}/weighings',
  summary: 'Trucks that were weighed full and are still to be weighed empty, the earliest first.',
  scopes: READ,
  refusals: ['not-found'],
  answer: z.strictObject({ weighings: z.array(OPEN_WEIGHING) }),
  work: async (context, { in: { id } }) => ({
    weighings: await readOpenWeighings(context, { agreementId: id }),
  }),
});

export const weighOneIn = operation({
  id: 'weighIn',
  method: 'POST',
  path: '/agreements/{id}/weighings',
  summary: 'Weighs a truck full; its ticket is kept until it is weighed empty.',
  scopes: WRITE,
  refusals: ['not-found', 'agreement-closed', 'ticket-taken', 'not-yours', 'unusual'],
  body: z.strictObject({ weighing: WEIGHING_ROW, confirmed: CONFIRMED }),
  answer: z.strictObject({ weighingId: ID, isNew: z.boolean() }),
  work: async (context, { in: { id }, body, once }) =>
    await weighIn(context, { agreementId: id, ...body, ...once }),
});

export const weighOneOut = operation({
  id: 'weighOut',
  method: 'POST',
  path: '/agreements/{id}/weighings/out',
  summary: 'Weighs a truck empty that was weighed full before: its ticket becomes a load.',
  scopes: WRITE,
  refusals: ['not-found', 'agreement-closed', 'ticket-taken', 'not-yours', 'unusual'],
  body: z.strictObject({ weighing: WEIGHING_OUT_ROW, confirmed: CONFIRMED }),
  answer: RECORDED_LOAD,
  work: async (context, { in: { id }, body, once }) =>
    await weighOut(context, { agreementId: id, ...body, ...once }),
});

export const readBook = operation({
  id: 'readTicketBook',
  method: 'GET',
  path: '/agreements/{id}/tickets',
  summary: 'What became of each ticket number, which are missing, and which comes next.',
  scopes: READ,
  refusals: ['not-found'],
  answer: TICKET_BOOK,
  work: async (context, { in: { id } }) => await readTicketBook(context, { agreementId: id }),
});

export const spendOneTicket = operation({
  id: 'spendTicket',
  method: 'POST',
  path: '/agreements/{id}/tickets/spent',
  summary: 'Accounts for a ticket number that no load has: spoiled, or used for something else.',
  scopes: WRITE,
  refusals: ['not-found', 'ticket-taken', 'not-yours'],
  body: z.strictObject({
    ticket: z.string({ error: 'must be a text' }).meta({ examples: ['1148'] }),
    use: z.enum(['void', 'elsewhere'], { error: 'must be void or elsewhere' }),
    reason: REASON,
  }),
  answer: z.strictObject({ spentId: ID }),
  work: async (context, { in: { id }, body, once }) =>
    await spendTicket(context, { agreementId: id, ...body, ...once }),
});

export const listTrucks = operation({
  id: 'listTrucks',
  method: 'GET',
  path: '/agreements/{id}/trucks',
  summary: 'Trucks with what they usually weigh, the one that came last first.',
  scopes: READ,
  refusals: ['not-found'],
  answer: z.strictObject({ trucks: z.array(TRUCK) }),
  work: async (context, { in: { id } }) => ({ trucks: await readTrucks(context, { agreementId: id }) }),
});

export const listScales = operation({
  id: 'listScales',
  method: 'GET',
  path: '/scales',
  summary: 'The scales of the party and of those that it has agreements with.',
  scopes: READ,
  refusals: [],
  answer: z.strictObject({ scales: z.array(SCALE) }),
  work: async (context) => ({ scales: await readScales(context) }),
});

export const beginSeries = operation({
  id: 'beginTicketSeries',
  method: 'POST',
  path: '/agreements/{id}/tickets/series',
  summary: 'Begins a series of tickets, of which every number is then accounted for.',
  // How a scale house counts, and what it weighs on, a person says.
  scopes: [],
  refusals: ['not-found', 'not-yours'],
  body: z.strictObject({ series: TICKET_SERIES_ROW }),
  answer: z.strictObject({ seriesId: ID }),
  work: async (context, { in: { id }, body, once }) =>
    await recordSeries(context, { agreementId: id, ...body, ...once }),
});

export const describeScale = operation({
  id: 'describeScale',
  method: 'POST',
  path: '/scales',
  summary: 'Describes a scale of the party.',
  scopes: [],
  refusals: [],
  body: z.strictObject({ scale: SCALE_ROW }),
  answer: z.strictObject({ scaleId: ID }),
  work: async (context, { body, once }) => await recordScale(context, { ...body, ...once }),
});

export const changeOneScale = operation({
  id: 'changeScale',
  method: 'POST',
  path: '/scales/{id}',
  summary: 'Describes a scale anew, as after a test: a new version of it.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'changed-meanwhile'],
  body: z.strictObject({ scale: SCALE_ROW, baseVersion: z.int() }),
  answer: z.strictObject({ version: VERSION }),
  work: async (context, { in: { id }, body, once }) =>
    await changeScale(context, { scaleId: id, ...body, ...once }),
});
