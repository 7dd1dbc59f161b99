/**
 * Forms as data: a page says what it asks for, and one component draws it and keeps what was typed.
 */
import type { Draft } from '../builder/document-path.ts';
import type { FixedKey } from '../builder/fixed-key.ts';

interface Named {
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  /** What stands in the field at first. */
  readonly value?: string;
  readonly optional?: boolean;
}

export interface TextField extends Named {
  readonly kind: 'text';
  /** Which keys a phone shows. */
  readonly keys?: 'decimal' | 'email';
  /** Stands behind the figure. */
  readonly unit?: string;
  readonly autoComplete?: string;
  /** For the one figure that matters most on the page. */
  readonly large?: boolean;
}

export interface PasswordField extends Named {
  readonly kind: 'password';
  readonly autoComplete: 'current-password' | 'new-password';
}

export interface DateField extends Named {
  readonly kind: 'date';
}

/** A time on the wall clock of a zone: "2026-09-14T21:40". */
export interface WallClockField extends Named {
  readonly kind: 'wall-clock';
  readonly timeZone: string;
}

export interface Option {
  readonly value: string;
  readonly label: string;
}

/** A text of many lines, such as a file's. */
export interface LinesField extends Named {
  readonly kind: 'lines';
}

/** A file from the reader's own disk. It has to be chosen again after a refusal: browsers keep none. */
export interface FileField extends Named {
  readonly kind: 'file';
  /** Endings of names, such as ".json". */
  readonly accept: string;
}

/** One of a few, all in sight. */
export interface ChoiceField extends Named {
  readonly kind: 'choice';
  readonly options: readonly Option[];
}

/** Any of a few, all in sight; each is sent as "yes" under the field's name, a point and its value. */
export interface ChecksField extends Named {
  readonly kind: 'checks';
  readonly options: readonly Option[];
  /** Values that are ticked at first. */
  readonly ticked: readonly string[];
}

/** One of many. */
export interface ListField extends Named {
  readonly kind: 'list';
  readonly options: readonly Option[];
}

export interface HiddenField {
  readonly kind: 'hidden';
  readonly name: string;
  readonly value: string;
}

/** A whole agreement, drawn as the formula builder; what is sent is the agreement file's text. */
export interface FormulaField extends Omit<Named, 'value' | 'optional'> {
  readonly kind: 'formula';
  readonly draft: Draft;
  /** What it is compared with. */
  readonly previous?: Draft;
  /** A lot's tests: figures by measure, constituents in percent of dry matter. */
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  readonly fixed: readonly FixedKey[];
  /** Latest quotes by reference, to try it with. */
  readonly quotes?: Readonly<Record<string, string>>;
  readonly locale?: string;
}

export type InputField =
  | TextField
  | PasswordField
  | DateField
  | WallClockField
  | LinesField
  | FileField
  | ChoiceField
  | ChecksField
  | ListField;

/** Fields that most people can pass over. */
export interface MoreFields {
  readonly kind: 'more';
  readonly summary: string;
  readonly fields: readonly InputField[];
  /** Unfolded from the start. */
  readonly isOpen?: boolean;
}

/** Fields that stand side by side. */
export interface FieldRow {
  readonly kind: 'row';
  readonly fields: readonly InputField[];
}

export type Field = InputField | FormulaField | HiddenField | MoreFields | FieldRow;

/** Every field that holds something, wherever it stands. */
export function inputsOf(fields: readonly Field[]): readonly (InputField | FormulaField | HiddenField)[] {
  return fields.flatMap((field): readonly (InputField | FormulaField | HiddenField)[] =>
    field.kind === 'more' || field.kind === 'row' ? field.fields : [field],
  );
}

/** What every input of a field is given. */
export interface Given {
  readonly id: string;
  readonly name: string;
  readonly 'aria-invalid': boolean | undefined;
  readonly 'aria-describedby': string | undefined;
}
