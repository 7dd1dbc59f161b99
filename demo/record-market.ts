/**
 * Feed for sale in the demo's record: more parties, lots, and offers that wait for an answer, made through the same use
 * cases as anybody's.
 */
import type { Context } from '../src/usecases/context.ts';
import { draftLot } from '../src/usecases/lots/keep-lot.ts';
import { postLot } from '../src/usecases/lots/post-lot.ts';
import { counterOffer } from '../src/usecases/offers/counter-offer.ts';
import { makeOffer } from '../src/usecases/offers/make-offer.ts';
import { askingBy, demoLots } from './lots.ts';

/** By the party's name; each is an owner. */
export type DemoParties = Readonly<Record<string, Context>>;

/** Posts the lots and makes the offers. */
export async function recordDemoMarket(parties: DemoParties): Promise<void> {
  const of = (name: string): Context => {
    const context = parties[name];
    if (!context) throw new Error(`The demo has no party ${name}`);
    return context;
  };
  const lots: string[] = [];
  for (const { seller, document, address, audience, publicParts } of demoLots(of('Quillback Acres').now())) {
    const { lotId } = await draftLot(of(seller), { document, address });
    await postLot(of(seller), { lotId, audience, ...(publicParts ? { publicParts } : {}) });
    lots.push(lotId);
  }
  const [wholeEar = '', shelled = '', ear = ''] = lots;
  const asking = askingBy('starch-and-fibre', 'whole-ear-corn');
  const { offerId } = await makeOffer(of('Tarn Hollow Dairy'), {
    lotId: wholeEar,
    document: withShare(asking, '55'),
    message: 'We can take all of it within two weeks if the fibre counts for a little less.',
    validDays: '10',
  });
  await counterOffer(of('Quillback Acres'), {
    offerId,
    baseVersion: 1,
    document: withShare(asking, '58'),
    message: 'Half way, and we haul at night as well.',
    validDays: '7',
  });
  await makeOffer(of('Lanternfield Dairy'), { lotId: wholeEar, document: asking, validDays: '14' });
  await makeOffer(of('Sorrel Bend Dairy'), {
    lotId: wholeEar,
    document: askingBy('flat-with-schedules', 'whole-ear-corn'),
    message: 'We would rather know the price per ton beforehand.',
    validDays: '5',
  });
  await makeOffer(of('Lanternfield Dairy'), {
    lotId: shelled,
    document: askingBy('bushels-by-shrink', 'high-moisture-shelled-corn'),
    validDays: '6',
  });
  await makeOffer(of('Tarn Hollow Dairy'), {
    lotId: ear,
    document: askingBy('energy-share', 'high-moisture-ear-corn'),
    validDays: '9',
  });
}

/** The formula with another share for its remainder. */
function withShare(asking: Readonly<Record<string, unknown>>, sharePercent: string): Record<string, unknown> {
  const price = (asking['price'] as readonly Record<string, unknown>[]).map((term) =>
    term['term'] === 'remainder' ? { ...term, sharePercent } : term,
  );
  return { ...asking, price };
}
