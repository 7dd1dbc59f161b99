/**
 * Decides what stands on which page. Pure: pieces with heights in, pages of placed pieces out.
 * Pieces tied by keepWithNext stay together (a heading with its first row, a total with the row before it);
 * a group stays together where that leaves no page half empty. A piece is never cut.
 */
import type { PageInk } from './page-ink.ts';

export interface Piece {
  readonly height: number;
  readonly draw: (ink: PageInk, top: number) => void;
  /** White space above, in points; none at the top of a page. */
  readonly gapBefore?: number;
  readonly keepWithNext?: boolean;
  /** Drawn first where this piece opens a page: a table's heading. */
  readonly repeatedHead?: Piece;
}

export type Placed = { readonly piece: Piece; readonly top: number };

/** Height in points that each page offers, the first page being number 0. */
export type Room = (page: number) => number;

/** A group moves whole to the next page only if that leaves at most this part of the page empty. */
const EMPTY_AT_MOST = 0.3;

class Placing {
  readonly pages: Placed[][] = [[]];
  #used = 0;
  readonly #room: Room;

  constructor(room: Room) {
    this.#room = room;
  }

  get room(): number {
    return this.#room(this.pages.length - 1);
  }

  get nextRoom(): number {
    return this.#room(this.pages.length);
  }

  get left(): number {
    return this.room - this.#used;
  }

  get isEmpty(): boolean {
    return this.#used === 0;
  }

  turnPage(): void {
    this.pages.push([]);
    this.#used = 0;
  }

  place(piece: Piece): void {
    if (this.isEmpty && piece.repeatedHead !== undefined) this.#put(piece.repeatedHead);
    this.#put(piece);
  }

  #put(piece: Piece): void {
    const top = this.#used + (this.isEmpty ? 0 : (piece.gapBefore ?? 0));
    this.pages.at(-1)?.push({ piece, top });
    this.#used = top + piece.height;
  }
}

function heightOf(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, piece) => sum + piece.height + (piece.gapBefore ?? 0), 0);
}

function runsOf(group: readonly Piece[]): Piece[][] {
  const runs: Piece[][] = [];
  let run: Piece[] = [];
  for (const piece of group) {
    run.push(piece);
    if (piece.keepWithNext === true) continue;
    runs.push(run);
    run = [];
  }
  if (run.length > 0) runs.push(run);
  return runs;
}

/** Places groups of pieces on pages, top down; each `top` is in points from the top of the page's room. */
export function paginate(groups: readonly (readonly Piece[])[], room: Room): Placed[][] {
  const placing = new Placing(room);
  for (const group of groups) {
    const whole = heightOf(group);
    const movesWhole = whole <= placing.nextRoom && placing.left <= placing.room * EMPTY_AT_MOST;
    if (whole > placing.left && !placing.isEmpty && movesWhole) placing.turnPage();
    for (const run of runsOf(group)) {
      if (heightOf(run) > placing.left && !placing.isEmpty) placing.turnPage();
      for (const piece of run) {
        // A run taller than a page has to break somewhere.
        if (heightOf([piece]) > placing.left && !placing.isEmpty) placing.turnPage();
        placing.place(piece);
      }
    }
  }
  return placing.pages;
}
