/**
 * The money of demo/paid-by-week, worked out by hand from its story in whole cents, with no code of the product: what
 * each load comes to, then each document and payment in the order of `money.txt`, and what is left at the end of
 * 30 October 2026. Figures are cents (`bigint`); quantities are read off the season's files and written down here.
 */

/** n ÷ d in whole cents, a half away from zero. Only figures above zero come here. */
function rounded(n: bigint, d: bigint): bigint {
  return (2n * n + d) / (2n * d);
}

interface Weighed {
  /** Pounds: gross less tare. */
  readonly net: bigint;
  /** Dry matter in tenths of a percent, which is as exact as the agreement takes it: 71.84 % is 718. */
  readonly dry: bigint;
  /** The quote in cents less 10. */
  readonly price: bigint;
}

/** What a load is priced at: its corn less its hauling. */
function priceOf({ net, dry, price }: Weighed): bigint {
  // Pounds of dry matter ÷ (56 × 84.5 %) to two places of a bushel: 47,960 × 71.8 % ÷ 47.32 = 727.71.
  const bushelsBy100 = rounded(net * dry * 100n * 100n, 1000n * 4732n);
  const corn = rounded(bushelsBy100 * price, 100n);
  // 3.10 a short ton as delivered: 23.98 × 3.10 = 74.338, so 74.34.
  const hauling = rounded(net * 310n, 2000n);
  return corn - hauling;
}

/** A cent a bushel of 56 lb as delivered: 47,960 ÷ 56 = 856.43 cents, so 8.56. */
function assessmentOf({ net }: Weighed): bigint {
  return rounded(net, 56n);
}

/** 1.85 a short ton of dry matter: 47,960 × 71.8 % ÷ 2000 × 1.85 = 31.852…, so 31.85. */
function storageOf({ net, dry }: Weighed): bigint {
  return rounded(net * dry * 185n, 1000n * 2000n);
}

/** What a load brings to its invoice. */
function broughtBy(load: Weighed): bigint {
  return priceOf(load) - assessmentOf(load) - storageOf(load);
}

function sumOf(amounts: readonly bigint[]): bigint {
  return amounts.reduce((sum, amount) => sum + amount, 0n);
}

/** Net pounds, dry matter and price of every load that was ever settled: gross − tare, rounded result, quote − 0.10. */
const LOADS = {
  701: { net: 78_420n - 30_460n, dry: 718n, price: 421n },
  702: { net: 79_180n - 31_020n, dry: 718n, price: 421n },
  703: { net: 77_900n - 30_480n, dry: 724n, price: 418n },
  704: { net: 78_660n - 30_980n, dry: 724n, price: 418n },
  // 70.95 % lies on the tie and goes up, to 71.0.
  705: { net: 79_040n - 30_440n, dry: 710n, price: 423n },
  706: { net: 78_240n - 31_040n, dry: 731n, price: 423n },
  707: { net: 78_960n - 30_420n, dry: 726n, price: 416n },
  708: { net: 77_820n - 30_960n, dry: 726n, price: 416n },
  709: { net: 79_300n - 30_480n, dry: 712n, price: 417n },
  710: { net: 78_580n - 31_000n, dry: 712n, price: 417n },
  // 73.55 % is a tie too: 73.6.
  711: { net: 78_740n - 30_440n, dry: 736n, price: 410n },
  712: { net: 79_620n - 30_020n, dry: 736n, price: 410n },
  713: { net: 78_060n - 30_500n, dry: 720n, price: 411n },
  714: { net: 78_900n - 30_460n, dry: 695n, price: 409n },
  715: { net: 78_340n - 30_980n, dry: 729n, price: 413n },
  716: { net: 79_120n - 30_420n, dry: 718n, price: 418n },
  717: { net: 77_960n - 31_020n, dry: 682n, price: 415n },
  718: { net: 78_480n - 30_480n, dry: 723n, price: 413n },
  719: { net: 79_060n - 30_440n, dry: 731n, price: 413n },
} as const satisfies Readonly<Record<string, Weighed>>;

