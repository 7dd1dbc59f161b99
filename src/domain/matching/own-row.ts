/**
 * A row of somebody's own books as a row of a list: what the matched columns hold, held to what comparing needs.
 */
import { type LocalDate, parseLocalDate } from '../dates/local-date.ts';
import { compare, isNegative, isZero, MAX_DECIMAL_LENGTH, parseDecimal, subtract } from '../numbers/exact.ts';
import { plainDecimal, printDecimal } from '../numbers/printing.ts';
import { SCALE_UNITS } from '../quantities/units.ts';
import type { ListRow } from './list-row.ts';

export type OwnRow = Omit<ListRow, 'priced'>;

/** The row, or what keeps it from being one, in words. `id` is its line in the file. */
export function readOwnRow(
  texts: Readonly<Record<string, string>>,
  id: string,
): { readonly row: OwnRow } | { readonly wrong: string } {
  const deliveredOn: LocalDate | undefined = parseLocalDate(texts['date'] ?? '');
  const unit = SCALE_UNITS.find((known) => known === texts['unit']);
  if (!deliveredOn) return { wrong: 'has no day of delivery' };
  if (!unit) return { wrong: 'has no unit of weight' };
  for (const name of ['gross', 'tare', 'net', 'amount', 'dry_matter']) {
    const text = texts[name];
    if (text !== undefined && !parseDecimal(text))
      return { wrong: `has a ${name.replace('_', ' ')} that is no number` };
  }
  const net = netOf(texts);
  if (net === undefined) return { wrong: 'has no net weight, and not both gross and tare' };
  const read = parseDecimal(net);
  if (!read || isNegative(read) || isZero(read)) return { wrong: `has a net weight of ${net}` };
  const figure = (name: string) => (texts[name] === undefined ? null : plainDecimal(texts[name] ?? ''));
  return {
    row: {
      id,
      ticket: texts['ticket'] ?? null,
      deliveredOn,
      truck: texts['truck'] ?? null,
      unit,
      gross: figure('gross'),
      tare: figure('tare'),
      net: plainDecimal(net),
      amount: figure('amount'),
      dryMatter: figure('dry_matter'),
    },
  };
}

function netOf({ net, gross, tare }: Readonly<Record<string, string>>): string | undefined {
  if (net !== undefined) return net;
  const [g, t] = [parseDecimal(gross ?? ''), parseDecimal(tare ?? '')];
  return g && t && compare(g, t) > 0 ? printDecimal(subtract(g, t), MAX_DECIMAL_LENGTH) : undefined;
}
