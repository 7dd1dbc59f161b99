/**
 * Amounts as decimal strings: their sign told apart from their size, and their exact sum, without a binary float.
 */
import { add, decimal, type Exact, subtract, ZERO } from '../domain/numbers/exact.ts';
import { printFixed } from '../domain/numbers/printing.ts';

/** −1, 0 or 1: "-71.83" is below zero, "0.00" is neither. */
export function signOf(amount: string): -1 | 0 | 1 {
  if (!/[1-9]/.test(amount)) return 0;
  return amount.startsWith('-') ? -1 : 1;
}

/** The size alone: "-71.83" is "71.83". */
export function unsigned(amount: string): string {
  return amount.startsWith('-') ? amount.slice(1) : amount;
}

/** The same size, the other way: "71.83" is "-71.83", and "0.00" stays. */
export function turned(amount: string): string {
  if (signOf(amount) === 0) return unsigned(amount);
  return amount.startsWith('-') ? amount.slice(1) : `-${amount}`;
}

function placesOf(amount: string): number {
  return (amount.split('.')[1] ?? '').length;
}

/** The exact sum with as many decimals as the amounts have: "1.10" and "2.95" are "4.05"; of nothing it is "0". */
export function sumOf(amounts: readonly string[]): string {
  const places = amounts.reduce((most, amount) => Math.max(most, placesOf(amount)), 0);
  return printFixed(
    amounts.reduce<Exact>((sum, amount) => add(sum, decimal(amount)), ZERO),
    places,
  );
}

/** a − b, exactly. */
export function lessThat(a: string, b: string): string {
  return printFixed(subtract(decimal(a), decimal(b)), Math.max(placesOf(a), placesOf(b)));
}
