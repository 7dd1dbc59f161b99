/**
 * What stands in the weighing form, and the ticket that it makes.
 */
import { parseDecimal } from '../../domain/numbers/exact.ts';
import { readWeight } from '../loads/new/read-weight.ts';
import { offsetsOf, wallClockNow } from '../times/wall-clock.ts';
import type { DeskAgreement } from './desk.ts';

export interface Typed {
  /** The ticket of a truck that was weighed full before. */
  readonly opened: string;
  readonly truck: string;
  readonly ticket: string;
  readonly gross: string;
  readonly tare: string;
  readonly isTareLater: boolean;
  readonly unit: string;
  readonly distance: string;
  readonly isSampled: boolean;
  readonly sample: string;
  readonly scale: string;
  /** On the wall clock of the agreement; empty for now. */
  readonly time: string;
  readonly moisture: string;
  readonly weigher: string;
  readonly plate: string;
  readonly photo: File | undefined;
}

/** Clocks differ a little. */
const MOST_AHEAD_MS = 5 * 60_000;

export const EMPTY: Typed = {
  opened: '',
  truck: '',
  ticket: '',
  gross: '',
  tare: '',
  isTareLater: false,
  unit: 'lb',
  distance: '',
  isSampled: true,
  sample: '',
  scale: '',
  time: '',
  moisture: '',
  weigher: '',
  plate: '',
  photo: undefined,
};

/** The first thing that is missing or cannot be read, in a sentence; undefined where all is there. */
export function whatIsMissing(
  typed: Typed,
  {
    agreement,
    taken,
    now,
  }: { readonly agreement: DeskAgreement; readonly taken: readonly string[]; readonly now: number },
): string | undefined {
  const isOut = typed.opened !== '';
  if (typed.ticket.trim() === '') return 'Type the ticket number.';
  if (!isOut && taken.includes(typed.ticket.trim())) {
    return `Ticket ${typed.ticket.trim()} is saved on this phone already.`;
  }
  if (!isWeight(typed.gross, typed.unit)) return 'Type the gross weight in digits.';
  const hasTare = isOut || !typed.isTareLater;
  if (hasTare && !isWeight(typed.tare, typed.unit)) return 'Type the tare in digits, or choose “Tare later”.';
  if (hasTare && agreement.distance !== null && parseDecimal(typed.distance) === undefined) {
    return `Type how far the load was hauled, in ${agreement.distance}.`;
  }
  const at = Date.parse(timeText(typed.time, { timeZone: agreement.timeZone, now }));
  if (at > now + MOST_AHEAD_MS) return 'The time is still to come. Put it right, or leave it empty for now.';
  const needsName = agreement.testsNeeded && agreement.sampling === 'composite' && typed.isSampled && !isOut;
  if (needsName && typed.sample.trim() === '') return 'Name the sample that stands for this load.';
  return undefined;
}

/**
 * The ticket to offer: the series' next, or the one after the last that was weighed here, past those that stand on the
 * phone. Without a signal the record cannot say which comes next.
 */
export function followingTicket(
  next: string,
  { last, taken }: { readonly last?: string | undefined; readonly taken: readonly string[] },
): string {
  let ticket = last === undefined ? next : ticketAfter(last);
  while (ticket !== '' && taken.includes(ticket)) ticket = ticketAfter(ticket);
  return ticket;
}

function ticketAfter(ticket: string): string {
  const digits = /\d+$/.exec(ticket)?.[0];
  if (digits === undefined) return '';
  const number = String(BigInt(digits) + 1n).padStart(digits.length, '0');
  return `${ticket.slice(0, -digits.length)}${number}`;
}

function isWeight(text: string, unit: string): boolean {
  const read = readWeight(text.trim(), { unit, locale: 'en-US' });
  return 'weight' in read && parseDecimal(read.weight) !== undefined;
}

/** A weight without what separates thousands; as it was typed where it is no weight. */
export function plainWeight(text: string, unit: string): string {
  const read = readWeight(text.trim(), { unit, locale: 'en-US' });
  return 'weight' in read ? read.weight : text;
}

/** The columns of a ticket. */
export function rowOf(
  typed: Typed,
  { agreement, now }: { readonly agreement: DeskAgreement; readonly now: number },
): Record<string, string> {
  const at = timeText(typed.time, { timeZone: agreement.timeZone, now });
  const isOut = typed.opened !== '';
  const weight = (text: string) => plainWeight(text, typed.unit);
  const common = { ticket: typed.ticket.trim(), ...kept({ weigher: typed.weigher }) };
  if (isOut) {
    return {
      ...common,
      tare: weight(typed.tare),
      weighed_at: at,
      ...kept({ scale: typed.scale }),
      ...distanceOf(typed, agreement),
    };
  }
  const full = {
    ...common,
    gross: weight(typed.gross),
    unit: typed.unit,
    ...kept({ truck: typed.truck, plate: typed.plate, moisture_reading: typed.moisture }),
    ...sampleOf(typed, agreement),
  };
  if (typed.isTareLater) return { ...full, weighed_at: at, ...kept({ scale: typed.scale }) };
  return {
    ...full,
    tare: weight(typed.tare),
    delivered_at: at,
    ...kept({ gross_scale: typed.scale, tare_scale: typed.scale }),
    ...distanceOf(typed, agreement),
  };
}

/** Texts that hold something. */
function kept(texts: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(texts).flatMap(([key, text]) => (text.trim() === '' ? [] : [[key, text.trim()]])),
  );
}

function distanceOf({ distance }: Typed, agreement: DeskAgreement): Record<string, string> {
  return agreement.distance === null ? {} : kept({ [agreement.distance]: distance });
}

function sampleOf(
  { isSampled, sample, ticket }: Typed,
  { testsNeeded, sampling }: DeskAgreement,
): Record<string, string> {
  if (!testsNeeded || !isSampled) return {};
  const named = sample.trim();
  if (named !== '') return { sample: named };
  return sampling === 'per-load' ? { sample: ticket.trim() } : {};
}

/**
 * A time with its offset, as the record reads it. A time that comes twice, on the night when clocks go back, is taken
 * as the later; one that never was, as now.
 */
export function timeText(
  typed: string,
  { timeZone, now }: { readonly timeZone: string; readonly now: number },
): string {
  const wallClock = typed === '' ? wallClockNow(now, timeZone) : typed.slice(0, 16);
  const offsets = offsetsOf(wallClock, timeZone);
  if (typed === '') {
    const fitting = offsets.find(
      (offset) => Math.abs(Date.parse(`${wallClock}:00${offset}`) - now) < 60_000 * 2,
    );
    return `${wallClock}:00${fitting ?? offsets.at(-1) ?? 'Z'}`;
  }
  const offset = offsets.at(-1);
  return offset === undefined ? timeText('', { timeZone, now }) : `${wallClock}:00${offset}`;
}
