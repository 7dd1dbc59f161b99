/**
 * What others found to be lost of the dry matter between filling a silo and feeding it, each figure with where it comes
 * from. All of them are about chopped forage; ear corn is stored wetter or drier than that, so they stand beside a silo's
 * own figure to look at and are no limit.
 */
import type { SiloKind } from './silo-kind.ts';

export interface PublishedShrink {
  /** Of which silos; with a cover or without one where the source tells the two apart. */
  readonly of: string;
  /** Percent of the dry matter that went in. */
  readonly low: string;
  readonly high: string;
  readonly source: string;
}

const HOLMES_MUCK =
  'Holmes and Muck, US Dairy Forage Research Center: filling, storing and feeding out together, as reprinted in July 2015';
const MUCK =
  'Muck, Brink and Broderick, Applied Engineering in Agriculture 31, 2015: chopped alfalfa, mean of two trials of 14 to 15 months';
const DREWNOSKI = 'Drewnoski, University of Nebraska: silage that is managed well, any silo';

const ANY: PublishedShrink = { of: 'Any silo', low: '10', high: '20', source: DREWNOSKI };

const PUBLISHED: Readonly<Record<SiloKind, readonly PublishedShrink[]>> = {
  bag: [
    { of: 'Bags', low: '9', high: '14', source: HOLMES_MUCK },
    { of: 'A bag', low: '11', high: '11', source: MUCK },
    ANY,
  ],
  bunker: [
    { of: 'Covered bunkers', low: '16', high: '31', source: HOLMES_MUCK },
    { of: 'Bunkers without a cover', low: '24', high: '43', source: HOLMES_MUCK },
    { of: 'A bunker', low: '17', high: '17', source: MUCK },
    ANY,
  ],
  pile: [
    { of: 'Covered piles', low: '17', high: '34', source: HOLMES_MUCK },
    { of: 'Piles without a cover', low: '37', high: '58', source: HOLMES_MUCK },
    ANY,
  ],
  tower: [{ of: 'A tower that keeps air out', low: '4', high: '4', source: MUCK }, ANY],
};

/** The published figures for a kind of silo; for a bag they are 9 to 14 %, 11 % and 10 to 20 %. */
export function publishedShrink(kind: SiloKind): readonly PublishedShrink[] {
  return PUBLISHED[kind];
}
