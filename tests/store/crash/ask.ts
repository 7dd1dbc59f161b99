/**
 * Asks a use case what was asked, as the party whose part it is: the seller weighs and settles, the buyer reports
 * results.
 */
import type { Tools } from '../../../src/usecases/context.ts';
import { recordLoads } from '../../../src/usecases/loads/record-loads.ts';
import { recordResults } from '../../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../../src/usecases/settlements/settle-loads.ts';
import type { Answer, Asked, Season } from './said.ts';

export async function ask(tools: Tools, { seller, buyer }: Season, asked: Asked): Promise<Answer> {
  const { agreementId, key } = asked;
  switch (asked.verb) {
    case 'record-loads':
      return await recordLoads({ ...tools, caller: seller }, { agreementId, key, loads: asked.rows });
    case 'record-results':
      return await recordResults({ ...tools, caller: buyer }, { agreementId, key, results: asked.rows });
    case 'settle': {
      const loads = asked.loadId === null ? { agreementId } : { agreementId, loadId: asked.loadId };
      return await settleLoads({ ...tools, caller: seller }, { ...loads, key });
    }
  }
}
