/**
 * The top of a retest's paper: how the question stands, the parties, the agreement, and all of it in a few sentences.
 */
import { boxedPiece } from '../pdf/boxed-text.ts';
import { factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { titlePiece } from '../pdf/title-piece.ts';
import { type RetestSetting, subjectOf } from './retest-setting.ts';
import { lastDay } from './retest-steps.ts';
import {
  changeSentence,
  costSentence,
  endingSentence,
  heldSentence,
  openSentences,
  questionSentence,
  stateOf,
} from './retest-words.ts';

/** The question from its beginning to where it stands, for somebody who reads nothing else. */
function inShort(setting: RetestSetting): string {
  const { ending } = setting.record;
  const sentences = ending
    ? [
        `${ending.on}: ${endingSentence(ending, setting)}`,
        `${changeSentence(ending, setting)} ${costSentence(ending, setting)}`,
      ]
    : [
        'Nothing is decided yet.',
        ...openSentences(setting),
        heldSentence(setting) ?? 'Nothing is held of invoices.',
      ];
  return [questionSentence(setting), ...sentences].join('\n');
}

/** The pieces of the heading, tied together and to what follows. */
export function headingPieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  const { ending } = record;
  const across = { left: sheet.left, width: sheet.width, label: sheet.label, keepWithNext: true };
  return [
    titlePiece(
      {
        title: 'Retest record',
        below: subjectOf(record),
        label: 'This question is',
        figure: stateOf(record),
        under: ending ? `on ${ending.on}` : `last step ${lastDay(setting)}`,
      },
      sheet,
    ),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'Seller', value: record.seller },
        { label: 'Buyer', value: record.buyer },
      ],
      columns: 2,
      value: sheet.party,
      gapBefore: 9,
    }),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'Agreement', value: `${record.agreement}, version ${record.agreementVersion}` },
        { label: 'Asked by', value: record[record.asker] },
        { label: 'Asked on', value: record.askedOn },
        { label: 'Days and times are those of', value: record.timeZone },
        { label: 'Fingerprint of that version (SHA-256)', value: record.agreementFingerprint, span: 4 },
      ],
      columns: 4,
      value: sheet.body,
      gapBefore: 8,
    }),
    boxedPiece({ text: inShort(setting), style: sheet.strong, gapBefore: 10 }, sheet),
  ];
}
