/**
 * Records pricing dates that the seller names of an agreement: `{ "elections": [{ … }] }`, with the columns of elections.csv.
 */
import { z } from 'zod';
import { recordElections } from '../../../../../../usecases/prices/record-elections.ts';
import { doJson, type OfId, ROWS } from '../../../../ask-json.ts';

const shape = z.strictObject({ elections: ROWS });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => recordElections(context, { agreementId: id, ...asked }),
  });
}
