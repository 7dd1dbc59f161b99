/**
 * An amount as somebody types it, who may set its thousands apart as they are used to see them.
 */
import { figuresFor } from '../../documents/figures.ts';

/** "1,986.85" or "1.986,85", by the reader's locale, as "1986.85"; anything else as it is, for the use case to refuse. */
export function typedAmount(text: string, locale: string): string {
  const isComma = figuresFor(locale).decimalMark === ',';
  const [thousands, mark] = isComma ? ['.', ','] : [',', '.'];
  const grouped = new RegExp(`^\\d{1,3}([\\${thousands}\\s’']\\d{3})+(\\${mark}\\d+)?$`);
  const plain = grouped.test(text) ? text.replace(new RegExp(`[\\${thousands}\\s’']`, 'g'), '') : text;
  return isComma ? plain.replace(/^(\d+),(\d+)$/, '$1.$2') : plain;
}
