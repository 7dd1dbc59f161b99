/**
 * What comes back to a form: nothing yet, a refusal with all that was typed, or an answer to show beside it.
 */
import type { InputField } from './field.ts';

export interface FieldProblem {
  /** The name of a field, where the fault is in one. */
  readonly field?: string;
  readonly message: string;
}

export interface FormState {
  /** What was refused, or went wrong, in a sentence. */
  readonly refused?: string;
  readonly problems?: readonly FieldProblem[];
  /** What was typed, by field; passwords are left out. */
  readonly typed?: Readonly<Record<string, string>>;
  /** A request key to use from now on. */
  readonly key?: string;
  /** A field that only now turned out to be needed. */
  readonly asked?: InputField;
  /** Something done that leaves the form where it is. */
  readonly told?: string;
  /** A link to hand over, shown this once. */
  readonly link?: string;
  /** Where to go on from there. */
  readonly next?: { readonly label: string; readonly to: string };
  /** Grows with every answer, so that the form draws itself anew. */
  readonly turn: number;
}

export const NOTHING_YET: FormState = { turn: 0 };

/** A form's action: what is there before, what was sent, what comes back. */
export type FormAction = (before: FormState, sent: FormData) => Promise<FormState>;
