/**
 * Laboratory results by /api/v1.
 */
import { z } from 'zod';
import { correctResult } from '../../../usecases/corrections/correct-recorded.ts';
import { readLaboratoryWork } from '../../../usecases/laboratories/read-laboratories.ts';
import { confirmResult, contestResult } from '../../../usecases/results/answer-result.ts';
import { attachReport } from '../../../usecases/results/attach-report.ts';
import { readResults } from '../../../usecases/results/read-results.ts';
import { recordResults } from '../../../usecases/results/record-results.ts';
import { reportResults } from '../../../usecases/results/report-results.ts';
import { FINGERPRINT, ID, VERSION } from '../answers/scalars.ts';
import { FILE_NAME, FILES } from '../file-bodies.ts';
import { operation } from '../operation.ts';
import { CONFIRMED, REASON, REPORT_ROW, rows } from '../row-shapes.ts';

const RECORDED_RESULTS = z.array(z.strictObject({ id: ID, sample: z.string(), isNew: z.boolean() }));

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
        unusable: z.string().nullable().describe('Why it does not count for now, such as a contest.'),
        report: FINGERPRINT.nullable().describe('Of the report that is attached.'),
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
  answer: RECORDED_RESULTS,
  work: async (context, { in: { id }, body, once }) =>
    await recordResults(context, { agreementId: id, ...body, ...once }),
});

export const correctOneResult = operation({
  id: 'correctResult',
  method: 'POST',
  path: '/agreements/{id}/results/{result}/correction',
  summary: 'Puts a result right while no load has settled from it: a new version with its reason.',
  scopes: ['results:write'],
  refusals: ['not-found', 'changed-meanwhile', 'not-yours', 'already-settled', 'unusual'],
  body: z.strictObject({ result: REPORT_ROW, reason: REASON, confirmed: CONFIRMED }),
  answer: z.strictObject({ corrected: z.literal(true) }),
  work: async (context, { in: { id, result: resultId }, body: { result: figures, ...body }, once }) =>
    await correctResult(context, { agreementId: id, id: resultId, figures, ...body, ...once }),
});

export const confirmOneResult = operation({
  id: 'confirmResult',
  method: 'POST',
  path: '/results/{id}/confirmation',
  summary: 'Confirms a result that the other side entered.',
  scopes: ['results:write'],
  refusals: ['not-found', 'changed-meanwhile', 'not-yours'],
  answer: z.strictObject({ isNew: z.boolean() }),
  work: async (context, { in: { id }, once }) => await confirmResult(context, { resultId: id, ...once }),
});

export const contestOneResult = operation({
  id: 'contestResult',
  method: 'POST',
  path: '/results/{id}/contest',
  summary: 'Contests a result that the other side entered: until that is over, no load settles from it.',
  scopes: ['results:write'],
  refusals: ['not-found', 'changed-meanwhile', 'not-yours', 'already-settled'],
  body: z.strictObject({ reason: REASON }),
  answer: z.strictObject({ isNew: z.boolean() }),
  work: async (context, { in: { id }, body, once }) =>
    await contestResult(context, { resultId: id, ...body, ...once }),
});

export const attachOneReport = operation({
  id: 'attachReport',
  method: 'POST',
  path: '/agreements/{id}/results/{result}/report',
  summary: 'Attaches the laboratory’s own report to a result; its kind is known by its content.',
  scopes: ['results:write'],
  refusals: ['not-found', 'changed-meanwhile', 'not-yours'],
  query: FILE_NAME,
  body: FILES,
  answer: z.strictObject({ resultId: ID.describe('The result that stands now.'), fingerprint: FINGERPRINT }),
  work: async (context, { in: { id, result: resultId }, query: { name }, body: bytes, once }) =>
    await attachReport(context, { agreementId: id, resultId, report: { name, bytes }, ...once }),
});

export const listLaboratoryWork = operation({
  id: 'listLaboratoryWork',
  method: 'GET',
  path: '/laboratory/samples',
  summary: 'For a laboratory: the samples of the agreements that let it in, those without a result first.',
  scopes: ['samples:read', 'results:read'],
  refusals: [],
  answer: z.strictObject({
    agreements: z.array(
      z.strictObject({
        agreementId: ID,
        label: z.string(),
        samples: z.array(
          z.strictObject({
            sample: z.string(),
            seal: z.string().nullable(),
            resultId: ID.nullable(),
            isOwn: z.boolean(),
          }),
        ),
      }),
    ),
  }),
  work: async (context) => ({ agreements: await readLaboratoryWork(context) }),
});

export const reportSomeResults = operation({
  id: 'reportResults',
  method: 'POST',
  path: '/laboratory/agreements/{id}/results',
  summary: 'For a laboratory: reports its own results, or with a reason corrects those that it reported.',
  scopes: ['results:write'],
  refusals: ['not-found', 'result-taken', 'not-yours', 'already-settled', 'unusual'],
  body: z.strictObject({
    results: rows(REPORT_ROW),
    reason: REASON.optional(),
    confirmed: CONFIRMED,
  }),
  answer: RECORDED_RESULTS,
  work: async (context, { in: { id }, body: { reason, ...body }, once }) =>
    await reportResults(context, {
      agreementId: id,
      ...body,
      ...(reason === undefined ? {} : { reason }),
      ...once,
    }),
});
