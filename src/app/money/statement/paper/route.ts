/**
 * A statement as PDF, told for its reader.
 */
import { printStatement } from '../../../../usecases/money/print-money.ts';
import { answerPaper } from '../../../server/paper.ts';
import { wantedIn } from '../statement-request.ts';

export async function GET(request: Request): Promise<Response> {
  return await answerPaper(request, (context, { fonts }) =>
    printStatement(context, { ...wantedIn(request), fonts }),
  );
}
