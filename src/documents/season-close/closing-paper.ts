/**
 * Everything that a closing statement's paper is made from, and how far its signing has come.
 */
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import type { OpenPoint } from '../../domain/season-close/open-points.ts';
import type { Figures } from '../figures.ts';
import type { Sheet } from '../pdf/sheet.ts';
import type { CloseStanding } from './closing-facts.ts';

export type ClosingSide = 'seller' | 'buyer';
export const SIDES: readonly ClosingSide[] = ['seller', 'buyer'];

export interface ClosingSignature {
  readonly side: ClosingSide;
  /** The name as it was typed. */
  readonly name: string;
  /** The local date in the agreement's time zone. */
  readonly on: string;
}

export interface ClosingPaper {
  readonly statement: ClosingStatement;
  /** The agreement's, in which days are counted. */
  readonly timeZone: string;
  /** SHA-256 of the statement once it is drawn up to be signed. */
  readonly fingerprint?: string | undefined;
  /** Of this very statement. */
  readonly signatures: readonly ClosingSignature[];
  readonly seal?:
    | {
        readonly root: string;
        readonly mark: string;
        /** The local date, and the moment as ISO 8601 in UTC. */
        readonly on: string;
        readonly sealedAt: string;
      }
    | undefined;
  /** What has to be answered before anybody can sign; none once it is drawn up. */
  readonly inTheWay: readonly OpenPoint[];
}

export interface ClosingSetting {
  readonly paper: ClosingPaper;
  readonly figures: Figures;
  readonly sheet: Sheet;
}

export function standingOf({ seal, fingerprint }: ClosingPaper): CloseStanding {
  if (seal) return 'sealed';
  return fingerprint === undefined ? 'now' : 'drawn up';
}

/** Who has signed, in few words for every page: one page alone must not pass for a sealed season. */
export function stateOf(paper: ClosingPaper): string {
  const { seal, signatures, statement } = paper;
  if (seal) return `sealed on ${seal.on}`;
  const [signed] = signatures;
  if (!signed) return 'not sealed yet: nobody has signed it';
  return `not sealed yet: signed for ${statement[signed.side]} only`;
}
