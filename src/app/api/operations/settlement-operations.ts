/**
 * Decisions, settlements and corrections after them, by /api/v1.
 */
import { z } from 'zod';
import { answerCorrection, proposeCorrection } from '../../../usecases/corrections/agree-correction.ts';
import { readCorrections } from '../../../usecases/corrections/read-corrections.ts';
import {
  answerAllowance,
  proposeAllowance,
  readAllowanceList,
} from '../../../usecases/loads/agree-allowance.ts';
import { recordChoices } from '../../../usecases/loads/record-choices.ts';
import { readSettlements } from '../../../usecases/settlements/read-settlements.ts';
import { settleLoads } from '../../../usecases/settlements/settle-loads.ts';
import { cursorText, readCursor } from '../../loads/list-request.ts';
import { COUNT, CURSOR, ID, RECORDED } from '../answers/scalars.ts';
import { ALLOWANCE, CORRECTION, SETTLEMENT } from '../answers/settlement-answers.ts';
import { operation } from '../operation.ts';
import { ALLOWANCE_ROW, CHOICE_ROW, CONFIRMED, REASON, rows } from '../row-shapes.ts';

const READ = ['settlements:read'] as const;
const WRITE = ['settlements:write'] as const;

export const recordSomeChoices = operation({
  id: 'recordChoices',
  method: 'POST',
  path: '/agreements/{id}/choices',
  summary: 'Records what the buyer decides about loads outside the agreed ranges.',
  scopes: WRITE,
  refusals: ['not-found', 'not-yours', 'already-settled'],
  body: z.strictObject({ choices: rows(CHOICE_ROW) }),
  answer: RECORDED,
  work: async (context, { in: { id }, body, once }) =>
    await recordChoices(context, { agreementId: id, ...body, ...once }),
});

export const listSettlements = operation({
  id: 'listSettlements',
  method: 'GET',
  path: '/agreements/{id}/settlements',
  summary: 'A page of settlements as they stand, newest delivery first, each line with how it came about.',
  scopes: READ,
  refusals: ['not-found'],
  query: z.strictObject({
    status: z
      .enum(['settled', 'refused'], { error: 'must be settled or refused' })
      .default('settled')
      .describe('Priced loads, or those that the buyer refused.'),
    next: z.string().optional().describe('`next` of the page before.'),
  }),
  answer: z.strictObject({ settlements: z.array(SETTLEMENT), next: CURSOR }),
  work: async (context, { in: { id }, query: { status, next } }) => {
    const after = readCursor(next);
    const asked = { agreementId: id, status, ...(after === undefined ? {} : { after }) };
    const page = await readSettlements(context, asked);
    return { settlements: page.settlements, next: page.next ? cursorText(page.next) : null };
  },
});

export const settleSomeLoads = operation({
  id: 'settleLoads',
  method: 'POST',
  path: '/agreements/{id}/settlements',
  summary: 'Settles the load that is named, or all of the agreement that are ready.',
  scopes: WRITE,
  refusals: ['not-found', 'not-yours', 'not-ready'],
  body: z.strictObject({ loadId: z.string().optional().describe('Without it, all that are ready.') }),
  answer: z.strictObject({
    settled: COUNT,
    refused: COUNT,
    waiting: COUNT.describe('Loads that are not ready.'),
  }),
  work: async (context, { in: { id }, body: { loadId }, once }) =>
    await settleLoads(context, {
      agreementId: id,
      ...(loadId === undefined ? {} : { loadId }),
      ...once,
    }),
});

export const listCorrections = operation({
  id: 'listCorrections',
  method: 'GET',
  path: '/agreements/{id}/corrections',
  summary: 'The corrections that either side proposed, and how each ended.',
  scopes: READ,
  refusals: ['not-found'],
  answer: z.strictObject({ corrections: z.array(CORRECTION) }),
  work: async (context, { in: { id } }) => ({
    corrections: await readCorrections(context, { agreementId: id }),
  }),
});

export const proposeOneCorrection = operation({
  id: 'proposeCorrection',
  method: 'POST',
  path: '/agreements/{id}/corrections',
  summary:
    'Proposes to put right what loads have settled from; once the other side confirms, they settle anew.',
  scopes: WRITE,
  refusals: ['not-found', 'changed-meanwhile', 'correction-open', 'not-yours', 'unusual', 'not-ready'],
  body: z.strictObject({
    subject: z.enum(['load', 'result', 'quote'], { error: 'must be load, result or quote' }),
    subjectId: z.string().describe('The id of the load, or of the result or quote as it stands now.'),
    figures: z
      .record(z.string(), z.string({ error: 'must be a text, in quotes' }))
      .describe('The whole row as it should be, with the columns by which it is recorded.'),
    reason: REASON,
    confirmed: CONFIRMED,
  }),
  answer: z.strictObject({ correctionId: ID, loads: COUNT.describe('Settled loads that rest on it.') }),
  work: async (context, { in: { id }, body, once }) =>
    await proposeCorrection(context, { agreementId: id, ...body, ...once }),
});

const ENDING = z.strictObject({
  answer: z.enum(['confirmed', 'refused', 'withdrawn'], {
    error: 'must be confirmed, refused or withdrawn',
  }),
  reason: z.string().default('').describe('Why it is refused.'),
});

export const listAllowances = operation({
  id: 'listAllowances',
  method: 'GET',
  path: '/agreements/{id}/allowances',
  summary: 'The allowances that either side proposed for loads out of range, and how each ended.',
  scopes: READ,
  refusals: ['not-found'],
  answer: z.strictObject({ allowances: z.array(ALLOWANCE) }),
  work: async (context, { in: { id } }) => ({
    allowances: await readAllowanceList(context, { agreementId: id }),
  }),
});

export const proposeOneAllowance = operation({
  id: 'proposeAllowance',
  method: 'POST',
  path: '/loads/{id}/allowance',
  summary: 'Proposes to accept a load that is out of range with money taken off; the other side confirms.',
  scopes: WRITE,
  refusals: ['not-found', 'correction-open', 'correction-over', 'not-yours', 'already-settled', 'not-ready'],
  body: z.strictObject({ allowance: ALLOWANCE_ROW, reason: REASON }),
  answer: z.strictObject({ proposalId: ID }),
  work: async (context, { in: { id }, body, once }) =>
    await proposeAllowance(context, { loadId: id, ...body, ...once }),
});

export const answerOneAllowance = operation({
  id: 'answerAllowance',
  method: 'POST',
  path: '/allowances/{id}/answer',
  summary: 'Confirms or refuses an allowance of the other side’s, or withdraws one’s own.',
  scopes: WRITE,
  refusals: ['not-found', 'correction-over', 'not-yours', 'already-settled'],
  body: ENDING,
  answer: z.strictObject({ answered: z.enum(['confirmed', 'refused', 'withdrawn']) }),
  work: async (context, { in: { id }, body, once }) =>
    await answerAllowance(context, { proposalId: id, ...body, ...once }),
});

export const answerOneCorrection = operation({
  id: 'answerCorrection',
  method: 'POST',
  path: '/corrections/{id}/answer',
  summary: 'Confirms or refuses a correction of the other side’s, or withdraws one’s own.',
  scopes: WRITE,
  refusals: ['not-found', 'correction-over', 'not-yours', 'not-ready'],
  body: ENDING,
  answer: z.strictObject({ resettled: COUNT.describe('Loads that were settled anew.') }),
  work: async (context, { in: { id }, body, once }) =>
    await answerCorrection(context, { correctionId: id, ...body, ...once }),
});
