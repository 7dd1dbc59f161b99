/**
 * How every paper looks: the sheet it is set on, and its few sizes and inks.
 * Ink on paper, one coloured rule; colour otherwise belongs to the load strip.
 */
import { colourOf, type Stroke, type TextStyle } from './page-ink.ts';
import type { Paper } from './paper.ts';
import type { TableStyle } from './table.ts';
import type { Faces } from './typeface.ts';

const INK = colourOf('1d1b17');
const QUIET_INK = colourOf('5b554b');
const HUSK = colourOf('5f7a35');
const hairline: Stroke = { colour: colourOf('d6d0c4'), width: 0.5 };
const rule: Stroke = { colour: colourOf('1d1b17'), width: 0.7 };

export interface Sheet {
  readonly left: number;
  readonly width: number;
  readonly right: number;
  readonly title: TextStyle;
  readonly figure: TextStyle;
  readonly party: TextStyle;
  readonly heading: TextStyle;
  readonly body: TextStyle;
  readonly strong: TextStyle;
  readonly quiet: TextStyle;
  readonly label: TextStyle;
  readonly footer: TextStyle;
  readonly hairline: Stroke;
  readonly rule: Stroke;
  readonly colourRule: Stroke;
  readonly table: TableStyle;
}

/** The sheet for a paper size and the two weights of the document's font. */
export function sheetFor(paper: Paper, { regular, semibold }: Faces): Sheet {
  const left = paper.margin.side;
  const right = paper.width - paper.margin.side;
  const body: TextStyle = { face: regular, size: 9.5, colour: INK };
  const strong: TextStyle = { face: semibold, size: 9.5, colour: INK };
  const label: TextStyle = { face: regular, size: 8, colour: QUIET_INK };
  return {
    left,
    right,
    width: right - left,
    title: { face: semibold, size: 22, colour: INK },
    figure: { face: semibold, size: 22, colour: INK },
    party: { face: semibold, size: 12, colour: INK },
    heading: { face: semibold, size: 13, colour: INK },
    body,
    strong,
    quiet: { face: regular, size: 9.5, colour: QUIET_INK },
    label,
    footer: { face: regular, size: 7.5, colour: QUIET_INK },
    hairline,
    rule,
    colourRule: { colour: HUSK, width: 2 },
    table: { head: label, body, note: label, total: strong, rule, hairline, padding: 1.7 },
  };
}
