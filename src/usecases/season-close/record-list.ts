/**
 * The record's loads as rows of a list, to be matched with somebody's own.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { ListRow, NamedAmount } from '../../domain/matching/list-row.ts';
import { decimal, MAX_DECIMAL_LENGTH, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import type { ScaleUnit } from '../../domain/quantities/units.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type LoadRow, readLoads } from '../../store/rows/load-rows.ts';
import { readSampleLoads } from '../../store/rows/sample-load-rows.ts';
import type { SettlementRow } from '../../store/rows/settlement-rows.ts';
import type { AgreedTerms, FoundAgreement } from '../agreements/find-agreement.ts';
import { outcomesOf } from '../loads/load-views.ts';

export interface RecordList {
  /** Every load that is not void, first delivered first; a row's id is its load's. */
  readonly rows: readonly ListRow[];
  readonly loads: readonly LoadRow[];
}

export async function recordList(tx: Transaction, found: FoundAgreement): Promise<RecordList> {
  const ids = (await readSampleLoads(tx, found.row.id)).map(({ loadId }) => loadId);
  const loads = await readLoads(tx, found.row.id, ids);
  const outcomes = await outcomesOf(tx, found, loads);
  const rows = outcomes.map(({ row, terms, settlements, result }): ListRow => {
    const settled = settlements.at(-1);
    return {
      id: row.id,
      ticket: row.ticket,
      deliveredOn: row.deliveredOn as LocalDate,
      truck: row.truck,
      unit: row.unit as ScaleUnit,
      gross: row.gross,
      tare: row.tare,
      net: printDecimal(subtract(decimal(row.gross), decimal(row.tare)), MAX_DECIMAL_LENGTH),
      amount: settled?.status === 'settled' ? settled.total : null,
      dryMatter: result?.figures['dry-matter'] ?? null,
      ...(settled ? { priced: { charges: chargesOf(settled, terms), lines: settled.lines.length } } : {}),
    };
  });
  return { rows, loads };
}

/** Lines that are a plain charge, as hauling is: those are what books leave out. */
function chargesOf({ lines }: SettlementRow, { agreement }: AgreedTerms): readonly NamedAmount[] {
  const flat = new Set(agreement.price.flatMap((term) => (term.term === 'flat' ? [term.label] : [])));
  return lines.flatMap(({ label, amount }) => (flat.has(label) ? [{ name: label, amount }] : []));
}
