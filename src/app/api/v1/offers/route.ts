/**
 * The offers of the caller's party, by what they are about; and making one on a lot. Signing is for a person, on a page.
 */
import { z } from 'zod';
import { makeOffer } from '../../../../usecases/offers/make-offer.ts';
import { readOfferList } from '../../../../usecases/offers/read-offer-list.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { doJson, readJson } from '../../ask-json.ts';

export async function GET(): Promise<Response> {
  const locale = await readerLocale();
  return await readJson(async (context) => ({
    groups: (await readOfferList(context, { locale })).map(({ beside, ...group }) => ({
      ...group,
      beside: beside && { ...beside, prices: Object.fromEntries(beside.prices) },
    })),
  }));
}

const shape = z.strictObject({
  lotId: z.string(),
  document: z.record(z.string(), z.unknown()),
  message: z.string().default(''),
  validDays: z.string(),
});

export async function POST(request: Request): Promise<Response> {
  return await doJson(request, { shape, work: makeOffer });
}
