/**
 * Places of a draft by the names that people see: Line 3 (Hauling), “Rate”; Reference corn, “Never less than”.
 */
import type { JsonPath } from '../../domain/agreement/problem.ts';
import { opening } from '../place/sentence.ts';
import { CONDITION_GROUPS } from './condition-settings.ts';
import { type Draft, readAt, shownText } from './document-path.ts';
import { referenceSettings } from './reference-settings.ts';
import { methodSettings, RETEST_SETTINGS, RETESTED } from './retest-settings.ts';
import type { Setting } from './setting.ts';
import { settingAt } from './setting.ts';
import { namesOf, termSettings } from './term-settings.ts';
import { RANGE_COLUMNS, ROUNDED_TESTS } from './test-settings.ts';

const HEADINGS: Readonly<Record<string, string>> = {
  id: 'Number of the agreement',
  timeZone: 'Time zone',
  acceptance: 'Ranges',
  references: 'Reference prices',
  price: 'The price',
  tests: 'Rounding of tests',
  retest: 'Retests',
  conditions: 'Conditions',
};

/** The name of a place; what has no field is named by its keys. */
export function placeInWords(path: JsonPath, document: Draft): string {
  const { name, settings, rest } = partOf(path, document);
  if (rest.length === 0) return name;
  const words = settingWords(settings, rest) ?? rest.map(keyWords).join(', ');
  return `${name}, ${words}`;
}

interface Part {
  readonly name: string;
  readonly settings: readonly Setting[];
  readonly rest: JsonPath;
}

function partOf(path: JsonPath, document: Draft): Part {
  const [first, second, third] = path;
  const at = (key: 'price' | 'references') => readAt(document, [key, second ?? '']);
  const about = { currency: '', references: namesOf(document['references']) };
  if (first === undefined) return { name: 'The agreement', settings: [], rest: [] };
  const heading = HEADINGS[first] ?? opening(keyWords(first));
  if (second === undefined) return { name: heading, settings: [], rest: [] };
  const rest = path.slice(2);
  switch (first) {
    case 'price': {
      const label = shownText(readAt(at('price'), ['label']));
      const name = `Line ${Number(second) + 1}${label === '' ? '' : ` (${label})`}`;
      return { name, settings: termSettings(at('price'), about), rest };
    }
    case 'references': {
      const groups = referenceSettings(at('references'), '');
      return { name: `Reference ${second}`, settings: groups.flatMap(({ settings }) => settings), rest };
    }
    case 'acceptance':
      return { name: `Range ${Number(second) + 1}`, settings: RANGE_COLUMNS, rest };
    case 'conditions': {
      const settings = CONDITION_GROUPS.flatMap((group) => group.settings);
      return { name: heading, settings, rest: path.slice(1) };
    }
    case 'tests':
      return { name: heading, settings: ROUNDED_TESTS, rest: path.slice(1) };
    case 'retest': {
      if (second !== 'measures' || third === undefined)
        return { name: heading, settings: RETEST_SETTINGS, rest: path.slice(1) };
      const measure = RETESTED.find(({ value }) => value === third)?.label ?? String(third);
      const rule = readAt(document, ['retest', 'measures', third]);
      return {
        name: `Retests of ${measure}`,
        settings: methodSettings(String(third), rule),
        rest: path.slice(3),
      };
    }
    default:
      return { name: heading, settings: [], rest: path.slice(1) };
  }
}

function settingWords(settings: readonly Setting[], rest: JsonPath): string | undefined {
  const found = settingAt(settings, rest);
  if (!found) return undefined;
  const { setting, row, column } = found;
  const quoted = (label: string) => `“${label}”`;
  if (setting.kind !== 'rows' || row === undefined) return quoted(setting.label);
  const where = `${quoted(setting.label)}, ${setting.row} ${row + 1}`;
  return column ? `${where}, ${quoted(column.label)}` : where;
}

function keyWords(key: string | number): string {
  if (typeof key === 'number') return String(key + 1);
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).replaceAll('-', ' ');
}
