/**
 * Figures arrive with the keyboard's hyphen; paper shows the minus sign, which is as wide as a digit and never
 * breaks from its figure. Hyphens in dates, tickets and words stay.
 */
const hyphenBeforeFigure = /(^|[\s(×÷·=+])-(?=[\d.,])/gu;

/** "-71.83" becomes "−71.83"; "2026-09-14" and "T-12" stay. */
export function withMinusSign(text: string): string {
  return text.includes('-') ? text.replace(hyphenBeforeFigure, '$1−') : text;
}

/** Whether a printed figure is below nothing. */
export function isNegative(figure: string): boolean {
  return figure.startsWith('-') || figure.startsWith('−');
}
