/**
 * Loads by /api/v1: listed, read, recorded, put right, voided.
 */
import { z } from 'zod';
import { NO_LANGUAGE } from '../../../documents/figures.ts';
import { correctLoad, voidLoad } from '../../../usecases/loads/correct-load.ts';
import { readLoad } from '../../../usecases/loads/read-load.ts';
import { readLoadList } from '../../../usecases/loads/read-load-list.ts';
import { readTicket } from '../../../usecases/loads/read-ticket.ts';
import { readWaiting } from '../../../usecases/loads/read-waiting.ts';
import { recordLoads } from '../../../usecases/loads/record-loads.ts';
import { cursorText, listRequest, STATUSES } from '../../loads/list-request.ts';
import { LOAD, LOAD_SUMMARY, NEW_VERSION, RECORDED_LOAD, WAITING_GROUP } from '../answers/load-answers.ts';
import { CURSOR, ID, VERSION } from '../answers/scalars.ts';
import { operation } from '../operation.ts';
import { CONFIRMED, REASON, rows, TICKET_ROW } from '../row-shapes.ts';

const READ = ['loads:read'] as const;
const WRITE = ['loads:write'] as const;
const BASE_VERSION = z
  .int({ error: 'must be a whole number' })
  .min(1)
  .meta({ description: 'The version of the ticket that was looked at.', examples: [1] });

export const listLoads = operation({
  id: 'listLoads',
  method: 'GET',
  path: '/loads',
  summary: 'A page of loads, newest first.',
  scopes: READ,
  refusals: ['not-found'],
  query: z.looseObject({
    status: z.string().optional().meta({ enum: STATUSES, description: 'Those that stand so.' }),
    agreement: z.string().optional().describe('The id of one agreement.'),
    next: z.string().optional().describe('`next` of the page before.'),
  }),
  answer: z.strictObject({ loads: z.array(LOAD_SUMMARY), next: CURSOR }),
  work: async (context, { query }) => {
    const { loads, next } = await readLoadList(context, listRequest(definedOf(query), NO_LANGUAGE));
    return { loads, next: next ? cursorText(next) : null };
  },
});

function definedOf(query: Readonly<Record<string, unknown>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(query).filter((entry): entry is [string, string] => typeof entry[1] === 'string'),
  );
}

export const readOneLoad = operation({
  id: 'readLoad',
  method: 'GET',
  path: '/loads/{id}',
  summary: 'One load with everything that is known of it: ticket, tests, price and how it came about.',
  scopes: READ,
  refusals: ['not-found'],
  answer: LOAD,
  work: async (context, { in: { id } }) => await readLoad(context, { loadId: id, locale: NO_LANGUAGE }),
});

export const readOneTicket = operation({
  id: 'readTicket',
  method: 'GET',
  path: '/loads/{id}/ticket',
  summary: 'The ticket of a load as it stands, in the columns by which it is put right.',
  scopes: READ,
  refusals: ['not-found'],
  answer: z.strictObject({
    id: ID,
    agreementId: ID,
    version: VERSION,
    isVoid: z.boolean(),
    ticket: TICKET_ROW,
  }),
  work: async (context, { in: { id } }) => await readTicket(context, { loadId: id }),
});

export const listWaiting = operation({
  id: 'listWaiting',
  method: 'GET',
  path: '/waiting',
  summary: 'What loads wait for, and on whom, oldest first.',
  scopes: READ,
  refusals: [],
  answer: z.strictObject({ waiting: z.array(WAITING_GROUP) }),
  work: async (context) => ({ waiting: await readWaiting(context) }),
});

export const recordSomeLoads = operation({
  id: 'recordLoads',
  method: 'POST',
  path: '/agreements/{id}/loads',
  summary: 'Records scale tickets, all or none. A ticket that is there already, the same, adds nothing.',
  scopes: WRITE,
  refusals: ['not-found', 'agreement-closed', 'ticket-taken', 'not-yours', 'unusual'],
  body: z.strictObject({ loads: rows(TICKET_ROW), confirmed: CONFIRMED }),
  answer: z.array(RECORDED_LOAD),
  work: async (context, { in: { id }, body, once }) =>
    await recordLoads(context, { agreementId: id, ...body, ...once }),
});

export const correctOneLoad = operation({
  id: 'correctLoad',
  method: 'POST',
  path: '/loads/{id}/correction',
  summary: 'Puts a ticket right before its load settles: a new version with its reason.',
  scopes: WRITE,
  refusals: [
    'not-found',
    'agreement-closed',
    'changed-meanwhile',
    'ticket-taken',
    'not-yours',
    'already-settled',
    'unusual',
  ],
  body: z.strictObject({ load: TICKET_ROW, reason: REASON, baseVersion: BASE_VERSION, confirmed: CONFIRMED }),
  answer: NEW_VERSION,
  work: async (context, { in: { id }, body, once }) =>
    await correctLoad(context, { loadId: id, ...body, ...once }),
});

export const voidOneLoad = operation({
  id: 'voidLoad',
  method: 'POST',
  path: '/loads/{id}/void',
  summary: 'Voids a ticket before its load settles: it is no delivery, and its number stays taken.',
  scopes: WRITE,
  refusals: ['not-found', 'changed-meanwhile', 'not-yours', 'already-settled'],
  body: z.strictObject({ reason: REASON, baseVersion: BASE_VERSION }),
  answer: NEW_VERSION,
  work: async (context, { in: { id }, body, once }) =>
    await voidLoad(context, { loadId: id, ...body, ...once }),
});
