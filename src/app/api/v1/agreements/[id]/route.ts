/**
 * One agreement in words, with its series and the samples that it awaits.
 */
import { readAgreementWords } from '../../../../../usecases/agreements/read-agreement-words.ts';
import { type OfId, readJson } from '../../../ask-json.ts';

export async function GET(_: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await readJson((context) => readAgreementWords(context, { agreementId: id }));
}
