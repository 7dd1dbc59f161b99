/**
 * Every figure of a question about a laboratory's: who tested which part by which method, what came out, what it cost,
 * and whether it counts.
 */

import { otherSide } from '../../domain/retests/costs.ts';
import type { RecordedFigure, RetestRecord } from '../../domain/retests/retest-record.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import { lessThat, signOf, unsigned } from '../amount-strings.ts';
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { type Row, tablePieces } from '../pdf/table.ts';
import { moneyText, quoted, type RetestSetting, type RetestWords, tableSpace } from './retest-setting.ts';

const ROLES = {
  laboratory: 'tested first, and tests again',
  seller: 'the seller’s laboratory',
  buyer: 'the buyer’s laboratory',
  referee: 'the referee',
  'second-scale': 'second scale',
} as const;

/** Who tested, and as what; where somebody else did than was named for it, both names. */
export function testerText({ tester, testerName, testedBy }: RecordedFigure): string {
  const isNamed = tester === 'seller' || tester === 'buyer' || testerName.includes(testedBy);
  return `${testedBy} (${isNamed ? ROLES[tester] : `for ${testerName}`})`;
}

/** What the other side said of it, and so whether the rule takes it in; which figure counts is another matter. */
export function standingText({ standing, isUnanswered }: RecordedFigure, { ending }: RetestRecord): string {
  switch (standing) {
    case 'counts':
      return isUnanswered ? 'said nothing: taken in' : 'confirmed: taken in';
    case 'unanswered':
      return ending ? 'not said before it ended' : 'not said yet: waits';
    case 'contested':
      return 'contested: left out';
    case 'taken-back':
      return 'taken back: left out';
  }
}

/** Below a figure: its cost, who entered it, what the other side said, and the report's fingerprint. */
export function figureNote(figure: RecordedFigure, words: RetestWords): string {
  const { record } = words;
  const { charge, paidBy, by, enteredOn, report } = figure;
  const cost =
    signOf(charge) === 0
      ? 'It cost nothing'
      : `It cost ${moneyText(charge, words)}, paid by ${record[paidBy]}`;
  return [
    `${cost}. Entered by ${record[by]} on ${enteredOn}. ${answerSentence(figure, words)}`,
    `SHA-256 of its report: ${report}`,
  ].join(' ');
}

function answerSentence(
  { standing, isUnanswered, answeredOn, contested, by }: RecordedFigure,
  { record }: RetestWords,
): string {
  const other = record[otherSide(by)];
  const day = answeredOn ?? 'a later day';
  if (standing === 'contested') return `Contested by ${other} on ${day}: ${quoted(contested ?? '')}`;
  if (standing === 'taken-back') return `Taken back by ${record[by]} on ${day}.`;
  if (standing === 'unanswered') {
    return record.ending
      ? `${other} had not answered when the question ended.`
      : `Unless ${other} answers before, the rule takes it in from ${day} on.`;
  }
  return isUnanswered
    ? `${other} said nothing, so that the rule takes it in since ${day}.`
    : `Confirmed by ${other} on ${day}.`;
}

/** "1.60 below", "0.4 above", "the same". */
function offFirst(value: string, { record, figures }: RetestWords): string {
  const off = lessThat(value, record.first);
  const sign = signOf(off);
  return sign === 0 ? 'the same' : `${figures.show(unsigned(off))} ${sign < 0 ? 'below' : 'above'}`;
}

function firstRow({ record, figures }: RetestSetting): Row {
  const { laboratory = null, method = null, reportedOn = null } = record.firstReport ?? {};
  return {
    cells: [
      `${laboratory ?? 'A laboratory that is not named'} (tested first)`,
      method ?? 'not said',
      '',
      reportedOn === null ? 'not said' : `reported ${reportedOn}`,
      figures.show(record.first),
      '',
      'questioned',
    ],
  };
}

function figureRow(figure: RecordedFigure, setting: RetestSetting): Row {
  const { method, seal, testedOn, value } = figure;
  return {
    cells: [
      testerText(figure),
      method ?? 'not said',
      seal ?? '',
      testedOn,
      setting.figures.show(value),
      offFirst(value, setting),
      standingText(figure, setting.record),
    ],
    note: figureNote(figure, setting),
  };
}

/** How anybody checks a report, in small print. */
export function reportsNote(sheet: Sheet): Piece[] {
  return paragraphPieces({
    text: 'Each report is kept in the record as a file. A copy of it that gives the same 64 digits is the same file.',
    left: sheet.left,
    width: sheet.width,
    style: sheet.label,
    leading: 10.5,
    gapBefore: 5,
  });
}

/** The figures of laboratories; the unit stands in the heading of their column. */
export function figurePieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  return [
    ...sectionHeading('The figures', sheet),
    ...tablePieces({
      columns: [
        { head: 'Who tested', align: 'left', width: 'fill' },
        { head: 'Method', align: 'left', width: 76 },
        { head: 'Seal of the part', align: 'left', width: 72 },
        { head: 'Tested on', align: 'left', width: 50 },
        { head: record.unit === '' ? 'Figure' : `Figure, ${record.unit}`, align: 'decimal', width: 58 },
        { head: 'Against the first', align: 'left', width: 54 },
        { head: 'The other side’s word', align: 'left', width: 62 },
      ],
      rows: [firstRow(setting), ...record.figures.map((figure) => figureRow(figure, setting))],
      totals: [],
      space: { ...tableSpace(setting), gap: 8 },
      style: { ...sheet.table, body: { ...sheet.body, size: 9 } },
      gapBefore: 6,
      keepWithNext: true,
    }),
    ...(record.figures.length === 0
      ? prose('Nothing has been tested since the question was asked.', sheet)
      : reportsNote(sheet)),
  ];
}
