/**
 * What waits, and for whom, oldest first.
 */
import { readWaiting } from '../../../../usecases/loads/read-waiting.ts';
import { readJson } from '../../ask-json.ts';

export async function GET(): Promise<Response> {
  return await readJson(async (context) => ({ waiting: await readWaiting(context) }));
}
