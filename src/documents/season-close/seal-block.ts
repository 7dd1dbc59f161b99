/**
 * The seal: its root and mark in full, in fours under one another, so that two papers or a paper and a screen can be compared
 * with a finger; and how to check them.
 */
import { parseInstant, whenText } from '../../domain/dates/instant.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import { type ClosingSetting, standingOf } from './closing-paper.ts';

const SIGNS_TOGETHER = 4;
const GROUPS_A_LINE = 8;
const NAME_WIDTH = 56;
const LEADING = 17;
const PADDING = 9;
const BETWEEN = 8;

/** "3f9a", "07c1" and so on. */
function groupsOf(hash: string): string[] {
  return hash.match(new RegExp(`.{1,${SIGNS_TOGETHER}}`, 'g')) ?? [];
}

/** Root and mark in one box, which is never cut. */
function hashesPiece(
  hashes: readonly (readonly [name: string, hash: string])[],
  { sheet }: ClosingSetting,
): Piece {
  const lines = hashes.map(([, hash]) => Math.ceil(groupsOf(hash).length / GROUPS_A_LINE));
  const height =
    lines.reduce((sum, count) => sum + count * LEADING, 0) + BETWEEN * (hashes.length - 1) + 2 * PADDING - 4;
  const column = (sheet.width - NAME_WIDTH - 2 * PADDING) / GROUPS_A_LINE;
  return {
    height,
    gapBefore: 7,
    keepWithNext: true,
    draw: (ink, top) => {
      ink.outline(
        { x: sheet.left, top, width: sheet.width, height },
        { colour: sheet.rule.colour, width: 1.2 },
      );
      let baseline = top + PADDING + 11;
      for (const [index, [name, hash]] of hashes.entries()) {
        ink.text(name, sheet.left + PADDING, baseline, sheet.party);
        for (const [place, group] of groupsOf(hash).entries()) {
          const x = sheet.left + PADDING + NAME_WIDTH + (place % GROUPS_A_LINE) * column;
          ink.text(group, x, baseline + Math.floor(place / GROUPS_A_LINE) * LEADING, sheet.party);
        }
        baseline += (lines[index] ?? 0) * LEADING + BETWEEN;
      }
    },
  };
}

/** "2026-11-26 18:04:05 UTC". Throws RangeError on another text. */
function utcText(moment: string): string {
  const read = parseInstant(moment);
  if ('wrong' in read) throw new RangeError(`sealedAt must be ${read.wrong}; found ${moment}`);
  return `${whenText(read.instant).slice(0, 19).replace('T', ' ')} UTC`;
}

/** None before the season is sealed. */
export function sealPieces(setting: ClosingSetting): Piece[] {
  const { paper, sheet } = setting;
  if (standingOf(paper) !== 'sealed' || !paper.seal) return [];
  const { root, mark, sealedAt } = paper.seal;
  return [
    ...sectionHeading('The seal', sheet),
    ...prose(
      'With both signatures the season was sealed: nothing can be recorded, changed or taken out under this agreement any more. To check it, run “huskledger check-seal FILE” on the season’s file, which either party saves from its closing page: it must say that the seal fits, and print the same root and the same mark.',
      sheet,
      true,
    ),
    hashesPiece(
      [
        ['Root', root],
        ['Mark', mark],
      ],
      setting,
    ),
    ...paragraphPieces({
      text: `Compare every group, line by line; the blanks between the groups do not count. The root stands for all entries of the journal, in their order; the mark for the root, this statement, and who signed it when. Sealed at ${utcText(sealedAt)}.`,
      left: sheet.left,
      width: sheet.width,
      style: sheet.label,
      leading: 10.5,
      gapBefore: 5,
    }),
  ];
}
