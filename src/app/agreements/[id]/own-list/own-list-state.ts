/**
 * What comes back to the form of an own list: the file's text with it, so that it need not be chosen again.
 */
import type { MatchedImport } from '../../../../usecases/import/match-import.ts';
import type { OpenMatch } from '../../../import/import-state.ts';

export interface OwnListState {
  readonly turn: number;
  readonly refused?: string;
  readonly problems?: readonly string[];
  readonly fileName?: string;
  readonly text?: string;
  readonly matched?: MatchedImport & { readonly isRemembered: boolean };
  readonly match?: OpenMatch;
}
