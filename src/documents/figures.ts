/**
 * Decimal strings as a reader's locale writes them: its thousands mark and decimal mark, the digits untouched.
 */

export interface Figures {
  /** "47120.5" as "47,120.5"; a negative gets a true minus sign. */
  readonly show: (decimal: string) => string;
  readonly decimalMark: '.' | ',';
}

/** For programs: figures as they are, "47120.5", "-3". It is BCP 47's own code for what is in no language. */
export const NO_LANGUAGE = 'zxx';

/** Figures for a locale (BCP 47), such as "en-US". */
export function figuresFor(locale: string): Figures {
  if (locale === NO_LANGUAGE) return { decimalMark: '.', show: (decimal) => decimal };
  const parts = new Intl.NumberFormat(locale, { useGrouping: 'always' }).formatToParts(12345.6);
  const group = parts.find(({ type }) => type === 'group')?.value ?? '';
  const point = parts.find(({ type }) => type === 'decimal')?.value === ',' ? ',' : '.';
  return {
    decimalMark: point,
    show: (decimal) => {
      const negative = decimal.startsWith('-');
      const [digits = '', fraction] = (negative ? decimal.slice(1) : decimal).split('.');
      const grouped = digits.replace(/\B(?=(\d{3})+$)/g, group);
      return `${negative ? '−' : ''}${grouped}${fraction === undefined ? '' : point + fraction}`;
    },
  };
}
