/**
 * A season as the texts of its input files, in any of the shapes that the formats allow: columns in any
 * order, cells quoted or not, with or without byte-order mark, either line ending. Empty files are left out.
 */
import { type Chance, chanceFrom } from './random.ts';
import type { OracleSeason } from './season.ts';

export type SeasonFiles = {
  'agreement.json': string;
  'loads.csv': string;
  'samples.csv'?: string;
  'prices.csv'?: string;
  'elections.csv'?: string;
  'choices.csv'?: string;
};

type Dialect = { quoting: number; padding: number; end: string; mark: string; lastEnd: boolean };

function cell(chance: Chance, dialect: Dialect, text: string): string {
  if (/[",\r\n]/.test(text) || (dialect.quoting > 0 && chance.happens(dialect.quoting)))
    return `"${text.replaceAll('"', '""')}"`;
  return dialect.padding > 0 && chance.happens(dialect.padding) ? ` ${text}  ` : text;
}

function table(chance: Chance, rows: readonly object[], required: readonly string[]): string {
  const dialect: Dialect = {
    quoting: chance.pick([0, 0, 0.2, 1]),
    padding: chance.pick([0, 0, 0.2]),
    end: chance.pick(['\n', '\n', '\r\n']),
    mark: chance.happens(0.2) ? '\uFEFF' : '',
    lastEnd: chance.happens(0.8),
  };
  const present = new Set<string>(required);
  for (const row of rows) for (const name of Object.keys(row)) present.add(name);
  const columns = chance.shuffled([...present]);
  const lines = [columns.map((name) => cell(chance, dialect, name)).join(',')];
  for (const row of rows) {
    const values = new Map<string, string>(Object.entries(row));
    lines.push(columns.map((name) => cell(chance, dialect, values.get(name) ?? '')).join(','));
  }
  return dialect.mark + lines.join(dialect.end) + (dialect.lastEnd ? dialect.end : '');
}

export function seasonFiles(season: OracleSeason, seed: number): SeasonFiles {
  const chance = chanceFrom(seed);
  const files: SeasonFiles = {
    'agreement.json': JSON.stringify(season.agreement, undefined, chance.pick([0, 2])),
    'loads.csv': table(chance, season.loads, ['ticket', 'delivered_at', 'gross', 'tare', 'unit']),
  };
  if (season.samples.length > 0) files['samples.csv'] = table(chance, season.samples, ['sample']);
  if (season.prices.length > 0) files['prices.csv'] = table(chance, season.prices, ['series']);
  if (season.elections.length > 0) files['elections.csv'] = table(chance, season.elections, ['ticket']);
  if (season.choices.length > 0) files['choices.csv'] = table(chance, season.choices, ['ticket']);
  return files;
}
