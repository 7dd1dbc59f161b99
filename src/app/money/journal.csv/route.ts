/**
 * The money entries as CSV, for an accounting program.
 */
import { exportJournal } from '../../../usecases/money/export-journal.ts';
import { answer } from '../../server/answer.ts';
import { currentContext } from '../../server/current-caller.ts';
import { fileResponse } from '../../server/file-response.ts';

export async function GET(request: Request): Promise<Response> {
  return await answer(async () => {
    const asked = new URL(request.url).searchParams;
    const [agreementId, from, to] = ['agreement', 'from', 'to'].map((name) => asked.get(name) || undefined);
    const text = await exportJournal(await currentContext(), { agreementId, from, to });
    const name = ['journal', from, to].filter((part) => part !== undefined).join('-');
    const bytes = new TextEncoder().encode(text);
    return fileResponse({ name: `${name}.csv`, kind: 'text/csv; charset=utf-8', bytes });
  });
}
