/**
 * The questions of demo/asked-again, worked out by hand from its story in whole cents, with no code of the product: what
 * each load comes to, and how each question ends. What that does to the money is in `asked-again-money.ts`. Figures are
 * cents (`bigint`); quantities are read off the season's files and written down here.
 */

/** n ÷ d in whole cents, a half away from zero. Only figures above zero come here. */
function rounded(n: bigint, d: bigint): bigint {
  return (2n * n + d) / (2n * d);
}

interface Tested {
  /** Tenths of a percent, which is as exact as the agreement takes them: 56.42 % is 564. */
  readonly dry: bigint;
  readonly starch: bigint;
  readonly ndf: bigint;
}

export interface Weighed extends Tested {
  /** Pounds: gross less tare. */
  readonly net: bigint;
  /** The quote in cents less 15. */
  readonly price: bigint;
}

/** What a load is priced at: its grain and the rest of it, less fibre above 27 % and hauling. */
export function priceOf({ net, dry, starch, ndf, price }: Weighed): bigint {
  // A bushel of corn is 56 × 84.5 % = 47.32 lb of dry matter, 71 % of it starch. Of 48,040 lb at 56.4 %, 54.6 ÷ 71 is grain:
  // 27,094.56 × 0.769014… = 20,836.10… lb, at 4.16 ÷ 47.32 a pound 1,831.74.
  const grain = rounded(net * dry * starch * price * 100n, 1000n * 710n * 4732n);
  // The rest, 6,258.46 lb, earns 55 % of that price: 302.61.
  const rest = rounded(net * dry * (710n - starch) * price * 55n, 1000n * 710n * 4732n);
  // 28.4 % is 1.4 points above 27, 80 cents each on 13.54728 short tons of dry matter: 15.17. From 31 % on a point costs 150.
  const tenths = ndf > 270n ? ndf - 270n : 0n;
  const perTon = tenths <= 40n ? tenths * 8n : 40n * 8n + (tenths - 40n) * 15n;
  const fibre = rounded(net * dry * perTon, 1000n * 2000n);
  // 3.60 a short ton as delivered: 24.02 × 3.60 = 86.472, so 86.47.
  const hauling = rounded(net * 360n, 2000n);
  return grain + rest - fibre - hauling;
}

/** All of them together. */
export function sumOf(amounts: readonly bigint[]): bigint {
  return amounts.reduce((sum, amount) => sum + amount, 0n);
}

// Alder Bench's figures, rounded to tenths. 57.05 % dry matter lies on the tie and goes up.
const E1: Tested = { dry: 564n, starch: 546n, ndf: 284n };
const E2: Tested = { dry: 559n, starch: 521n, ndf: 299n };
const E3: Tested = { dry: 571n, starch: 552n, ndf: 279n };
const E4: Tested = { dry: 568n, starch: 540n, ndf: 287n };
const E5: Tested = { dry: 549n, starch: 549n, ndf: 306n };
const E6: Tested = { dry: 553n, starch: 535n, ndf: 293n };
const E7: Tested = { dry: 562n, starch: 549n, ndf: 282n };

/** Every load as it was first settled: gross − tare, its sample, and its day's quote − 0.15. */
export const LOADS = {
  801: { net: 78_480n - 30_440n, ...E1, price: 416n },
  802: { net: 79_160n - 31_020n, ...E1, price: 416n },
  803: { net: 77_960n - 30_460n, ...E2, price: 412n },
  804: { net: 78_720n - 30_980n, ...E2, price: 412n },
  805: { net: 78_340n - 30_480n, ...E3, price: 413n },
  806: { net: 78_960n - 30_420n, ...E3, price: 413n },
  807: { net: 78_240n - 31_040n, ...E3, price: 413n },
  808: { net: 77_880n - 30_440n, ...E4, price: 411n },
  809: { net: 79_020n - 31_000n, ...E4, price: 411n },
  810: { net: 78_560n - 30_460n, ...E5, price: 410n },
  811: { net: 78_100n - 30_960n, ...E5, price: 410n },
  812: { net: 78_660n - 30_480n, ...E6, price: 415n },
  813: { net: 77_820n - 31_020n, ...E6, price: 415n },
  814: { net: 78_900n - 30_420n, ...E7, price: 419n },
  815: { net: 78_380n - 30_980n, ...E7, price: 419n },
} as const satisfies Readonly<Record<string, Weighed>>;

/** Every load's price by its ticket, as first settled; to be held against demo/expected/asked-again.csv. */
export const PRICES: ReadonlyMap<string, bigint> = new Map(
  Object.entries(LOADS).map(([ticket, load]) => [ticket, priceOf(load)]),
);

/** What loads come to more by other figures. */
function changeOf(loads: readonly Weighed[], figures: Partial<Weighed>): bigint {
  return sumOf(loads.map((load) => priceOf({ ...load, ...figures }) - priceOf(load)));
}

// The figures that the questions end with.

// Second weighing of 806: 78,340 − 30,440 = 47,900 lb, 640 lb below 48,540. By Handbook 44 for class III L at 20 lb, one
// division for each 500 or part of them: 78,960 and 78,340 lb are 3,948 and 3,917 divisions, 8 × 20 = 160 lb each; 30,420
// and 30,440 lb are 1,521 and 1,522, 4 × 20 = 80 lb each. Together 480 lb, so the second weighing counts.
const weighed806 = { ...LOADS[806], net: 47_900n };
// E-1: 54.61 and the referee's 52.80 lie 1.81 apart, more than 1.5. E-3: 55.23 and 53.40, 1.83. E-5: 54.87 and 53.10, 1.77.
const starchE1 = 528n;
const starchE3 = 534n;
const starchE5 = 531n;
// E-2: 52.14 and 51.70 lie 0.44 apart; E-4: 54.02 and 53.12, 0.90. The first stands for both.
// E-4: 56.12 and 55.28 lie 0.84 apart, within R = 1.2, so their mean 55.70 counts.
export const dryE4 = 557n;
// E-2: the referee never tested its fibre. The mean of 29.86 and 30.64 is 30.25, which lies on the tie and goes up to 30.3.
const ndfE2 = 303n;
// E-5: both agreed on 29.80.
const ndfE5 = 298n;

