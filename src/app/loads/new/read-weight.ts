/**
 * A weight as somebody types it, who may set its thousands apart as they are used to see them.
 */
import { figuresFor } from '../../../documents/figures.ts';

/** The weight with digits and a point alone, or what is wrong with it. */
export function readWeight(
  text: string,
  { unit, locale }: { readonly unit: string; readonly locale: string },
): { readonly weight: string } | { readonly wrong: string } {
  const isComma = figuresFor(locale).decimalMark === ',';
  const thousands = isComma ? '.' : ',';
  // No scale shows thousandths of a pound or a kilogram, so three digits behind a mark are thousands; but not behind
  // the mark that its reader takes for a decimal one.
  const inThousands = new RegExp(`^\\d{1,3}(\\${thousands}\\d{3})+$`);
  if (['lb', 'kg'].includes(unit)) {
    if (inThousands.test(text)) return { weight: text.replaceAll(thousands, '') };
    if (/^\d{1,3}[.,]\d{3}$/.test(text)) {
      const plain = text.replace(/[.,]/, '');
      return {
        wrong: `can be read two ways, as ${text} with a decimal mark or as thousands; write ${plain} or fewer decimals`,
      };
    }
  }
  return { weight: isComma ? text.replace(/^(\d+),(\d+)$/, '$1.$2') : text };
}
