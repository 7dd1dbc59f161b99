/**
 * Proposes other terms of an agreement from a day on: `{ "document": { … }, "effectiveFrom": "2026-10-01", "validDays": "7" }`.
 */
import { z } from 'zod';
import { proposeAmendment } from '../../../../../../usecases/offers/propose-amendment.ts';
import { doJson, type OfId } from '../../../../ask-json.ts';

const shape = z.strictObject({
  document: z.record(z.string(), z.unknown()),
  effectiveFrom: z.string(),
  message: z.string().default(''),
  validDays: z.string(),
});

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => proposeAmendment(context, { agreementId: id, ...asked }),
  });
}
