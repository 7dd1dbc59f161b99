/**
 * What is questioned: the figure as it was first reported, by whom and how; what the asker makes of it, and why.
 */
import { prose, sectionHeading } from '../agreement/prose.ts';
import { type Fact, factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { moneyText, quoted, type RetestSetting, withUnit } from './retest-setting.ts';
import { totalOf } from './retest-words.ts';

const UNSAID = 'not said';

function reportFacts({ record }: RetestSetting): Fact[] {
  if (record.sample === null) return [{ label: 'Reported on ticket', value: record.ticket ?? UNSAID }];
  const { laboratory = null, method = null, reportedOn = null } = record.firstReport ?? {};
  return [
    { label: 'Reported by', value: laboratory ?? UNSAID },
    { label: 'Its method', value: method ?? UNSAID },
    { label: 'Its report is of', value: reportedOn ?? UNSAID },
  ];
}

function deliveredText({ record }: RetestSetting): string {
  const days = record.loads.map(({ deliveredOn }) => deliveredOn).toSorted();
  const [from = UNSAID, to = from] = [days.at(0), days.at(-1)];
  return from === to ? from : `${from} to ${to}`;
}

/** A group of pieces. */
export function questionPieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  const [before, now] = [totalOf(record, 'before'), totalOf(record, 'now')];
  const loads = record.loads.length === 1 ? 'The load' : 'All loads';
  const across = { left: sheet.left, width: sheet.width, label: sheet.label, columns: 4 };
  return [
    ...sectionHeading('The question', sheet),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'First reported', value: withUnit(record.first, setting) },
        ...reportFacts(setting),
        { label: `${record[record.asker]} makes it`, value: withUnit(record.claimed, setting) },
        ...(record.sample === null
          ? []
          : [{ label: 'Loads of this sample', value: String(record.loads.length) }]),
        { label: 'Delivered', value: deliveredText(setting) },
      ],
      value: sheet.body,
      gapBefore: 4,
      keepWithNext: true,
    }),
    ...factGridPieces({
      ...across,
      facts: [
        { label: `${loads} came to, before the question`, value: priced(before, setting), span: 2 },
        {
          label: `${loads} now ${record.loads.length === 1 ? 'comes' : 'come'} to`,
          value: priced(now, setting),
          span: 2,
        },
      ],
      value: sheet.body,
      gapBefore: 4,
      keepWithNext: true,
    }),
    ...prose(`Why ${record[record.asker]} asks: ${quoted(record.reason)}`, sheet),
  ];
}

function priced(total: string | undefined, setting: RetestSetting): string {
  return total === undefined ? 'not all are priced; see the list of loads' : moneyText(total, setting);
}
