/**
 * The four feed colours and their hatches. Fill and hatch differ in lightness and in pattern,
 * so that the parts can be told apart in grey print and by colour-blind eyes.
 */
import type { StripPart } from './load-strip.ts';

export type Hatch = 'level-lines' | 'dots' | 'diagonals' | 'crossed-diagonals';

export interface PartLook {
  /** Six hexadecimal digits: red, green, blue. */
  readonly fill: string;
  readonly mark: string;
  readonly hatch: Hatch;
}

export const STRIP_LOOK: Readonly<Record<StripPart, PartLook>> = {
  water: { fill: 'b4c4cf', mark: '5a7182', hatch: 'level-lines' },
  starch: { fill: 'f3d778', mark: '9a7510', hatch: 'dots' },
  fibre: { fill: 'a9bd83', mark: '4d6430', hatch: 'diagonals' },
  rest: { fill: 'a98563', mark: '5d4028', hatch: 'crossed-diagonals' },
};

/** The thin line around each part. */
export const STRIP_OUTLINE = '4a453d';
