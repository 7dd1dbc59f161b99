/**
 * Proposes to close an agreement early: `{ "lastDelivery": "2026-10-05", "validDays": "7" }`.
 */
import { z } from 'zod';
import { proposeClosing } from '../../../../../../usecases/offers/propose-amendment.ts';
import { doJson, type OfId } from '../../../../ask-json.ts';

const shape = z.strictObject({
  lastDelivery: z.string(),
  reason: z.string().default(''),
  message: z.string().default(''),
  validDays: z.string(),
});

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => proposeClosing(context, { agreementId: id, ...asked }),
  });
}
