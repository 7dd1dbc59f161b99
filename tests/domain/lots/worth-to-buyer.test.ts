/**
 * What a lot costs a buyer, against figures worked by hand.
 */
import { describe, expect, test } from 'vitest';
import { checkLot, type LotDocument } from '../../../src/domain/lots/lot-document.ts';
import { lotFigures } from '../../../src/domain/lots/lot-figures.ts';
import {
  type BuyersBasis,
  perPound,
  quotesWanted,
  worthToBuyer,
} from '../../../src/domain/lots/worth-to-buyer.ts';
import { decimal, type Exact } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { LOT, TERMS } from '../../usecases/bargain.ts';

const FLAT = {
  ...TERMS,
  references: {},
  price: [{ term: 'flat', label: 'All of it', rate: '50', per: 'short-ton', weight: 'as-fed' }],
};

function lot(changes: object = {}): LotDocument {
  const { lot: checked, problems } = checkLot({ ...LOT, asking: FLAT, ...changes });
  if (!checked) throw new Error(JSON.stringify(problems));
  return checked;
}

const NONE: BuyersBasis = {
  quotes: new Map(),
  load: { net: decimal('48000'), unit: 'lb' },
  haul: undefined,
  distance: undefined,
};
const TWENTY_MILES = { length: decimal('20'), unit: 'mile' } as const;
const RATE = { rate: decimal('4.25'), per: 'mile' } as const;

function priced(of: LotDocument, basis: BuyersBasis) {
  const worth = worthToBuyer(of, basis);
  if (worth.kind !== 'priced') throw new Error(JSON.stringify(worth.kind));
  const print = (price: Exact | undefined) => price && printDecimal(price);
  return {
    haul: worth.haul,
    asking: print(worth.asking),
    asFed: print(worth.asFed),
    dry: print(worth.dry),
    starch: print(worth.starch),
  };
}

describe('a flat price of 50.00 a short ton, on feed of 58 % dry matter with 56 % starch', () => {
  test('hauled by the seller: 50 / 0.58, and that / 0.56', () => {
    expect(priced(lot(), { ...NONE, haul: RATE, distance: TWENTY_MILES })).toEqual({
      haul: { kind: 'none' },
      asking: '50',
      asFed: '50',
      dry: '86.206897',
      starch: '153.940887',
    });
  });

  test('hauled by the buyer: 20 loaded miles at 4.25 are 85.00 on 24 tons, 3.541667 a ton', () => {
    const mine = lot({ hauledBy: 'buyer' });
    const { haul, ...prices } = priced(mine, { ...NONE, haul: RATE, distance: TWENTY_MILES });
    expect(haul.kind === 'counted' && printDecimal(haul.perTon)).toBe('3.541667');
    expect(prices).toEqual({ asking: '50', asFed: '53.541667', dry: '92.313218', starch: '164.845033' });
  });

  test('a rate by the kilometre goes by the distance in kilometres: 32.18688 at 2.00 are 64.37376 on 24 tons', () => {
    const rate = { rate: decimal('2'), per: 'km' } as const;
    expect(priced(lot({ hauledBy: 'buyer' }), { ...NONE, haul: rate, distance: TWENTY_MILES }).asFed).toBe(
      '52.68224',
    );
  });

  test('haulage that is not known is named and not counted', () => {
    const mine = lot({ hauledBy: 'buyer' });
    expect(priced(mine, NONE)).toMatchObject({
      asFed: '50',
      haul: { kind: 'unknown', lacks: ['rate', 'distance'] },
    });
    expect(priced(mine, { ...NONE, haul: RATE }).haul).toEqual({ kind: 'unknown', lacks: ['distance'] });
  });

  test('a tonne is a tonne: 22,000 kg at 55.00 a tonne, 20 miles at 4.25 are 3.863636 a tonne', () => {
    const asking = { ...FLAT, price: [{ ...FLAT.price[0], per: 'tonne', rate: '55' }] };
    const load = { net: decimal('22000'), unit: 'kg' } as const;
    const metric = lot({ hauledBy: 'buyer', ton: 'tonne', asking });
    expect(priced(metric, { ...NONE, load, haul: RATE, distance: TWENTY_MILES }).asFed).toBe('58.863636');
  });

  test('prices of different tons are put in order by the pound: 55.00 a tonne is less than 50.00 a short ton', () => {
    expect(printDecimal(perPound(decimal('50'), { ton: 'short-ton' }))).toBe('0.025');
    expect(printDecimal(perPound(decimal('55'), { ton: 'tonne' }))).toBe('0.024948');
  });
});

describe('a formula that follows a quote', () => {
  const following = lot({ asking: TERMS });
  const key = 'corn-elevator-bid, USD per bushel';

  test('asks for it, by the series, and guesses nothing', () => {
    expect(quotesWanted(following.asking as never).map((wanted) => wanted.key)).toEqual([key]);
    expect(worthToBuyer(following, NONE)).toMatchObject({
      kind: 'lacking',
      quotes: [{ key }],
      distance: false,
    });
  });

  // Corn at 4.40 less 0.15 is 4.25 on 47.32 lb of dry matter, 0.089813 a pound. Grain-equivalent is 56 / 71 of the dry
  // matter, the rest is paid at 60 %: a pound of dry matter pays 0.089813 × (0.788732 + 0.6 × 0.211268) = 0.082223. Times
  // 1,160 lb in a ton of feed 95.38, less 4.25 for hauling 91.13. NDF 25 is within range.
  test('is priced with it: 91.13 a ton as fed', () => {
    const { asFed } = priced(following, { ...NONE, quotes: new Map([[key, '4.40']]) });
    expect(Number(asFed)).toBeCloseTo(
      1160 * ((4.4 - 0.15) / (56 * 0.845)) * (56 / 71 + 0.6 * (1 - 56 / 71)) - 4.25,
      // Each line of a load is rounded to the cent once: on 24 tons less than a tenth of a cent a ton.
      2,
    );
    expect(Number(asFed).toFixed(2)).toBe('91.13');
  });

  test('a price by distance asks for the distance', () => {
    const asking = {
      ...FLAT,
      price: [...FLAT.price, { term: 'flat', label: 'Haul', rate: '-3', per: 'mile' }],
    };
    expect(worthToBuyer(lot({ asking }), NONE)).toMatchObject({
      kind: 'lacking',
      quotes: [],
      distance: true,
    });
    // 3.00 × 20 = 60.00 of 1,200.00 on 24 tons.
    expect(priced(lot({ asking }), { ...NONE, distance: TWENTY_MILES }).asFed).toBe('47.5');
  });
});

describe('figures of a lot', () => {
  const of = (document: LotDocument) => {
    const { figures, assumed } = lotFigures(document);
    const at = (measure: 'dry-matter' | 'starch' | 'ndf') =>
      printDecimal(figures.get(measure) ?? decimal('-1'));
    return [
      at('dry-matter'),
      at('starch'),
      at('ndf'),
      assumed.includes('dry-matter'),
      assumed.includes('starch'),
    ];
  };

  test('are the plain mean of its tests: 58 and 61 are 59.5', () => {
    const tests = [LOT.tests[0], { ...LOT.tests[0], 'dry-matter': '61', starch: '58', ndf: '24' }];
    expect(of(lot({ tests }))).toEqual(['59.5', '57', '24.5', false, false]);
  });

  test('without tests: the middle of 38 to 45 % moisture leaves 58.5 %, and the kind’s usual starch and NDF, so marked', () => {
    expect(of(lot({ tests: [] }))).toEqual(['58.5', '55', '25', true, true]);
  });
});
