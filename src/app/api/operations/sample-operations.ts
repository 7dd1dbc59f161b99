/**
 * Samples by /api/v1: taken, sealed in parts, handed over.
 */
import { z } from 'zod';
import { HANDOVER_COLUMNS, PART_COLUMNS, TAKING_COLUMNS } from '../../../domain/tables/sampling-rows.ts';
import { handOver } from '../../../usecases/samples/hand-over.ts';
import { readSamples, type SampleView } from '../../../usecases/samples/read-samples.ts';
import { sealParts } from '../../../usecases/samples/seal-parts.ts';
import { takeSample } from '../../../usecases/samples/take-sample.ts';
import { SAMPLES } from '../answers/sample-answers.ts';
import { COUNT, ID } from '../answers/scalars.ts';
import { operation } from '../operation.ts';
import { rowShape, rows } from '../row-shapes.ts';

const WRITE = ['samples:write'] as const;

export const listSamples = operation({
  id: 'listSamples',
  method: 'GET',
  path: '/agreements/{id}/samples',
  summary:
    'Samples with their sealed parts, loads without one, and parts that are kept for too short a time.',
  scopes: ['samples:read'],
  refusals: ['not-found'],
  answer: SAMPLES,
  work: async (context, { in: { id } }) => {
    const { samples, ...rest } = await readSamples(context, { agreementId: id });
    return {
      ...rest,
      samples: samples.map(({ taking, ...sample }) => ({ ...sample, taking: takingOf(taking) })),
    };
  },
});

function takingOf(taking: SampleView['taking']) {
  if (!taking) return undefined;
  const { takenAt, takenBy, how } = taking;
  return { takenAt, takenBy, how };
}

export const takeOneSample = operation({
  id: 'takeSample',
  method: 'POST',
  path: '/agreements/{id}/samples',
  summary: 'Records that a sample was taken, and the loads that it stands for.',
  scopes: WRITE,
  refusals: ['not-found', 'not-yours', 'already-settled'],
  body: z.strictObject({
    taking: rowShape(TAKING_COLUMNS),
    tickets: z
      .array(z.string({ error: 'must be a text' }), { error: 'must be a list of tickets' })
      .max(5_000)
      .default([])
      .describe('The loads that it stands for; a load may name its sample on its ticket as well.'),
  }),
  answer: z.strictObject({ named: COUNT.describe('Tickets that name it newly.') }),
  work: async (context, { in: { id }, body, once }) =>
    await takeSample(context, { agreementId: id, ...body, ...once }),
});

export const sealSomeParts = operation({
  id: 'sealParts',
  method: 'POST',
  path: '/agreements/{id}/samples/parts',
  summary: 'Records the sealed parts of samples, all or none.',
  scopes: WRITE,
  refusals: ['not-found', 'not-yours'],
  body: z.strictObject({ parts: rows(rowShape(PART_COLUMNS)) }),
  answer: z.array(z.strictObject({ id: ID, seal: z.string(), isNew: z.boolean() })),
  work: async (context, { in: { id }, body, once }) =>
    await sealParts(context, { agreementId: id, ...body, ...once }),
});

export const handOnePartOver = operation({
  id: 'handOver',
  method: 'POST',
  path: '/sample-parts/{id}/handovers',
  summary: 'Records that a sealed part was handed over.',
  scopes: WRITE,
  refusals: ['not-found', 'not-yours'],
  body: z.strictObject({ handover: rowShape(HANDOVER_COLUMNS) }),
  answer: z.strictObject({ id: ID }),
  work: async (context, { in: { id }, body, once }) =>
    await handOver(context, { partId: id, ...body, ...once }),
});
