/**
 * One load as it stands in two lists, with other loads around it.
 */
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import type { Difference } from '../../../src/domain/matching/differences.ts';
import type { ListRow } from '../../../src/domain/matching/list-row.ts';
import { matchLists, type PairOutcome } from '../../../src/domain/matching/match-lists.ts';

/** 78,220 less 31,100 lb on 14 September. */
export const LOAD: ListRow = {
  id: 'r1',
  ticket: '1047',
  deliveredOn: '2026-09-14' as LocalDate,
  truck: 'T4',
  unit: 'lb',
  gross: '78220',
  tare: '31100',
  net: '47120',
  amount: '1986.85',
  dryMatter: '59.2',
  priced: {
    lines: 4,
    byDay: { '2026-09-12': '1934.11', '2026-09-15': '2013.22' },
    alternatives: [
      { because: 'as-fed-for-dry', name: 'fibre above range', amount: '1938.26' },
      { because: 'other-test', name: 'the field laboratory', amount: '1951.40' },
    ],
    charges: [
      { name: 'hauling', amount: '-100.13' },
      { name: 'testing', amount: '-14.00' },
    ],
  },
};

/** Two more loads, the same in both lists; the first has another truck and its own tare. */
export const OTHERS: readonly ListRow[] = [
  { ...LOAD, id: 'r2', ticket: '2205', truck: 'T9', gross: '81400', tare: '33660', net: '47740', priced: {} },
  { ...LOAD, id: 'r3', ticket: '3318', truck: 'T4', gross: '80940', tare: '31080', net: '49860', priced: {} },
];

export function day(text: string): LocalDate {
  return text as LocalDate;
}

/** The pair that the load makes where my list has it with these changes, and the record with those. */
export function pairOf(mine: Partial<ListRow>, record: Partial<ListRow> = {}): PairOutcome {
  const { priced: _, ...bare } = LOAD;
  const lists = {
    mine: [
      { ...bare, id: 'm1', ...mine },
      ...OTHERS.map((row) => ({ ...row, id: row.id.replace('r', 'm') })),
    ],
    record: [{ ...LOAD, ...record }, ...OTHERS],
  };
  const found = matchLists(lists, { decimals: 2 }).find(
    (outcome): outcome is PairOutcome => outcome.kind === 'pair' && outcome.mine.id === 'm1',
  );
  if (found?.record.id !== 'r1') throw new Error('The load was not paired with itself');
  return found;
}

/** "weight: other-unit by mine", and with what is known of the slip. */
export function said(difference: Difference): string {
  const causes = difference.causes.map(({ name, slips }) => {
    const how = slips.map(({ by, ...detail }) =>
      Object.keys(detail).length === 0 ? by : `${by} ${JSON.stringify(detail)}`,
    );
    return `${name} by ${how.join(' or ')}`;
  });
  return `${difference.aspect}: ${causes.join('; ') || 'unknown'}`;
}

export function allSaid(mine: Partial<ListRow>, record: Partial<ListRow> = {}): string[] {
  return pairOf(mine, record).differences.map(said);
}
