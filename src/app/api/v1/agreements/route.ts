/**
 * The agreements of the caller's party; and recording one, as both sides hold it.
 */
import { z } from 'zod';
import { readAgreementList } from '../../../../usecases/agreements/read-agreement-list.ts';
import { recordAgreement } from '../../../../usecases/agreements/record-agreement.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { doJson, readJson } from '../../ask-json.ts';

export async function GET(): Promise<Response> {
  const locale = await readerLocale();
  return await readJson(async (context) => ({ agreements: await readAgreementList(context, { locale }) }));
}

const shape = z.strictObject({ document: z.unknown(), sellerId: z.string(), buyerId: z.string() });

export async function POST(request: Request): Promise<Response> {
  return await doJson(request, { shape, work: recordAgreement });
}
