/**
 * Figures as people type them, as the agreement file writes them.
 */

/**
 * What was typed, with a true minus sign made the keyboard's and blanks left out. A comma that can only be a decimal
 * mark ("4,25") becomes a point; "1,500", which can be read two ways, stays and is asked about.
 */
export function tidyFigure(typed: string): string {
  const text = typed.replace(/[\s\u00a0\u202f]/g, '').replace(/^[−–]/, '-');
  return /^-?\d+,(\d{1,2}|\d{4,})$/.test(text) ? text.replace(',', '.') : text;
}
