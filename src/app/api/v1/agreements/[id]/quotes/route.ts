/**
 * Records quotes of an agreement: `{ "quotes": [{ … }] }`, with the columns of prices.csv.
 */
import { z } from 'zod';
import { recordQuotes } from '../../../../../../usecases/prices/record-quotes.ts';
import { doJson, type OfId, ROWS } from '../../../../ask-json.ts';

const shape = z.strictObject({ quotes: ROWS, confirmed: z.boolean().default(false) });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => recordQuotes(context, { agreementId: id, ...asked }),
  });
}