/** Every load's price by its ticket, as first settled; to be held against demo/expected/paid-by-week.csv. */
export const PRICES: ReadonlyMap<string, bigint> = new Map(
  Object.entries(LOADS).map(([ticket, load]) => [ticket, priceOf(load)]),
);

/** 60 % of a value. */
function advanceOn(value: bigint): bigint {
  return rounded(value * 60n, 100n);
}

/** 120.00 a short ton as delivered. */
function byRate(net: bigint): bigint {
  return rounded(net * 12_000n, 2000n);
}

/** 9 % a year, a year of 365 days. */
function interestOn(principal: bigint, days: bigint): bigint {
  return rounded(principal * 9n * days, 100n * 365n);
}

function onePercentOf(amount: bigint): bigint {
  return rounded(amount, 100n);
}

// Documents, by number.

// 11 September. 705 has its result and no quote of its day: at the 4.30 of the 10th, so at 4.20, it is thought to be worth
// 2,987.35, and 60 % of it are 1,792.41. 706 has no result: 23.6 short tons × 120.00 = 2,832.00, of which 1,699.20.
const advance1 = advanceOn(priceOf({ ...LOADS[705], price: 420n })) + advanceOn(byRate(LOADS[706].net));

// 14 September: 701 to 706 bring 17,703.55, less the advances. Due on the 28th.
const invoice2 =
  sumOf([LOADS[701], LOADS[702], LOADS[703], LOADS[704], LOADS[705], LOADS[706]].map(broughtBy)) - advance1;
// Paid on 17 September, three days after: 1 % of 14,211.94 is 142.12.
const discount2 = onePercentOf(invoice2);

// 21 September: 707 to 710, due on 5 October. Paid on the 23rd less 1 %, 116.78; on the 29th the check is back.
const invoice3 = sumOf([LOADS[707], LOADS[708], LOADS[709], LOADS[710]].map(broughtBy));
const discount3 = onePercentOf(invoice3);

// 28 September: 711 to 713, due on 12 October.
const invoice4 = sumOf([LOADS[711], LOADS[712], LOADS[713]].map(broughtBy));

const fee5 = 3_500n;

// 2 October: 712 with a tare of 31,020 lb weighs 48,600 lb. It brings 2,982.13 where it brought 3,043.48.
const credit6 = broughtBy(LOADS[712]) - broughtBy({ ...LOADS[712], net: 79_620n - 31_020n });
// Invoice 4 less the note is paid on 3 October, the last of five days: 1 % of 8,806.15 is 88.0615, so 88.06.
const discount4 = onePercentOf(invoice4 - credit6);

// 5 October: 714 and 715, due on the 19th.
const invoice7 = broughtBy(LOADS[714]) + broughtBy(LOADS[715]);
// 12 October: 716 and 717, due on the 26th.
const invoice8 = broughtBy(LOADS[716]) + broughtBy(LOADS[717]);
// 19 October: 718, due on 2 November.
const invoice9 = broughtBy(LOADS[718]);

// Charged on 19 October through the 16th. Invoice 3 was due on 5 October and paid on the 15th, ten days late:
// 11,678.22 × 10 × 9 % ÷ 365 = 28.795… The fee was due on 29 September, sixteen days before: 35.00 × 16 × 9 % ÷ 365 = 0.138…
// Nothing else was paid after its day: advance 1 on the 11th itself, invoice 2 and invoice 4 before theirs.
const interest10 = interestOn(invoice3, 10n) + interestOn(fee5, 16n);

// 29 October: 720 at the 4.23 of the 27th, so at 4.13, is thought to be worth 2,939.44; 721 by the rate 2,905.20.
const valueOf720 = priceOf({ net: 78_620n - 31_000n, dry: 725n, price: 413n });
const valueOf721 = byRate(78_880n - 30_460n);
const valueOf722 = byRate(78_200n - 30_980n);
const advance11 = advanceOn(valueOf720) + advanceOn(valueOf721);

