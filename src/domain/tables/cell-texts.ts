/**
 * Cells as other programs write them, turned into the texts that our tables take: dates in another order, a decimal
 * comma, thousands marks, units and bases by their many names. Nothing is guessed here: what a cell could mean twice is
 * said by whoever brings the file, once for all rows.
 */
import { parseLocalDate } from '../dates/local-date.ts';
import type { ScaleUnit } from '../quantities/units.ts';
import type { Basis } from '../samples/lab-result.ts';

export const DATE_ORDERS = ['year-first', 'month-first', 'day-first'] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];
export type DecimalMark = '.' | ',';

/** A text for our tables, or what is wrong with the cell, to follow the column's name. */
export type CellText = { readonly text: string } | { readonly wrong: string };

const THOUSANDS = {
  '.': /^-?\d{1,3}([, '’\u00a0\u202f]\d{3})+(\.\d+)?$/,
  ',': /^-?\d{1,3}([. '’\u00a0\u202f]\d{3})+(,\d+)?$/,
} as const;

/** A number: with a decimal comma "78.220,5" is 78220.5, and "78.22" is refused since it could be either. */
export function readNumber(cell: string, mark: DecimalMark): CellText {
  const bare = cell.replace(/^[−–]/, '-');
  if (THOUSANDS[mark].test(bare)) {
    const [whole = '', fraction] = bare.split(mark);
    return { text: `${whole.replace(/[^\d-]/g, '')}${fraction === undefined ? '' : `.${fraction}`}` };
  }
  if (mark === ',') {
    if (bare.includes('.')) {
      return { wrong: `has a point, where this file's decimals have a comma; found ${JSON.stringify(cell)}` };
    }
    return { text: bare.replace(',', '.') };
  }
  return { text: bare };
}

const CURRENCY = /^(?:\p{Sc}|[A-Z]{2,3}\s?\p{Sc}|[A-Z]{3}\b)\s*|\s*(?:\p{Sc}|\b[A-Z]{3})$/gu;

/** As `readNumber`, without a currency's sign: "$1,250.00" is 1250.00; "(1,250.00)" and "1,250.00-" are below zero. */
export function readMoney(cell: string, mark: DecimalMark): CellText {
  const plain = cell.trim().replace(/^[−–]/, '-');
  const inside = /^\((.+)\)$/.exec(plain)?.[1] ?? /^(.+?)\s?[-−–]$/.exec(plain)?.[1];
  const isBelow = inside !== undefined || /^-/.test(plain);
  const bare = (inside ?? plain.replace(/^-\s*/, '')).replace(CURRENCY, '').trim();
  const read = readNumber(bare.replace(CURRENCY, ''), mark);
  if ('wrong' in read || !isBelow) return read;
  return { text: read.text.startsWith('-') ? read.text.slice(1) : `-${read.text}` };
}

/** As `readNumber`, with the percent sign left off. */
export function readPercent(cell: string, mark: DecimalMark): CellText {
  return readNumber(cell.replace(/\s*%$/, ''), mark);
}

const DATE = /^(\d{1,4})([-/.])(\d{1,2})\2(\d{1,4})$/;
const CLOCK = /^(\d{1,2})[:.](\d{2})(?:[:.](\d{2}))?(?:[.,]\d+)?\s*([ap]\.?m\.?)?$/i;
const OFFSET = /\s*(Z|[+-]\d{2}:?\d{2})$/;

/** Whether a cell looks like a date, in any order; with or without a time of day. */
export function looksLikeDate(cell: string): boolean {
  return DATE.test(cell.split(/[T\s]/)[0] ?? '');
}

/** Whether a cell looks like a time of day alone. */
export function looksLikeClock(cell: string): boolean {
  return CLOCK.test(cell) && !looksLikeDate(cell);
}

/** A date as `YYYY-MM-DD`: "9/14/26" is 2026-09-14 where months come first. */
export function readDate(cell: string, order: DateOrder): CellText {
  const match = DATE.exec(cell);
  const shown = JSON.stringify(cell);
  if (!match) return { wrong: `must be a date, like ${EXAMPLES[order]}; found ${shown}` };
  const [first = '', second = '', third = ''] = [match[1], match[3], match[4]];
  // Nobody writes a year of four digits first and means another order.
  const isYearFirst = first.length === 4;
  if (order === 'year-first' && !isYearFirst) {
    return {
      wrong: `must begin with the year, like ${EXAMPLES[order]}, as the file's dates do; found ${shown}`,
    };
  }
  const [year, month, day] = isYearFirst
    ? [first, second, third]
    : order === 'day-first'
      ? [third, second, first]
      : [third, first, second];
  const full = year.length === 2 ? `20${year}` : year;
  const text = `${full}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  if (full.length === 4 && parseLocalDate(text)) return { text };
  return { wrong: `is not on the calendar with the ${ORDER_WORDS[order]}; found ${shown}` };
}

const EXAMPLES: Readonly<Record<DateOrder, string>> = {
  'year-first': '2026-09-14',
  'month-first': '9/14/2026',
  'day-first': '14/9/2026',
};
export const ORDER_WORDS: Readonly<Record<DateOrder, string>> = {
  'year-first': 'year first',
  'month-first': 'month first',
  'day-first': 'day first',
};

/** A time of day as `HH:MM:SS`: "9:40 pm" is 21:40:00. */
export function readClock(cell: string): CellText {
  const match = CLOCK.exec(cell);
  const wrong = `must be a time of day, like 21:40 or 9:40 PM; found ${JSON.stringify(cell)}`;
  if (!match) return { wrong };
  const [hours, minutes, seconds] = [Number(match[1]), match[2] ?? '', match[3] ?? '00'];
  const half = match[4]?.toLowerCase()[0];
  if (half !== undefined && (hours < 1 || hours > 12)) return { wrong };
  const hour = half === undefined ? hours : (hours % 12) + (half === 'p' ? 12 : 0);
  if (hour > 23 || Number(minutes) > 59 || Number(seconds) > 59) return { wrong };
  return { text: `${String(hour).padStart(2, '0')}:${minutes}:${seconds}` };
}

/** A date with its time of day and perhaps an offset, taken apart. */
export function splitTime(cell: string): {
  readonly date: string;
  readonly clock: string;
  readonly offset: string;
} {
  const [date = '', ...rest] = cell.split(/[T\s]+/);
  const clock = rest.join(' ');
  const offset = OFFSET.exec(clock)?.[1] ?? '';
  return { date, clock: clock.replace(OFFSET, ''), offset };
}

const UNITS: Readonly<Record<ScaleUnit, readonly string[]>> = {
  lb: ['lb', 'lbs', 'pound', 'pounds', '#'],
  kg: ['kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms'],
  'short-ton': ['short ton', 'short tons', 'us ton', 'us tons', 'stn'],
  tonne: ['tonne', 'tonnes', 'metric ton', 'metric tons', 'mt'],
};

/** A unit by one of its names. A bare "ton" is refused, since it may be 2,000 lb or 1,000 kg. */
export function readUnit(cell: string): CellText {
  const word = cell.toLowerCase().replace(/[-._]/g, ' ').trim();
  const unit = (Object.keys(UNITS) as ScaleUnit[]).find((known) => UNITS[known].includes(word));
  if (unit) return { text: unit };
  const shown = JSON.stringify(cell);
  if (['t', 'ton', 'tons', 'tn'].includes(word)) {
    return {
      wrong: `may be a short ton (2,000 lb) or a tonne (1,000 kg); write short-ton or tonne; found ${shown}`,
    };
  }
  return { wrong: `must be lb, kg, short-ton or tonne; found ${shown}` };
}

const BASES: Readonly<Record<Basis, readonly string[]>> = {
  'dry-matter': ['dry matter', 'dm', 'dmb', 'dry', 'dry basis', 'dry matter basis', 'dm basis', '100% dm'],
  'as-fed': ['as fed', 'af', 'as received', 'ar', 'asis', 'as is', 'fresh', 'wet', 'as sampled'],
};

/** What a result's figures are percent of, by one of its names. */
export function readBasis(cell: string): CellText {
  const word = cell.toLowerCase().replace(/[-._]/g, ' ').trim();
  const basis = (Object.keys(BASES) as Basis[]).find((known) => BASES[known].includes(word));
  return basis ? { text: basis } : { wrong: `must be dry-matter or as-fed; found ${JSON.stringify(cell)}` };
}
