/**
 * Floors that lie above ceilings: one limit undoes another, or a limit bites on every load whatever the price of
 * grain, so that the rest of the formula decides nothing. A single limit or reference with its own floor above its own
 * ceiling is an error of the agreement and does not come here.
 */
import type { TermOf } from '../../agreement/document.ts';
import { referenceOf } from '../../settlement/prepare-term.ts';
import type { ExampleLoad } from '../example-loads.ts';
import { prepareTriedLoad, type TriedLoad } from '../try-out.ts';
import type { Advice } from './advice.ts';
import { type Ground, moneyFrom } from './ground.ts';

/** Warnings about limits that cross, and about one that always bites. */
export function adviseOnLimits(ground: Ground): Advice[] {
  const limits = ground.agreement.price.flatMap((term, index) =>
    term.term === 'limit' ? [{ term, index }] : [],
  );
  if (limits.length === 0) return [];
  const messages = [...undoneLimits(ground, limits), ...limitsThatAlwaysBite(ground, limits)];
  return messages.map((message) => ({ kind: 'floor-above-ceiling', message }));
}

interface Placed {
  readonly term: TermOf<'limit'>;
  readonly index: number;
}

/** A quote below and above anything that is quoted; floors and ceilings of references hold it. */
const LOWEST = '0';
const HIGHEST = '1000000000';

/** Pairs of limits of which the later takes away what the earlier gave, on some example load, at any price of grain. */
function undoneLimits(ground: Ground, limits: readonly Placed[]): string[] {
  const extremes = [LOWEST, HIGHEST].map((quote) => loadsAt(ground, quote));
  return limits.flatMap((later, place) =>
    limits.slice(0, place).flatMap((earlier) => {
      const undone = extremes.flat().find(({ tried }) => isUndone(tried, { earlier, later }));
      return undone ? [tellUndone(ground, { earlier, later, undone })] : [];
    }),
  );
}

interface PricedLoad {
  readonly example: ExampleLoad;
  readonly tried: TriedLoad;
}

/** The examples, with every quote at one figure; a fixed price stays. */
function loadsAt({ agreement, load, examples }: Ground, quote: string): PricedLoad[] {
  const quotes = new Map(
    Object.entries(agreement.references).flatMap(([name, { rule }]): [string, string][] =>
      rule.kind === 'fixed' ? [] : [[name, quote]],
    ),
  );
  const tryLoad = prepareTriedLoad(agreement, { quotes, load });
  return examples.map((example) => ({ example, tried: tryLoad(example.figures) }));
}

function amountAt(tried: TriedLoad, { index }: Placed): bigint {
  return tried.impossible === undefined ? (tried.lines[index]?.amount ?? 0n) : 0n;
}

interface Pair {
  readonly earlier: Placed;
  readonly later: Placed;
}

function isUndone(tried: TriedLoad, { earlier, later }: Pair): boolean {
  const [first, second] = [amountAt(tried, earlier), amountAt(tried, later)];
  return (first > 0n && second < 0n) || (first < 0n && second > 0n);
}

function tellUndone(
  ground: Ground,
  { earlier, later, undone }: Pair & { readonly undone: PricedLoad },
): string {
  const money = (placed: Placed) => ground.tellMoney(moneyFrom(ground, amountAt(undone.tried, placed)));
  const lifted = amountAt(undone.tried, earlier) > 0n;
  return [
    `“${earlier.term.label}” ${lifted ? 'lifts' : 'cuts'} ${ground.loadInWords} by ${money(earlier)} (${lowerFirst(undone.example.label)}), and “${later.term.label}” then ${lifted ? 'takes' : 'gives'} ${money(later)} ${lifted ? 'off' : 'back'} again:`,
    `a floor lies above a ceiling, and the later line wins. Set the floor below the ceiling, or put both in one limit.`,
  ].join(' ');
}

/** Limits that hold every example load at the lowest, or the highest, price of grain that the references allow. */
function limitsThatAlwaysBite(ground: Ground, limits: readonly Placed[]): string[] {
  const lowest = loadsAt(ground, LOWEST);
  const highest = loadsAt(ground, HIGHEST);
  const always = (loads: readonly PricedLoad[], holds: (amount: bigint) => boolean) => (placed: Placed) =>
    loads.every(({ tried }) => tried.impossible === undefined && holds(amountAt(tried, placed)));
  const capped = limits.filter(always(lowest, (amount) => amount < 0n));
  const lifted = limits.filter(always(highest, (amount) => amount > 0n));
  return [
    ...capped.map(({ term }) => tellAlways(ground, { term, end: 'lowest' })),
    ...lifted.map(({ term }) => tellAlways(ground, { term, end: 'highest' })),
  ];
}

function tellAlways(
  { agreement }: Ground,
  { term, end }: { readonly term: TermOf<'limit'>; readonly end: 'lowest' | 'highest' },
): string {
  const names = [...new Set(agreement.price.map(referenceOf))].filter((name) => name !== undefined);
  const even =
    names.length === 0
      ? 'On every example load'
      : `Even at the ${end} ${names.join(' and ')} price that can count`;
  const [compared, paid, remedy] =
    end === 'lowest'
      ? ['more than the ceiling', 'the ceiling', 'Raise the ceiling']
      : ['less than the floor', 'the floor', 'Lower the floor'];
  const other =
    end === 'lowest'
      ? 'lower what the reference price can fall to'
      : 'raise what the reference price can rise to';
  return `${even}, the formula comes to ${compared} of “${term.label}”, so every ordinary load is paid ${paid} and no test changes anything. ${remedy}${names.length === 0 ? '' : `, or ${other}`}.`;
}

function lowerFirst(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}
