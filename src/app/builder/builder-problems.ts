/**
 * What is wrong in a draft, told for whoever fills in fields: no quotes and braces of the file, and places by the names
 * that people gave them.
 */
import type { AgreementProblem, JsonPath } from '../../domain/agreement/problem.ts';
import type { FieldProblem } from '../forms/form-state.ts';
import { opening } from '../place/sentence.ts';
import { type Draft, parsePath, readAt, shownText } from './document-path.ts';
import type { Setting } from './setting.ts';

/** Problems in plain words, each once. */
export function tellProblems(problems: readonly AgreementProblem[]): readonly AgreementProblem[] {
  const told = new Map(
    problems.map(({ path, message }) => [JSON.stringify([path, message]), { path, message: plain(message) }]),
  );
  return [...told.values()];
}

/** What came back with a refusal, as long as the place still holds what was sent. */
export function sentProblems(
  problems: readonly FieldProblem[],
  { sent, now }: { readonly sent: Draft; readonly now: Draft },
): readonly AgreementProblem[] {
  return problems.flatMap(({ field, message }) => {
    const path = field === undefined ? undefined : parsePath(field);
    if (!path) return [];
    const isChanged = JSON.stringify(readAt(sent, path)) !== JSON.stringify(readAt(now, path));
    return isChanged ? [] : [{ path, message }];
  });
}

const NUMBER = / in quotes, like "([^"]*)" \(digits, at most one point, \d+ characters\)/;

function plain(message: string): string {
  if (/^is missing: (one of )?"|^is missing: what /.test(message)) return 'has to be chosen';
  if (/^is (missing|wrong): a (list|group) in /.test(message)) return 'is missing';
  return message
    .replace(NUMBER, ' like $1')
    .replace(/ in quotes/g, '')
    .replace('; found ""', '');
}

/** A part of the draft, and what is asked there. */
export interface AskedPart {
  readonly at: JsonPath;
  readonly settings: readonly Setting[];
}

/** The problems that settings of a part show beside their fields. */
export function shownProblems(
  problems: readonly AgreementProblem[],
  { at, settings }: AskedPart,
): readonly AgreementProblem[] {
  return problems.filter(({ path }) => {
    const rest = path.slice(at.length);
    return startsWith(path, at) && settings.some((setting) => shows(setting, rest));
  });
}

/** The problems of a part that none of its settings shows. */
export function strayProblems(
  problems: readonly AgreementProblem[],
  part: AskedPart,
): readonly AgreementProblem[] {
  const shown = shownProblems(problems, part);
  return problems.filter((problem) => startsWith(problem.path, part.at) && !shown.includes(problem));
}

function shows(setting: Setting, rest: JsonPath): boolean {
  if (!startsWith(rest, setting.path)) return false;
  const inner = rest.slice(setting.path.length);
  if (inner.length === 0 || setting.kind === 'ticks') return true;
  if (setting.kind !== 'rows' || typeof inner[0] !== 'number') return false;
  const cell = inner.slice(1);
  return cell.length === 0 || setting.columns.some((column) => isSame(column.path, cell));
}

export function startsWith(path: JsonPath, start: JsonPath): boolean {
  return start.every((key, index) => path[index] === key);
}

export function isSame(one: JsonPath, other: JsonPath): boolean {
  return one.length === other.length && startsWith(one, other);
}

const HEADINGS: Readonly<Record<string, string>> = {
  id: 'Number of the agreement',
  timeZone: 'Time zone',
  acceptance: 'Range',
  references: 'Reference',
  price: 'Price lines',
};

/** "Line 3 (Hauling), rate"; "Reference corn, floor"; "Conditions, volume, amount". */
export function placeInWords(path: JsonPath, document: unknown): string {
  const [first, second, ...rest] = path;
  if (first === undefined) return 'The agreement';
  const more = (keys: JsonPath) => keys.map((key) => `, ${keyWords(key)}`).join('');
  if (second === undefined) return HEADINGS[first] ?? opening(keyWords(first));
  if (first === 'price') {
    const label = shownText(readAt(document, ['price', second, 'label']));
    return `Line ${Number(second) + 1}${label === '' ? '' : ` (${label})`}${more(rest)}`;
  }
  if (first === 'references') return `Reference ${second}${more(rest)}`;
  if (first === 'acceptance') return `Range ${Number(second) + 1}${more(rest)}`;
  return `${opening(keyWords(first))}${more([second, ...rest])}`;
}

function keyWords(key: string | number): string {
  if (typeof key === 'number') return String(key + 1);
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).replaceAll('-', ' ');
}
