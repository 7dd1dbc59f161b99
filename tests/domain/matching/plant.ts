/**
 * Differences to plant in a row, and what is true of it then. Own code throughout: no figure here comes from the product.
 */
import type { ListRow } from '../../../src/domain/matching/list-row.ts';
import type { Chance } from '../../oracle/random.ts';

/** What is to be said of a planted row. */
export interface Truth {
  readonly kind: PlantedKind;
  /** The row's names in the outcome. */
  readonly standings: readonly string[];
  /** The cause of the first difference; undefined where there is none to be named. */
  readonly cause: string | undefined;
}

export type PlantedKind = (typeof PLANTED_KINDS)[number];

/** In which respects rows go wrong, by hand and by program. */
export const PLANTED_KINDS = [
  'weight-transposed',
  'weight-mistyped',
  'weight-dropped',
  'weight-doubled',
  'weight-point-moved',
  'kilograms-for-pounds',
  'pounds-for-kilograms',
  'tons-for-pounds',
  'gross-for-net',
  'tare-of-another',
  'weight-unknown',
  'amount-transposed',
  'amount-mistyped',
  'amount-dropped',
  'amount-point-moved',
  'amount-rounded',
  'amount-unknown',
  'charge-left-out',
  'charge-twice',
  'quote-of-another-day',
  'as-fed-for-dry',
  'day-shifted',
  'day-and-month',
  'ticket-transposed',
  'ticket-mistyped',
  'ticket-lost',
  'only-in-mine',
  'only-in-record',
  'twice-in-mine',
  'twice-in-record',
] as const;

export interface Planting {
  readonly row: ListRow;
  readonly chance: Chance;
  /** Tares of other trucks, with the trucks. */
  readonly tares: readonly { truck: string; tare: string }[];
}

export interface Planted {
  readonly row: ListRow;
  readonly standing: string | undefined;
  readonly cause: string | undefined;
}

/** The row with that difference, or undefined where this row cannot have it without another one that looks the same. */
export function plant(kind: PlantedKind, planting: Planting): Planted | undefined {
  const { row, chance } = planting;
  const weight = (net: string | undefined, cause: string | undefined): Planted | undefined =>
    net === undefined || net === row.net
      ? undefined
      : { row: { ...row, net }, standing: 'weight-differs', cause };
  const amount = (to: string | undefined, cause: string | undefined): Planted | undefined =>
    to === undefined || to === row.amount
      ? undefined
      : { row: { ...row, amount: to }, standing: 'amount-differs', cause };
  const owed = row.amount ?? '';
  switch (kind) {
    case 'weight-transposed':
      return weight(transposed(row.net, chance), 'digits-transposed');
    case 'weight-mistyped':
      return weight(mistyped(row.net, chance, row.net.length), 'digit-mistyped');
    case 'weight-dropped':
      return weight(dropped(row.net), 'digit-dropped');
    case 'weight-doubled':
      return weight(doubled(row.net), 'digit-doubled');
    case 'weight-point-moved':
      return weight(`${row.net.slice(0, -2)}.${row.net.slice(-2)}`, 'point-moved');
    case 'kilograms-for-pounds':
      return weight(String(divideRounded(BigInt(row.net) * 45359237n, 100000000n)), 'other-unit');
    case 'pounds-for-kilograms':
      return {
        row: { ...row, unit: 'kg', gross: null, tare: null },
        standing: 'weight-differs',
        cause: 'other-unit',
      };
    case 'tons-for-pounds':
      return weight(hundredths(divideRounded(BigInt(row.net) * 100n, 2000n)), 'other-unit');
    case 'gross-for-net':
      return weight(row.gross ?? undefined, 'gross-for-net');
    case 'tare-of-another':
      return otherTare(planting);
    case 'weight-unknown':
      // No slip of one digit, no other weight of the ticket.
      return weight(String(BigInt(row.net) + 1573n), undefined);
    case 'amount-transposed':
      return amount(
        onDigits(owed, (digits) => transposed(digits, chance)),
        'digits-transposed',
      );
    case 'amount-mistyped':
      return amount(
        onDigits(owed, (digits) => mistyped(digits, chance, digits.length - 2)),
        'digit-mistyped',
      );
    case 'amount-dropped':
      return amount(onDigits(owed, dropped), 'digit-dropped');
    case 'amount-point-moved':
      return amount(`${owed.replace('.', '')}.00`, 'point-moved');
    case 'amount-rounded':
      return amount(plusCents(owed, chance.pick([1n, -1n, 2n])), 'rounded');
    case 'amount-unknown':
      // More than all charges.
      return amount(plusCents(owed, 39_113n), undefined);
    case 'charge-left-out':
      return amount(plusCents(owed, -cents(row.priced?.charges?.[0]?.amount ?? '')), 'charge-left-out');
    case 'charge-twice':
      return amount(plusCents(owed, cents(row.priced?.charges?.[0]?.amount ?? '')), 'charge-twice');
    case 'quote-of-another-day': {
      const days = Object.entries(row.priced?.byDay ?? {}).filter(([, price]) => price !== owed);
      return days.length === 0 ? undefined : amount(chance.pick(days)[1], 'quote-of-another-day');
    }
    case 'as-fed-for-dry':
      return amount(row.priced?.alternatives?.[0]?.amount, 'as-fed-for-dry');
    case 'day-shifted':
      return dated(row, dayAfter(row.deliveredOn), 'day-shifted');
    case 'day-and-month': {
      const [year, month, day] = row.deliveredOn.split('-');
      const turned = `${year}-${day}-${month}`;
      const isFar = Math.abs(Date.parse(turned) - Date.parse(row.deliveredOn)) > 2 * 86_400_000;
      return isFar && Number(day) <= 12 ? dated(row, turned, 'day-and-month-exchanged') : undefined;
    }
    case 'ticket-transposed':
      return ticketed(row, transposed(row.ticket ?? '', chance), 'digits-transposed');
    case 'ticket-mistyped':
      return ticketed(row, mistyped(row.ticket ?? '', chance, 6), 'digit-mistyped');
    case 'ticket-lost':
      return { row: { ...row, ticket: null }, standing: 'agrees', cause: undefined };
    case 'only-in-mine':
    case 'only-in-record':
    case 'twice-in-mine':
    case 'twice-in-record':
      return { row, standing: undefined, cause: undefined };
  }
}

