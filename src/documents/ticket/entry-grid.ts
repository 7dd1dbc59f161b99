/**
 * The entries of a ticket, each a label above its value. One that nobody made is struck out, so that nothing can be
 * written there later.
 */
import type { Piece } from '../pdf/flow.ts';
import { baselineIn } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { wrapText } from '../pdf/wrap-text.ts';

export interface Entry {
  readonly label: string;
  /** Undefined where nothing was entered. */
  readonly value: string | undefined;
}

const GAP = 14;
const LABEL_LEADING = 10.5;
const VALUE_LEADING = 13.5;
const UNUSED = 'not used';

/** Rows of entries in columns of one width, tied together. */
export function entryPieces(
  entries: readonly Entry[],
  { sheet, columns, keepWithNext }: { sheet: Sheet; columns: number; keepWithNext: boolean },
): Piece[] {
  const width = (sheet.width - GAP * (columns - 1)) / columns;
  const rows = Array.from({ length: Math.ceil(entries.length / columns) }, (_, row) =>
    entries.slice(row * columns, (row + 1) * columns),
  );
  return rows.map((row, index) => {
    const cells = row.map(({ label, value }, column) => ({
      x: sheet.left + column * (width + GAP),
      label,
      lines: value === undefined ? undefined : wrapText(value, width, sheet.strong),
    }));
    const lines = Math.max(...cells.map((cell) => cell.lines?.length ?? 1));
    return {
      height: LABEL_LEADING + lines * VALUE_LEADING + 3,
      gapBefore: 6,
      keepWithNext: keepWithNext || index < rows.length - 1,
      draw: (ink, top) => {
        for (const { x, label, lines: values } of cells) {
          ink.text(label, x, top + baselineIn(LABEL_LEADING, sheet.label.size), sheet.label);
          const baseline = top + LABEL_LEADING + baselineIn(VALUE_LEADING, sheet.strong.size);
          for (const [line, text] of (values ?? []).entries()) {
            ink.text(text, x, baseline + line * VALUE_LEADING, sheet.strong);
          }
          if (values === undefined) {
            ink.text(UNUSED, x, baseline, sheet.label);
            const from = x + sheet.label.face.width(UNUSED, sheet.label.size) + 5;
            ink.lines([[from, baseline - 2.6, x + width, baseline - 2.6]], sheet.rule);
          }
        }
      },
    };
  });
}
