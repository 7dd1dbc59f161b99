/**
 * Records scale tickets of an agreement: `{ "loads": [{ … }] }`, with the columns of loads.csv.
 */
import { z } from 'zod';
import { recordLoads } from '../../../../../../usecases/loads/record-loads.ts';
import { doJson, type OfId, ROWS } from '../../../../ask-json.ts';

const shape = z.strictObject({ loads: ROWS, confirmed: z.boolean().default(false) });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => recordLoads(context, { agreementId: id, ...asked }),
  });
}
