/**
 * All that stands on a closing statement's paper between the head and the foot of its pages, in groups.
 */
import { pointInWords } from '../../domain/season-close/open-points.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import { factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { tablePieces } from '../pdf/table.ts';
import {
  adjustmentSentences,
  type ClosingFact,
  carriedSentence,
  carriedTitle,
  closingFacts,
  differenceSentences,
  wordsOf,
} from './closing-facts.ts';
import { headingPieces } from './closing-heading.ts';
import { type ClosingSetting, type ClosingSide, SIDES, standingOf } from './closing-paper.ts';
import { sealPieces } from './seal-block.ts';

/** Top down: what it is, its seal, who signed, what the season came to, what it all rests on. */
export function closingPieces(setting: ClosingSetting): Piece[][] {
  return [
    headingPieces(setting),
    inTheWayPieces(setting),
    sealPieces(setting),
    signaturePieces(setting),
    factPieces('loads', setting),
    factPieces('money', setting),
    adjustmentPieces(setting),
    carriedPieces(setting),
    differencePieces(setting),
    factPieces('questions', setting),
    groundPieces(setting),
  ].filter((group) => group.length > 0);
}

function inTheWayPieces({ paper, figures, sheet }: ClosingSetting): Piece[] {
  if (paper.inTheWay.length === 0) return [];
  const words = wordsOf(paper.statement, figures);
  return [
    ...sectionHeading('To settle first', sheet),
    ...paper.inTheWay.flatMap((point) => prose(`${pointInWords(point, words)}.`, sheet)),
  ];
}

const SIDE_NAMES: Readonly<Record<ClosingSide, string>> = {
  seller: 'For the seller',
  buyer: 'For the buyer',
};

/** None before the statement is drawn up: there is nothing to sign. */
function signaturePieces({ paper, sheet }: ClosingSetting): Piece[] {
  const { statement, signatures, fingerprint, timeZone } = paper;
  if (fingerprint === undefined) return [];
  const across = { left: sheet.left, width: sheet.width, label: sheet.label };
  const rows = SIDES.flatMap((side) => {
    const own = signatures.find((signature) => signature.side === side);
    return factGridPieces({
      ...across,
      facts: [
        { label: SIDE_NAMES[side], value: statement[side] },
        { label: 'Signed by, as typed', value: own?.name ?? 'NOT SIGNED YET' },
        { label: `Signed on, ${timeZone}`, value: own?.on ?? '' },
      ].filter(({ value }) => value !== ''),
      columns: 3,
      value: sheet.strong,
      gapBefore: 5,
      keepWithNext: true,
    });
  });
  return [
    ...sectionHeading('Signatures', sheet),
    ...rows,
    ...factGridPieces({
      ...across,
      facts: [{ label: 'Fingerprint of the statement that is signed (SHA-256)', value: fingerprint }],
      columns: 1,
      value: sheet.body,
      gapBefore: 6,
    }),
  ];
}

const HEADINGS = { loads: 'Loads', money: 'Money', questions: 'Questions' } as const;
/** Wide enough that a party's name and what it owes stand on few lines, in points. */
const VALUE_WIDTH = 300;

function factPieces(about: Exclude<ClosingFact['about'], 'journal'>, setting: ClosingSetting): Piece[] {
  const { paper, figures, sheet } = setting;
  const facts = closingFacts(paper.statement, figures).filter((fact) => fact.about === about);
  return tablePieces({
    columns: [
      { head: HEADINGS[about], align: 'left', width: 'fill' },
      { head: '', align: 'right', width: VALUE_WIDTH },
    ],
    rows: facts.map(({ name, value }) => ({ cells: [name, value] })),
    totals: [],
    space: { left: sheet.left, width: sheet.width, gap: 10, decimalMark: figures.decimalMark },
    style: { ...sheet.table, head: sheet.strong },
    gapBefore: 13,
    continued: `${HEADINGS[about]} (continued)`,
  });
}

/** In the words that are signed. */
function adjustmentPieces({ paper, sheet }: ClosingSetting): Piece[] {
  const sentences = adjustmentSentences(paper.statement);
  if (sentences.length === 0) return [];
  return [
    ...sectionHeading('By the agreed rules for the season', sheet),
    ...sentences.flatMap((words) => prose(words, sheet)),
  ];
}

function carriedPieces({ paper, figures, sheet }: ClosingSetting): Piece[] {
  const standing = standingOf(paper);
  const said = carriedSentence(paper.statement, figures);
  if (standing === 'now' && said === undefined) return [];
  const title = standing === 'now' ? 'Open, and may be carried over if both agree' : carriedTitle(standing);
  return [...sectionHeading(title, sheet), ...prose(said ?? 'Nothing is carried over.', sheet)];
}

/** Where the books of the two sides differ, and both leave it so. */
function differencePieces({ paper, figures, sheet }: ClosingSetting): Piece[] {
  const sentences = differenceSentences(paper.statement, figures);
  if (sentences.length === 0) return [];
  return [
    ...sectionHeading('Differences that both leave standing', sheet),
    ...prose('No money follows from these: the record counts, and the figures above are its own.', sheet),
    ...sentences.flatMap((sentence) => prose(sentence, sheet)),
  ];
}

/** The versions of the agreement and the journal, by their fingerprints. */
function groundPieces({ paper, figures, sheet }: ClosingSetting): Piece[] {
  const { agreement, journal } = paper.statement;
  const entries = `${figures.show(journal.entries)} ${journal.entries === '1' ? 'entry' : 'entries'}`;
  return [
    ...sectionHeading('What it rests on', sheet),
    ...factGridPieces({
      facts: [
        ...agreement.versions.map((fingerprint, index) => ({
          label: `Agreement ${agreement.number}, version ${index + 1}: its fingerprint (SHA-256)`,
          value: fingerprint,
        })),
        { label: `The journal, ${entries}: fingerprint of the last one`, value: journal.head },
        // In the box of the seal once there is one, and not twice.
        ...(paper.seal ? [] : [{ label: `Root over these ${entries}; no seal yet`, value: journal.root }]),
      ],
      columns: 1,
      left: sheet.left,
      width: sheet.width,
      label: sheet.label,
      value: sheet.body,
      gapBefore: 4,
      // An agreement of many versions goes on over a page.
    }).map((piece) => ({ ...piece, keepWithNext: false })),
  ];
}
