/**
 * Both weighings of a questioned weight, on which scales, how far apart they lie and how far they may.
 */
import { decimal, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { fromPounds, SCALE_UNITS } from '../../domain/quantities/units.ts';
import type { RecordedScale, RecordedWeighing } from '../../domain/retests/retest-record.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import type { Piece } from '../pdf/flow.ts';
import { type Row, tablePieces } from '../pdf/table.ts';
import { figureNote, reportsNote, standingText } from './figures-section.ts';
import { type RetestSetting, type RetestWords, tableSpace } from './retest-setting.ts';

function scaleText(scale: RecordedScale | undefined, { figures }: RetestWords): string {
  if (!scale) return 'a scale that the ticket does not name';
  const { name, accuracyClass, division, unit, isLegalForTrade, certificate } = scale;
  const mark = accuracyClass === 'not marked' ? 'class not marked' : `class ${accuracyClass}`;
  const paper = certificate === null ? 'no certificate recorded' : `certificate ${certificate}`;
  return `${name} (${mark}, division ${figures.show(division)}\u00a0${unit.replaceAll('-', ' ')}, ${isLegalForTrade ? 'legal' : 'NOT legal'} for trade, ${paper})`;
}

function scalesSentence({ grossScale, tareScale }: RecordedWeighing, words: RetestWords): string {
  const [gross, tare] = [scaleText(grossScale, words), scaleText(tareScale, words)];
  return gross === tare ? `Gross and tare on ${gross}.` : `Gross on ${gross}; tare on ${tare}.`;
}

function weighedCells({ gross, tare, unit }: RecordedWeighing, { figures }: RetestWords): string[] {
  const net = printDecimal(subtract(decimal(gross), decimal(tare)));
  return [figures.show(gross), figures.show(tare), figures.show(net), unit.replaceAll('-', ' ')];
}

function rowsOf(setting: RetestSetting): Row[] {
  const { record } = setting;
  const first = record.firstWeighing;
  return [
    ...(first
      ? [
          {
            cells: [
              `Ticket ${record.ticket ?? ''}`,
              ...weighedCells(first, setting),
              record.loads[0]?.deliveredOn ?? '',
              'questioned',
            ],
            note: scalesSentence(first, setting),
          },
        ]
      : []),
    ...record.figures.map((figure) => ({
      cells: [
        figure.testedBy,
        ...(figure.weighing
          ? weighedCells(figure.weighing, setting)
          : ['', '', setting.figures.show(figure.value), record.unit]),
        figure.testedOn,
        standingText(figure, record),
      ],
      note: [
        ...(figure.weighing ? [scalesSentence(figure.weighing, setting)] : []),
        figureNote(figure, setting),
      ].join(' '),
    })),
  ];
}

/** Pounds in the unit of the ticket, to two decimals. */
function fromLb(pounds: string, { record, figures }: RetestWords): string {
  const unit = SCALE_UNITS.find((known) => known === record.unit) ?? 'lb';
  return `${figures.show(printDecimal(fromPounds(decimal(pounds), unit), 2))}\u00a0${unit.replaceAll('-', ' ')}`;
}

function apartPieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  const { weights } = record;
  if (!weights) return prose('There is no second weighing that could be held against the first.', sheet);
  const { apart, allowed, tolerances } = weights;
  const show = (pounds: string) => fromLb(pounds, setting);
  return [
    ...prose(
      `The two net weights lie ${show(apart)} apart. The second counts only if they lie more than ${show(allowed)} apart.`,
      { ...sheet, body: sheet.strong },
    ),
    ...(tolerances
      ? prose(
          `That is how far the scales may be off at these weights, by their class and division: first gross ${show(tolerances.gross.first)}, second gross ${show(tolerances.gross.second)}, first tare ${show(tolerances.tare.first)}, second tare ${show(tolerances.tare.second)}.`,
          sheet,
        )
      : []),
  ];
}

/** The weighings; none for a laboratory's figure. */
export function weighingPieces(setting: RetestSetting): Piece[] {
  const { sheet } = setting;
  return [
    ...sectionHeading('The weighings', sheet),
    ...tablePieces({
      columns: [
        { head: 'Weighed on', align: 'left', width: 'fill' },
        { head: 'Gross', align: 'decimal', width: 'fit' },
        { head: 'Tare', align: 'decimal', width: 'fit' },
        { head: 'Net', align: 'decimal', width: 'fit' },
        { head: 'Unit', align: 'left', width: 'fit' },
        { head: 'On', align: 'left', width: 54 },
        { head: 'The other side’s word', align: 'left', width: 100 },
      ],
      rows: rowsOf(setting),
      totals: [],
      space: tableSpace(setting),
      style: sheet.table,
      gapBefore: 6,
      keepWithNext: true,
    }),
    ...apartPieces(setting),
    ...(setting.record.figures.length === 0 ? [] : reportsNote(sheet)),
  ];
}
