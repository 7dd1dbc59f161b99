/**
 * Records what the buyer decides about loads outside the agreed ranges of an agreement: `{ "choices": [{ … }] }`, with the columns of choices.csv.
 */
import { z } from 'zod';
import { recordChoices } from '../../../../../../usecases/loads/record-choices.ts';
import { doJson, type OfId, ROWS } from '../../../../ask-json.ts';

const shape = z.strictObject({ choices: ROWS });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => recordChoices(context, { agreementId: id, ...asked }),
  });
}
