/**
 * What is wrong in a draft, told for whoever fills in fields: without the quotes and braces of the file, and sorted to
 * the parts that show it.
 */
import type { AgreementProblem, JsonPath } from '../../domain/agreement/problem.ts';
import type { FieldProblem } from '../forms/form-state.ts';
import { type Draft, parsePath, readAt } from './document-path.ts';
import { type Setting, settingAt, startsWith } from './setting.ts';

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

/** What the file's checks say, and what is said beside a field. */
const PLAINER: readonly (readonly [RegExp, string])[] = [
  [/^is missing: ((one of )?"|what ).*$/, 'has to be chosen'],
  [/^is (missing|wrong): a (list|group) in .*$/, 'is missing'],
  [/^must have at least one price term; found none$/, 'needs at least one line'],
  [/^must have a "floor", a "ceiling" or both$/, 'needs the least, the most or both'],
  [/^must have steps "above", "below" or both$/, 'needs steps above the range, below it or both'],
  [/^must have "below", "above" or both$/, 'needs a figure below or above which a load may be refused'],
  [/ "to"/, ' its other end'],
  [/ in quotes, like "([^"]*)" \(digits, at most one point, \d+ characters\)/, ' like $1'],
  [/ in quotes/g, ''],
  [/^is missing: text(, .*)?$/, 'is missing'],
  [/; found ""$/, ''],
];

function plain(message: string): string {
  return PLAINER.reduce((told, [what, words]) => told.replace(what, words), message);
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
  return problems.filter(
    ({ path }) => startsWith(path, at) && settingAt(settings, path.slice(at.length)) !== undefined,
  );
}

/** The problems of a part that none of its settings shows. */
export function strayProblems(
  problems: readonly AgreementProblem[],
  part: AskedPart,
): readonly AgreementProblem[] {
  const shown = shownProblems(problems, part);
  return problems.filter((problem) => startsWith(problem.path, part.at) && !shown.includes(problem));
}
