/**
 * The money of demo/asked-again, worked out by hand from its story in whole cents, with no code of the product: what is held
 * while it is questioned, then each document and payment in the order of `money.txt`, and what is left at the end of
 * 27 November 2026. Figures are cents (`bigint`); below zero, the dairy owes less.
 */
import {
  BENCH_AGAIN,
  BUYERS_DRY_MATTER,
  changed,
  dryE4,
  LOADS,
  ON_E1,
  ON_E2,
  ON_E4,
  ON_E5,
  priceOf,
  REFEREE,
  SECOND_WEIGHING,
  sumOf,
  type Weighed,
} from './asked-again.ts';

/** What a load would lose by what the dairy made of it. */
function heldOf(load: Weighed, claimed: Partial<Weighed>): bigint {
  return priceOf(load) - priceOf({ ...load, ...claimed });
}

const later808 = { ...LOADS[808], dry: dryE4 };
const later809 = { ...LOADS[809], dry: dryE4 };

/**
 * Everything that was ever held, by day, question and ticket. Invoice 1 is paid when E-1 to E-3 are questioned, and what the
 * grower asks for is not held, since it would raise the price. The weight was questioned before its invoice was there. The
 * starch of E-4 is held anew once its dry matter is decided, by what its loads come to then.
 */
export const HELD: readonly (readonly [day: string, what: string, ticket: string, amount: bigint])[] = [
  ['2026-11-09', 'weight', '806', heldOf(LOADS[806], { net: 47_900n })],
  ['2026-11-10', 'ndf E-1', '801', heldOf(LOADS[801], { ndf: 312n })],
  ['2026-11-10', 'ndf E-1', '802', heldOf(LOADS[802], { ndf: 312n })],
  ['2026-11-17', 'dry-matter E-4', '808', heldOf(LOADS[808], { dry: 552n })],
  ['2026-11-17', 'dry-matter E-4', '809', heldOf(LOADS[809], { dry: 552n })],
  ['2026-11-18', 'starch E-4', '808', heldOf(LOADS[808], { starch: 524n })],
  ['2026-11-18', 'starch E-4', '809', heldOf(LOADS[809], { starch: 524n })],
  ['2026-11-19', 'starch E-5', '810', heldOf(LOADS[810], { starch: 532n })],
  ['2026-11-19', 'starch E-5', '811', heldOf(LOADS[811], { starch: 532n })],
  ['2026-11-23', 'starch E-4', '808', heldOf(later808, { starch: 524n })],
  ['2026-11-23', 'starch E-4', '809', heldOf(later809, { starch: 524n })],
  ['2026-11-24', 'starch E-7', '814', heldOf(LOADS[814], { starch: 530n })],
  ['2026-11-24', 'starch E-7', '815', heldOf(LOADS[815], { starch: 530n })],
];

/** Of the question that is open at the end. */
export const STILL_HELD = sumOf(HELD.slice(-2).map(([, , , amount]) => amount));

// Invoices by the Monday after their week; each is due 14 days later.
const invoice1 = sumOf([...ON_E1, ...ON_E2, LOADS[805], LOADS[806], LOADS[807]].map(priceOf));
const invoice4 = sumOf([...ON_E4, ...ON_E5].map(priceOf));
const invoice7 = sumOf([LOADS[812], LOADS[813], LOADS[814], LOADS[815]].map(priceOf));

// Payments that are written down in the story.
const check2101 = 1_404_091n;
const setOff = 31_719n;
const transfer41207 = 741_308n;

// On account: what the grower gives back of tests, and what came off invoice 1 after it was paid.
const onAccount =
  SECOND_WEIGHING +
  REFEREE +
  BUYERS_DRY_MATTER +
  REFEREE +
  BENCH_AGAIN -
  (changed.starchE1 + changed.starchE3 + changed.ndfE2);

/** What of each payment is left over: each settles what it is for to the cent. */
export const LEFT_OVER: readonly (readonly [string, bigint])[] = [
  ['Check 2101', check2101 - (invoice1 + changed.weight806)],
  ['The set-off', setOff - onAccount],
  // The fee fell due first; the rest of the set-off went to invoice 4.
  ['Transfer 41-207', transfer41207 - (invoice4 + changed.dryE4 + changed.starchE5 - (setOff - REFEREE))],
];

/** Each entry of the grower's statement: its day, its name, and what the dairy owes more by it. */
export const ENTRIES: readonly (readonly [string, string, bigint])[] = [
  ['2026-11-09', 'Invoice 1', invoice1],
  ['2026-11-10', 'Credit note 2', changed.weight806],
  ['2026-11-10', 'Credit note 3', -SECOND_WEIGHING],
  ['2026-11-12', 'Check 2101', -check2101],
  ['2026-11-16', 'Invoice 4', invoice4],
  ['2026-11-19', 'Credit note 5', changed.starchE1],
  ['2026-11-19', 'Credit note 6', -REFEREE],
  ['2026-11-23', 'Invoice 7', invoice7],
  ['2026-11-23', 'Credit note 8', changed.dryE4],
  ['2026-11-23', 'Credit note 9', -BUYERS_DRY_MATTER],
  ['2026-11-24', 'Credit note 10', changed.starchE3],
  ['2026-11-24', 'Credit note 11', -REFEREE],
  ['2026-11-24', 'Credit note 12', changed.starchE5],
  ['2026-11-25', 'Credit note 13', changed.ndfE2],
  ['2026-11-25', 'Credit note 14', -BENCH_AGAIN],
  ['2026-11-25', 'Fee invoice 15', REFEREE],
  ['2026-11-25', 'Debit note 16', changed.ndfE5],
  ['2026-11-27', 'Transfer 41-207', -transfer41207],
];

/** Open on 27 November: by name and what is left. */
export const OPEN: readonly (readonly [string, bigint])[] = [
  ['Invoice 7', invoice7],
  ['Debit note 16', changed.ndfE5],
];

/** 7,962.13 + 16.73, added up by hand. */
export const CLOSING = 797_886n;
