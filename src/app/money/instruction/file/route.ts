/**
 * A payment instruction to hand to a bank: a table, or ISO 20022 XML.
 */
import { writeInstruction } from '../../../../usecases/money/instruct-payment.ts';
import { answer } from '../../../server/answer.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { fileResponse } from '../../../server/file-response.ts';
import { instructionWanted } from '../instruction-request.ts';

export async function GET(request: Request): Promise<Response> {
  return await answer(async () => {
    const asked = new URL(request.url).searchParams;
    const form = asked.get('form') === 'csv' ? 'csv' : 'pain.001';
    const wanted = instructionWanted((name) => asked.get(name) ?? undefined, undefined);
    const { text, name } = await writeInstruction(await currentContext(), { ...wanted, form });
    const kind = form === 'csv' ? 'text/csv; charset=utf-8' : 'application/xml; charset=utf-8';
    return fileResponse({ name, kind, bytes: new TextEncoder().encode(text) });
  });
}
