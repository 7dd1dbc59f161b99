/**
 * Records results of an agreement: `{ "results": [{ … }] }`, with the columns of samples.csv and, where known, laboratory, method and reported_on.
 */
import { z } from 'zod';
import { recordResults } from '../../../../../../usecases/results/record-results.ts';
import { doJson, type OfId, ROWS } from '../../../../ask-json.ts';

const shape = z.strictObject({ results: ROWS, confirmed: z.boolean().default(false) });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => recordResults(context, { agreementId: id, ...asked }),
  });
}
