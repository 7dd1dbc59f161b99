/**
 * A statement as CSV, told for its reader.
 */
import { writeStatementCsv } from '../../../../usecases/money/print-money.ts';
import { answer } from '../../../server/answer.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { textFile } from '../../../server/file-response.ts';
import { wantedIn } from '../statement-request.ts';

export async function GET(request: Request): Promise<Response> {
  return await answer(async () =>
    textFile(await writeStatementCsv(await currentContext(), wantedIn(request)), 'text/csv; charset=utf-8'),
  );
}