// Payments that are written down in the story.
const check1060 = 700_000n;
const setOff = 100_000n;

/** Each entry of the seller's statement: its day, its name, and what the dairy owes more by it. */
export const ENTRIES: readonly (readonly [string, string, bigint])[] = [
  ['2026-09-11', 'Advance invoice 1', advance1],
  ['2026-09-11', 'Transfer 40-118', -349_161n],
  ['2026-09-14', 'Invoice 2', invoice2],
  ['2026-09-18', 'Check 1043', -1_406_982n],
  ['2026-09-18', 'Discount for paying early', -discount2],
  ['2026-09-21', 'Invoice 3', invoice3],
  ['2026-09-24', 'Check 1047', -1_156_144n],
  ['2026-09-24', 'Discount for paying early', -discount3],
  ['2026-09-28', 'Invoice 4', invoice4],
  ['2026-09-29', 'Check 1047 taken back', 1_156_144n],
  ['2026-09-29', 'Discount taken back', discount3],
  ['2026-09-29', 'Fee invoice 5', fee5],
  ['2026-10-02', 'Credit note 6', -credit6],
  ['2026-10-05', 'Check 1052', -871_809n],
  ['2026-10-05', 'Discount for paying early', -discount4],
  ['2026-10-05', 'Invoice 7', invoice7],
  ['2026-10-12', 'Invoice 8', invoice8],
  ['2026-10-16', 'Transfer 40-131', -1_171_322n],
  ['2026-10-19', 'Invoice 9', invoice9],
  ['2026-10-19', 'Interest invoice 10', interest10],
  ['2026-10-20', 'Check 1060', -check1060],
  ['2026-10-29', 'Advance invoice 11', advance11],
];

// What the story pays settles its documents to the cent, which is what leaves the open items below and nothing else:
// Transfer 40-118 is advance 1, check 1043 invoice 2 less 142.12, check 1052 invoice 4 less its note and 88.06, and
// transfer 40-131 the fee and all of invoice 3.
export const SETTLED: readonly (readonly [string, bigint])[] = [
  ['Transfer 40-118', advance1 - 349_161n],
  ['Check 1043', invoice2 - discount2 - 1_406_982n],
  ['Check 1047', invoice3 - discount3 - 1_156_144n],
  ['Check 1052', invoice4 - credit6 - discount4 - 871_809n],
  ['Transfer 40-131', fee5 + invoice3 - 1_171_322n],
];

// Check 1060 pays invoice 7, and 1,305.52 stay on account. 1,000.00 of that are set off against the oldest debt, invoice 8.
const onAccount = check1060 - invoice7 - setOff;
// 717 brought 2,696.81 to invoice 8 and the dairy makes it 2,500.00.
const held = broughtBy(LOADS[717]) - 250_000n;

/** Open on 30 October: by name, as issued, and what is left. */
export const OPEN: readonly (readonly [string, bigint, bigint])[] = [
  ['Invoice 8', invoice8, invoice8 - setOff],
  ['Invoice 9', invoice9, invoice9],
  ['Interest invoice 10', interest10, interest10],
  ['Advance invoice 11', advance11, advance11],
  ['Paid or credited, not used yet', -onAccount, -onAccount],
];

export const HELD = held;

/** Invoice 8 was due four days before, advance 11 one day before; 9 and 10 are due on 2 November. */
export const AGEING = {
  notDue: invoice9 + interest10,
  days1to30: invoice8 - setOff - held + advance11,
  held,
  onAccount: -onAccount,
};

/** 719 has settled and its week is not over; 720, 721 and 722 wait. */
export const NOT_INVOICED = {
  settled: broughtBy(LOADS[719]),
  provisional: valueOf720 + valueOf721 + valueOf722,
  advances: advance11,
};

/** 4,669.05 + 2,913.83 + 28.94 + 3,506.78 − 305.52, added up by hand. */
export const CLOSING = 1_081_308n;