export const ON_E1 = [LOADS[801], LOADS[802]];
export const ON_E2 = [LOADS[803], LOADS[804]];
const ON_E3 = [LOADS[805], weighed806, LOADS[807]];
export const ON_E4 = [LOADS[808], LOADS[809]];
export const ON_E5 = [LOADS[810], LOADS[811]];
// The fibre of E-5 is agreed on a day after its starch was decided.
const ON_E5_LATER = ON_E5.map((load) => ({ ...load, starch: starchE5 }));

/** What the loads of each question that moved something come to more, by how it ended. */
export const changed = {
  weight806: priceOf(weighed806) - priceOf(LOADS[806]),
  starchE1: changeOf(ON_E1, { starch: starchE1 }),
  dryE4: changeOf(ON_E4, { dry: dryE4 }),
  starchE3: changeOf(ON_E3, { starch: starchE3 }),
  starchE5: changeOf(ON_E5, { starch: starchE5 }),
  ndfE2: changeOf(ON_E2, { ndf: ndfE2 }),
  ndfE5: changeOf(ON_E5_LATER, { ndf: ndfE5 }),
};

// What tests cost, in cents.
export const REFEREE = 4_800n;
export const SECOND_WEIGHING = 2_500n;
export const BENCH_AGAIN = 3_000n;
export const BUYERS_DRY_MATTER = 2_200n;
const SELLERS_DRY_MATTER = 2_400n;

export interface EndedQuestion {
  readonly what: string;
  readonly because: string;
  readonly value: string;
  readonly changed: bigint;
  readonly sellerBears: bigint;
  readonly buyerBears: bigint;
  /** What followed at once, and what the dairy owes more by it. */
  readonly documents: readonly (readonly [string, bigint])[];
}

/**
 * Every question that has ended, in the order in which they were asked. Whoever asked bears the tests, unless the price
 * moved its way: then the other side does. What a side bears beyond what it paid itself is a credit note or a fee.
 */
export const ENDED: readonly EndedQuestion[] = [
  {
    what: 'Net weight of load 806',
    because: 'second-moved-it',
    value: '47900',
    changed: changed.weight806,
    sellerBears: SECOND_WEIGHING,
    buyerBears: 0n,
    documents: [
      ['Credit note 2', changed.weight806],
      ['Credit note 3', -SECOND_WEIGHING],
    ],
  },
  {
    what: 'NDF of sample E-1',
    because: 'both-confirmed',
    value: '28.43',
    changed: 0n,
    sellerBears: 0n,
    buyerBears: 0n,
    documents: [],
  },
  {
    what: 'NDF of sample E-2',
    because: 'no-referee',
    value: '30.25',
    changed: changed.ndfE2,
    sellerBears: BENCH_AGAIN,
    buyerBears: 0n,
    documents: [
      ['Credit note 13', changed.ndfE2],
      ['Credit note 14', -BENCH_AGAIN],
    ],
  },
  {
    what: 'Starch of sample E-1',
    because: 'referee-moved-it',
    value: '52.80',
    changed: changed.starchE1,
    sellerBears: REFEREE,
    buyerBears: 0n,
    documents: [
      ['Credit note 5', changed.starchE1],
      ['Credit note 6', -REFEREE],
    ],
  },
  {
    // The grower asked, and paid the referee itself.
    what: 'Starch of sample E-2',
    because: 'first-stands',
    value: '52.14',
    changed: 0n,
    sellerBears: REFEREE,
    buyerBears: 0n,
    documents: [],
  },
  {
    // Each side paid its own laboratory; the grower gives back what the dairy paid.
    what: 'Dry matter of sample E-4',
    because: 'mean-of-two',
    value: '55.70',
    changed: changed.dryE4,
    sellerBears: BUYERS_DRY_MATTER + SELLERS_DRY_MATTER,
    buyerBears: 0n,
    documents: [
      ['Credit note 8', changed.dryE4],
      ['Credit note 9', -BUYERS_DRY_MATTER],
    ],
  },
  {
    what: 'Starch of sample E-3',
    because: 'referee-moved-it',
    value: '53.40',
    changed: changed.starchE3,
    sellerBears: REFEREE,
    buyerBears: 0n,
    documents: [
      ['Credit note 10', changed.starchE3],
      ['Credit note 11', -REFEREE],
    ],
  },
  {
    // The dairy asked and nothing moved. The grower had paid the referee: once, though its figure came twice.
    what: 'Starch of sample E-4',
    because: 'first-stands',
    value: '54.02',
    changed: 0n,
    sellerBears: 0n,
    buyerBears: REFEREE,
    documents: [['Fee invoice 15', REFEREE]],
  },
  {
    // The grower bears the referee, and had paid it.
    what: 'Starch of sample E-5',
    because: 'referee-moved-it',
    value: '53.10',
    changed: changed.starchE5,
    sellerBears: REFEREE,
    buyerBears: 0n,
    documents: [['Credit note 12', changed.starchE5]],
  },
  {
    what: 'NDF of sample E-5',
    because: 'both-confirmed',
    value: '29.80',
    changed: changed.ndfE5,
    sellerBears: 0n,
    buyerBears: 0n,
    documents: [['Debit note 16', changed.ndfE5]],
  },
];
