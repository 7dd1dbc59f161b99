/**
 * The match as fields of a form, there and back. A field of a column holds "3" for the file's third column from 0, or
 * "=lb" for a text that stands for all rows.
 */
import type { ColumnSource } from '../../domain/tables/column-match.ts';
import { type TableKind, WANTED } from '../../domain/tables/wanted-columns.ts';
import type { OpenMatch } from './import-state.ts';

export function fieldOf(name: string): string {
  return `column.${name}`;
}

export function sourceText(source: ColumnSource | undefined): string {
  if (!source) return '';
  return 'column' in source ? String(source.column) : `=${source.constant}`;
}

function sourceOf(value: string): ColumnSource | undefined {
  if (value === '') return undefined;
  return value.startsWith('=') ? { constant: value.slice(1) } : { column: Number(value) };
}

function textOf(sent: FormData, name: string): string {
  const value = sent.get(name);
  return typeof value === 'string' ? value : '';
}

/** What was chosen. What is open stays out, and is asked for by whoever reads the match. */
export function matchOf(sent: FormData, kind: TableKind): OpenMatch {
  const columns = WANTED[kind].flatMap(({ name }): [string, ColumnSource][] => {
    const source = sourceOf(textOf(sent, fieldOf(name)));
    return source ? [[name, source]] : [];
  });
  const order = textOf(sent, 'date_order');
  return {
    columns: Object.fromEntries(columns),
    dateOrder: order === '' ? undefined : (order as OpenMatch['dateOrder']),
    decimalMark: textOf(sent, 'decimal_mark') === ',' ? ',' : '.',
    timeOffset: textOf(sent, 'time_offset') || 'agreement',
  };
}

/** Texts that may stand for all rows, with what the list says. */
export function constantsOf(
  name: string,
  series: readonly string[],
): readonly { value: string; label: string }[] {
  const all = (values: readonly (readonly [string, string])[]) =>
    values.map(([value, label]) => ({ value: `=${value}`, label: `${label}, in all rows` }));
  switch (name) {
    case 'unit':
      return all([
        ['lb', 'pounds'],
        ['kg', 'kilograms'],
        ['short-ton', 'short tons'],
        ['tonne', 'tonnes'],
      ]);
    case 'basis':
      return all([
        ['dry-matter', 'dry matter'],
        ['as-fed', 'as-fed weight'],
      ]);
    case 'series':
      return all(series.map((one) => [one, one]));
    default:
      return [];
  }
}

/** "+05:30" and the like, from west to east. */
export const OFFSETS: readonly string[] = Array.from({ length: 53 }, (_, index) => index * 30 - 12 * 60).map(
  (minutes) => {
    const [hours, rest] = [Math.trunc(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
    return `${minutes < 0 ? '-' : '+'}${String(hours).padStart(2, '0')}:${String(rest).padStart(2, '0')}`;
  },
);
