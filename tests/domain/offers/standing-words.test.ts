/**
 * How an offer stands in words: both sides read the same sentence, and what ended it names no other buyer.
 */
import { expect, test } from 'vitest';
import { ENDINGS, PURPOSES } from '../../../src/domain/offers/offer.ts';
import { type OfferStanding, offerStandingInWords } from '../../../src/domain/offers/standing-words.ts';

const OFFER: OfferStanding = {
  purpose: 'agreement',
  state: 'open',
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  version: 2,
  by: 'buyer',
  signedBy: [],
  until: '2 December, 14:05',
  lotNumber: 3,
};

test('an open one names whoever is to act, and until when', () => {
  expect(offerStandingInWords(OFFER)).toBe(
    'Tarn Hollow Dairy sent version 2. It waits for the answer of Quillback Acres until 2 December, 14:05.',
  );
  expect(offerStandingInWords({ ...OFFER, by: 'seller', signedBy: ['buyer'] })).toBe(
    'Tarn Hollow Dairy has signed version 2. It becomes an agreement if Quillback Acres signs the same version by 2 December, 14:05.',
  );
});

test('whoever sent the newest version withdrew, the other side declined', () => {
  expect(offerStandingInWords({ ...OFFER, state: 'withdrawn' })).toMatch(/^Tarn Hollow Dairy withdrew/);
  expect(offerStandingInWords({ ...OFFER, state: 'declined' })).toMatch(/^Quillback Acres declined/);
  expect(offerStandingInWords({ ...OFFER, by: 'seller', state: 'declined' })).toMatch(
    /^Tarn Hollow Dairy declined/,
  );
});

test('a lot that was sold is told without a name but the seller’s', () => {
  expect(offerStandingInWords({ ...OFFER, state: 'lot-sold' })).toBe(
    'Lot 3 of Quillback Acres went to another buyer, so this offer is over.',
  );
});

test('no two states of one purpose are told alike', () => {
  for (const purpose of PURPOSES) {
    const told = (['open', 'lapsed', ...ENDINGS] as const).map((state) =>
      offerStandingInWords({ ...OFFER, purpose, state }),
    );
    expect(new Set(told).size).toBe(told.length);
  }
});
