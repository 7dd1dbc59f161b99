/**
 * Posts a lot: `{ "audience": "everyone" }` or `"invited"`, and `"publicParts": ["amount", …]` for what anybody may see.
 */
import { z } from 'zod';
import { postLot } from '../../../../../../usecases/lots/post-lot.ts';
import { doJson, type OfId } from '../../../../ask-json.ts';

const shape = z.strictObject({ audience: z.string(), publicParts: z.array(z.string()).exactOptional() });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => postLot(context, { lotId: id, ...asked }),
  });
}
