/**
 * The rule in words, and the steps that were taken.
 */
import { countOfDays } from '../../domain/words/figures-in-words.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import type { Piece } from '../pdf/flow.ts';
import { tablePieces } from '../pdf/table.ts';
import { type RetestSetting, tableSpace } from './retest-setting.ts';
import { stepsOf } from './retest-steps.ts';

/** The agreed rule, sentence by sentence, with the referee's name. */
export function rulePieces({ record, sheet }: RetestSetting): Piece[] {
  const referee = record.referee === null ? 'No referee is agreed.' : `The referee is ${record.referee}.`;
  return [
    ...sectionHeading('The rule, as it was agreed when the question was asked', sheet),
    ...record.rule.flatMap((sentence, index) => prose(sentence, sheet, index === 0)),
    ...prose(
      `${referee} Each round of tests has ${countOfDays(record.testDays)}. What is decided follows from this rule; Huskledger is no arbiter.`,
      sheet,
    ),
  ];
}

/** Who did what on which day. */
export function stepPieces(setting: RetestSetting): Piece[] {
  const { sheet } = setting;
  return [
    ...sectionHeading('The steps taken', sheet),
    ...tablePieces({
      columns: [
        { head: 'Day', align: 'left', width: 54 },
        { head: 'Who', align: 'left', width: 120 },
        { head: 'What', align: 'left', width: 'fill' },
      ],
      rows: stepsOf(setting).map(({ on, who, what }) => ({ cells: [on, who, what] })),
      totals: [],
      space: tableSpace(setting),
      style: sheet.table,
      gapBefore: 6,
      continued: 'Day',
    }),
  ];
}
