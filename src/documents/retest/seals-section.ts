/**
 * How the sample was taken, and each sealed part from its seal to whoever had it last.
 */
import type { RecordedPart } from '../../domain/retests/retest-record.ts';
import { asSentence } from '../../domain/words/figures-in-words.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import type { Piece } from '../pdf/flow.ts';
import { sectionedTablePieces, type TableSection } from '../pdf/sectioned-table.ts';
import { clockText, type RetestSetting, tableSpace } from './retest-setting.ts';

function takingSentence({ record }: RetestSetting): string {
  const { taking, sample, timeZone } = record;
  if (!taking) return `How sample ${sample ?? ''} was taken is not recorded.`;
  return asSentence(
    `Sample ${sample ?? ''} was taken at ${clockText(taking.takenAt, record)} (${timeZone}) by ${taking.takenBy}: ${taking.how}`,
  );
}

function partName(part: string, { record }: RetestSetting): string {
  switch (part) {
    case 'seller':
    case 'buyer':
      return `The ${part}’s part (${record[part]})`;
    default:
      return `The ${part}’s part`;
  }
}

const NO_DAY = 'not said';

function partSection(part: RecordedPart, setting: RetestSetting): TableSection {
  const name = partName(part.part, setting);
  return {
    heading: `${name}: seal ${part.seal}, ${part.isAirtight ? 'airtight' : 'not airtight'}`,
    rows: [
      { cells: ['Sealed', '', part.keptWhere, part.keptUntil ?? NO_DAY, 'put on'] },
      ...part.handovers.map(({ handedAt, toWhom, keptWhere, keptUntil, isSealIntact }) => ({
        cells: [
          clockText(handedAt, setting.record),
          toWhom,
          keptWhere,
          keptUntil ?? NO_DAY,
          isSealIntact ? 'whole' : 'BROKEN',
        ],
      })),
    ],
    totals: [],
    continued: `${name}, continued`,
  };
}

/** A group of pieces for each part; none for a weight. */
export function sealPieces(setting: RetestSetting): Piece[][] {
  const { record, sheet } = setting;
  if (record.sample === null) return [];
  const isSealed = record.parts.length > 0;
  const opening = [
    ...sectionHeading('The sample and its seals', sheet),
    ...prose(takingSentence(setting), sheet, isSealed),
  ];
  if (!isSealed) return [[...opening, ...prose('No sealed part of it is recorded.', sheet)]];
  const [first = [], ...others] = sectionedTablePieces({
    columns: [
      { head: 'Handed over at', align: 'left', width: 82 },
      { head: 'To whom', align: 'left', width: 'fill' },
      { head: 'Kept where from then on', align: 'left', width: 'fill' },
      { head: 'Kept until', align: 'left', width: 56 },
      { head: 'Seal', align: 'left', width: 42 },
    ],
    sections: record.parts.map((part) => partSection(part, setting)),
    space: tableSpace(setting),
    style: sheet.table,
    gapBefore: 8,
  });
  return [[...opening, ...first], ...others];
}