function dated(row: ListRow, day: string, cause: string): Planted {
  return { row: { ...row, deliveredOn: day as ListRow['deliveredOn'] }, standing: 'date-differs', cause };
}

function ticketed(row: ListRow, ticket: string | undefined, cause: string): Planted | undefined {
  if (ticket === undefined || ticket === row.ticket) return undefined;
  return { row: { ...row, ticket }, standing: 'ticket-differs', cause };
}

function otherTare({ row, chance, tares }: Planting): Planted | undefined {
  const others = tares.filter(({ truck, tare }) => truck !== row.truck && tare !== row.tare);
  if (others.length === 0 || row.gross === null) return undefined;
  const { tare } = chance.pick(others);
  const net = String(BigInt(row.gross) - BigInt(tare));
  return { row: { ...row, tare, net }, standing: 'weight-differs', cause: 'tare-of-another-truck' };
}

/** Two neighbours that differ, the last place with its zeros left alone: those would move the point. */
function transposed(digits: string, chance: Chance): string | undefined {
  const places = [...digits].flatMap((digit, at) => {
    const next = digits[at + 1];
    const isInside = at > 0 && at + 2 < digits.replace(/0+$/, '').length;
    return isInside && next !== undefined && next !== digit ? [at] : [];
  });
  if (places.length === 0) return undefined;
  const at = chance.pick(places);
  return `${digits.slice(0, at)}${digits[at + 1]}${digits[at]}${digits.slice(at + 2)}`;
}

/** A digit before `end` is another one; the first is left alone, which might become a zero. */
function mistyped(digits: string, chance: Chance, end: number): string {
  const at = chance.integer(1, end - 2);
  const digit = (Number(digits[at]) + chance.integer(1, 9)) % 10;
  return `${digits.slice(0, at)}${digit}${digits.slice(at + 1)}`;
}

/** A digit that is not its neighbour's twin, and no zero that would move the point. */
function dropped(digits: string): string | undefined {
  for (let at = 1; at < digits.length - 1; at++) {
    const isTwin = digits[at] === digits[at - 1] || digits[at] === digits[at + 1];
    if (!isTwin && digits[at] !== '0') return digits.slice(0, at) + digits.slice(at + 1);
  }
  return undefined;
}

/** A digit of the inside, standing twice. */
function doubled(digits: string): string | undefined {
  for (let at = 1; at < digits.length - 2; at++) {
    if (digits[at] !== '0') return digits.slice(0, at + 1) + digits.slice(at);
  }
  return undefined;
}

function onDigits(amount: string, change: (digits: string) => string | undefined): string | undefined {
  const digits = change(amount.replace('.', ''));
  return digits === undefined ? undefined : hundredths(BigInt(digits));
}

/** "1986.85" as 198685. */
export function cents(amount: string): bigint {
  return BigInt(amount.replace('.', ''));
}

/** 198685 as "1986.85". */
export function hundredths(count: bigint): string {
  const digits = (count < 0n ? -count : count).toString().padStart(3, '0');
  return `${count < 0n ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}`;
}

function plusCents(amount: string, more: bigint): string {
  return hundredths(cents(amount) + more);
}

/** Half-up, of figures above zero. */
export function divideRounded(n: bigint, d: bigint): bigint {
  return (2n * n + d) / (2n * d);
}

function dayAfter(day: string): string {
  return new Date(Date.parse(day) + 86_400_000).toISOString().slice(0, 10);
}
