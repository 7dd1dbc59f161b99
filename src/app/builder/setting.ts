/**
 * Settings as data: each says which key of the agreement file it writes, and how it is called and asked for. One
 * component draws them all, so that a key that the format gains needs one line here.
 */
import type { JsonPath } from '../../domain/agreement/problem.ts';

export interface Option {
  readonly value: string;
  readonly label: string;
}

interface Placed {
  /** From the group that the setting belongs to. */
  readonly path: JsonPath;
  readonly label: string;
  readonly hint?: string;
}

export interface TextSetting extends Placed {
  readonly kind: 'text';
  /** Names that are likely, to choose from or pass over. */
  readonly known?: readonly string[];
}

/** A number, kept as the text that was typed. */
export interface FigureSetting extends Placed {
  readonly kind: 'figure';
  /** Stands behind the figure. */
  readonly unit?: string;
  /** Can be below zero: some phones' keys for figures have no minus sign. */
  readonly signed?: true;
}

export interface DateSetting extends Placed {
  readonly kind: 'date';
}

/** A text of several lines. */
export interface LinesSetting extends Placed {
  readonly kind: 'lines';
}

export interface ListSetting extends Placed {
  readonly kind: 'list';
  readonly options: readonly Option[];
  /** What the document means without the key; without this, one has to be chosen. */
  readonly without?: string;
  /** What else is written, in the place of the whole group, once this is chosen. */
  readonly group?: (chosen: string, before: unknown) => unknown;
}

/** Yes, or the key is left out. */
export interface TickSetting extends Placed {
  readonly kind: 'tick';
  /** What the document holds where it is ticked. */
  readonly ticked: string | true;
}

/** Yes, no, or not said. */
export interface YesNoSetting extends Placed {
  readonly kind: 'yes-no';
}

/** Any of a few, as a list in the document. */
export interface TicksSetting extends Placed {
  readonly kind: 'ticks';
  readonly options: readonly Option[];
}

/** A list of groups, each with the same settings. */
export interface RowsSetting extends Placed {
  readonly kind: 'rows';
  /** What one of them is called: "step". */
  readonly row: string;
  readonly columns: readonly OneSetting[];
  readonly empty: Readonly<Record<string, unknown>>;
}

export type OneSetting =
  | TextSetting
  | FigureSetting
  | DateSetting
  | LinesSetting
  | ListSetting
  | TickSetting
  | YesNoSetting
  | TicksSetting;

export type Setting = OneSetting | RowsSetting;

/** Settings that belong together, under a name. */
export interface SettingGroup {
  readonly heading: string;
  readonly hint?: string;
  readonly settings: readonly Setting[];
}

/** What an agreement says that leaves a choice out. */
export const UNSAID = 'not said';

export function optionsOf(words: Readonly<Record<string, string>>): readonly Option[] {
  return Object.entries(words).map(([value, label]) => ({ value, label }));
}

export interface FoundSetting {
  readonly setting: Setting;
  /** Which of its rows, and which of their columns, where the path leads into one. */
  readonly row?: number;
  readonly column?: OneSetting | undefined;
}

/** The setting that shows what is at a path; undefined where none does. */
export function settingAt(settings: readonly Setting[], path: JsonPath): FoundSetting | undefined {
  for (const setting of settings) {
    if (!startsWith(path, setting.path)) continue;
    const [row, ...cell] = path.slice(setting.path.length);
    if (row === undefined || setting.kind === 'ticks') return { setting };
    if (setting.kind !== 'rows' || typeof row !== 'number') continue;
    const column = setting.columns.find((one) => isSame(one.path, cell));
    if (column || cell.length === 0) return { setting, row, column };
  }
  return undefined;
}

export function startsWith(path: JsonPath, start: JsonPath): boolean {
  return start.every((key, index) => path[index] === key);
}

export function isSame(one: JsonPath, other: JsonPath): boolean {
  return one.length === other.length && startsWith(one, other);
}
