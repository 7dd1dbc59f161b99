/**
 * The rules of references that their shape alone cannot hold: a rule that follows quotes has a series, ends are in
 * order, and windows on one series can be met by one election.
 */
import { parseLocalDate } from '../dates/local-date.ts';
import { inOrder } from './in-order.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asDecimal, asGroup, asText, type RawGroup } from './raw.ts';

/** The rules of one reference, over whatever of it is well formed. */
export function checkReference(reference: RawGroup, path: JsonPath): AgreementProblem[] {
  const problems: AgreementProblem[] = [];
  const kind = asText(asGroup(reference.rule)?.kind);
  if (kind !== undefined && kind !== 'fixed' && reference.series === undefined) {
    problems.push({
      path: [...path, 'series'],
      message: `is missing: the rule ${JSON.stringify(kind)} needs a price series`,
    });
  }
  const floor = asDecimal(reference.floor);
  const ceiling = asDecimal(reference.ceiling);
  if (!inOrder(floor, ceiling)) {
    problems.push({
      path: [...path, 'floor'],
      message: `must not be above the ceiling; found ${floor} above ${ceiling}`,
    });
  }
  const window = windowOf(reference);
  if (window && window.from > window.to) {
    problems.push({
      path: [...path, 'rule', 'from'],
      message: `must not be after "to"; found ${window.from} after ${window.to}`,
    });
  }
  return problems;
}

/** An election names a series and one date, so all windows on that series must share a date. */
export function checkWindows(references: ReadonlyMap<string, RawGroup | undefined>): AgreementProblem[] {
  const windows = [...references].flatMap(([name, reference]) => {
    const window = reference && windowOf(reference);
    const series = asText(reference?.series);
    return window && window.from <= window.to && series !== undefined ? [{ name, series, ...window }] : [];
  });
  return windows.flatMap((window, index) => {
    const apart = windows
      .slice(0, index)
      .find(({ series, from, to }) => series === window.series && (window.from > to || window.to < from));
    if (!apart) return [];
    return [
      {
        path: ['references', window.name, 'rule', 'from'],
        message: `must give a window that shares a date with that of ${JSON.stringify(apart.name)} (${apart.from} to ${apart.to}): both follow the series ${JSON.stringify(window.series)}, and a load has one election for it`,
      },
    ];
  });
}

function windowOf({ rule }: RawGroup): { readonly from: string; readonly to: string } | undefined {
  const group = asGroup(rule);
  if (group?.kind !== 'seller-elects') return undefined;
  const from = parseLocalDate(asText(group.from) ?? '');
  const to = parseLocalDate(asText(group.to) ?? '');
  return from && to ? { from, to } : undefined;
}
