/**
 * Which loads went into a silo. No load went into two: its dry matter would be counted twice.
 */
import type { Filling } from './silo-row.ts';

interface Delivered {
  readonly ticket: string;
  /** A local date. */
  readonly deliveredOn: string;
}

/** The loads of a filling, in their order. */
export function filledLoads<Load extends Delivered>(
  { from, to, tickets }: Filling,
  loads: readonly Load[],
): readonly Load[] {
  return loads.filter(
    ({ ticket, deliveredOn }) =>
      deliveredOn >= from && deliveredOn <= to && (tickets.length === 0 || tickets.includes(ticket)),
  );
}

/** The tickets that a filling names and no load of its days has. */
export function missingTickets(filling: Filling, loads: readonly Delivered[]): readonly string[] {
  const found = new Set(filledLoads(filling, loads).map(({ ticket }) => ticket));
  return filling.tickets.filter((ticket) => !found.has(ticket));
}

/**
 * Whether two fillings claim a load both, or would once one more comes: two that take all loads of their days share no
 * day. Returns the tickets of the loads that are there; none of a day that both take whole.
 */
export function bothClaim(
  one: Filling,
  other: Filling,
  loads: readonly Delivered[],
): { readonly tickets: readonly string[] } | undefined {
  const others = new Set(filledLoads(other, loads));
  const tickets = filledLoads(one, loads)
    .filter((load) => others.has(load))
    .map(({ ticket }) => ticket);
  const shareDay = one.from <= other.to && other.from <= one.to;
  const areWhole = one.tickets.length === 0 && other.tickets.length === 0;
  return tickets.length > 0 || (areWhole && shareDay) ? { tickets } : undefined;
}
