/**
 * A lot's document out of its form: figures as the format writes them, what is empty left out, and the way back from a
 * fault's place in the document to the field that it was typed in.
 */
import { TESTED } from '../../../domain/agreement/measures.ts';
import { badInput } from '../../../usecases/read-input-rows.ts';
import { tidyFigure } from '../../builder/figure-text.ts';
import { textOf } from '../../forms/submit.ts';
import { TEST_KEYS } from './test-fields.ts';

const FIGURES = ['wetTons', 'dryTons', 'particleSize'] as const;
const TEXTS = [
  'feed',
  'currency',
  'timeZone',
  'ton',
  'storage',
  'processing',
  'inoculant',
  'region',
  'hauledBy',
  'weighedBy',
  'until',
  'notes',
] as const;
const GROUPS = {
  harvest: ['from', 'to'],
  moisture: ['from', 'to'],
  place: ['latitude', 'longitude'],
} as const;
const MOST_TESTS = 43;

export interface ReadLotForm {
  readonly document: Readonly<Record<string, unknown>>;
  readonly address: string;
  /** The field to which a fault of the document belongs. */
  readonly fieldOf: (column: string) => string;
}

/** Refuses `bad-input` for a formula that is no JSON. */
export function readLotForm(sent: FormData): ReadLotForm {
  const figure = (name: string) => tidyFigure(textOf(sent, name));
  const slots = Array.from({ length: MOST_TESTS }, (_, index) => index).filter((index) =>
    TEST_KEYS.some((key) => textOf(sent, `tests.${index}.${key}`) !== ''),
  );
  const tests = slots.map((index) =>
    filled(
      TEST_KEYS.map((key) => {
        const name = `tests.${index}.${key}`;
        return [key, TESTED.some((measure) => measure === key) ? figure(name) : textOf(sent, name)];
      }),
    ),
  );
  const groups = Object.entries(GROUPS).map(([group, keys]) => {
    const read = group === 'harvest' ? (name: string) => textOf(sent, name) : figure;
    return [group, filled(keys.map((key) => [key, read(`${group}.${key}`)]))] as const;
  });
  return {
    document: {
      ...filled(TEXTS.map((name) => [name, textOf(sent, name)])),
      ...filled(FIGURES.map((name) => [name, figure(name)])),
      ...Object.fromEntries(groups.filter(([group, of]) => group !== 'place' || Object.keys(of).length > 0)),
      ...(tests.length === 0 ? {} : { tests }),
      asking: readAsking(textOf(sent, 'asking')),
    },
    address: textOf(sent, 'address'),
    fieldOf: (column) => fieldOf(column, slots),
  };
}

function filled(entries: readonly (readonly [string, string])[]): Record<string, string> {
  return Object.fromEntries(entries.filter(([, text]) => text !== ''));
}

function fieldOf(column: string, slots: readonly number[]): string {
  const [, at, key] = /^tests\.(\d+)(?:\.(.+))?$/.exec(column) ?? [];
  if (at !== undefined) return `tests.${slots[Number(at)] ?? at}.${key ?? 'starch'}`;
  // A group without anything in it is missing as a whole.
  if (column === 'harvest' || column === 'moisture') return `${column}.from`;
  return column === '$' ? 'asking' : column;
}

/** The formula without its stand-ins. */
function readAsking(text: string): Readonly<Record<string, unknown>> {
  try {
    const { id: _i, seller: _s, buyer: _b, ...asking } = JSON.parse(text) as Record<string, unknown>;
    return asking;
  } catch {
    throw badInput([{ column: 'asking', message: 'is not JSON as it stands in “The file’s text”' }]);
  }
}
