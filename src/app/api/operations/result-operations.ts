/**
 * Laboratory results by /api/v1.
 */
import { z } from 'zod';
import { correctResult } from '../../../usecases/corrections/correct-recorded.ts';
import { readResults } from '../../../usecases/results/read-results.ts';
import { recordResults } from '../../../usecases/results/record-results.ts';
import { ID, VERSION } from '../answers/scalars.ts';
import { operation } from '../operation.ts';
import { CONFIRMED, REASON, REPORT_ROW, rows } from '../row-shapes.ts';

export const listResults = operation({
  id: 'listResults',
  method: 'GET',
  path: '/agreements/{id}/results',
  summary: 'The results of an agreement as they stand, by sample.',
  scopes: ['results:read'],
  refusals: ['not-found'],
  answer: z.strictObject({
    results: z.array(
      z.strictObject({
        id: ID,
        sample: z.string(),
        version: VERSION,
        reason: z.string().nullable(),
        isOurs: z.boolean().nullable().describe('Whether the caller’s own party entered it.'),
        result: REPORT_ROW,
      }),
    ),
  }),
  work: async (context, { in: { id } }) => ({ results: await readResults(context, { agreementId: id }) }),
});

export const recordSomeResults = operation({
  id: 'recordResults',
  method: 'POST',
  path: '/agreements/{id}/results',
  summary: 'Records laboratory results, all or none. A result that is there already, the same, adds nothing.',
  scopes: ['results:write'],
  refusals: ['not-found', 'result-taken', 'not-yours', 'unusual'],
  body: z.strictObject({ results: rows(REPORT_ROW), confirmed: CONFIRMED }),
  answer: z.array(z.strictObject({ id: ID, sample: z.string(), isNew: z.boolean() })),
  work: async (context, { in: { id }, body, once }) =>
    await recordResults(context, { agreementId: id, ...body, ...once }),
});

export const correctOneResult = operation({
  id: 'correctResult',
  method: 'POST',
  path: '/agreements/{id}/results/{resultId}/correction',
  summary: 'Puts a result right while no load has settled from it: a new version with its reason.',
  scopes: ['results:write'],
  refusals: ['not-found', 'changed-meanwhile', 'not-yours', 'already-settled', 'unusual'],
  body: z.strictObject({ result: REPORT_ROW, reason: REASON, confirmed: CONFIRMED }),
  answer: z.strictObject({ corrected: z.literal(true) }),
  work: async (context, { in: { id, resultId }, body: { result, ...body }, once }) =>
    await correctResult(context, { agreementId: id, id: resultId, figures: result, ...body, ...once }),
});
