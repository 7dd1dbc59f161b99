/**
 * What comes back to the import form after each step: the file's text with it, so that it need not be chosen again.
 */
import type { ColumnMatch } from '../../domain/tables/column-match.ts';
import type { ImportKind } from '../../domain/tables/wanted-columns.ts';
import type { MatchedImport } from '../../usecases/import/match-import.ts';

/** The match as the form has it: a part of it may still be open. */
export type OpenMatch = Pick<ColumnMatch, 'columns' | 'decimalMark' | 'timeOffset'> & {
  readonly dateOrder: ColumnMatch['dateOrder'] | undefined;
};

export interface ToldRow {
  readonly line: number;
  readonly told: readonly string[];
}

/** What a preview shows; of long lists the beginning. */
export interface ToldPreview {
  readonly counts: Readonly<Record<'new' | 'there' | 'differs' | 'wrong', number>>;
  readonly wrong: readonly ToldRow[];
  readonly differs: readonly ToldRow[];
  /** Rows as they would be recorded, by our columns. */
  readonly columns: readonly string[];
  readonly fresh: readonly { readonly line: number; readonly cells: readonly string[] }[];
  readonly unusual: string | undefined;
  readonly refused: string | undefined;
  readonly isTaken: boolean;
}

export interface ImportState {
  readonly turn: number;
  readonly kind: ImportKind;
  readonly refused?: string;
  readonly problems?: readonly string[];
  readonly fileName?: string;
  readonly text?: string;
  readonly matched?: MatchedImport;
  readonly match?: OpenMatch;
  readonly preview?: ToldPreview;
}
