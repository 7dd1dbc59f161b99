/**
 * An outcome as the row that is written for it, and as the journal's entry.
 */
import type { DeliveredLoad } from '../../domain/deliveries/delivered-load.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { type Money, printAmount, unitName } from '../../domain/settlement/line.ts';
import type { Refused, Settled } from '../../domain/settlement/outcome.ts';
import { printRate } from '../../domain/settlement/print-rate.ts';
import {
  type Posting,
  refusalPostings,
  reversedPostings,
  settlementPostings,
} from '../../journal/accounts.ts';
import type { Entering } from '../../journal/chain.ts';
import type { SettlementFact } from '../../journal/facts.ts';
import type { LoadRow } from '../../store/rows/load-rows.ts';
import type { QuoteRow } from '../../store/rows/quote-rows.ts';
import type { SettlementRow } from '../../store/rows/settlement-rows.ts';
import type { AgreedTerms } from '../agreements/find-agreement.ts';
import { scaleWeight } from '../loads/load-fact.ts';
import type { GatheredEvidence } from './gather-evidence.ts';

export interface SettlementSetting {
  readonly id: string;
  readonly load: LoadRow;
  readonly agreement: AgreedTerms;
  readonly gathered: GatheredEvidence;
  readonly money: Money;
  readonly version: number;
  readonly settledAt: string;
  readonly settledBy: string;
}

/** The row of a settled or refused load, with all that it rests on. */
export function settlementRow(outcome: Settled | Refused, setting: SettlementSetting): SettlementRow {
  const { id, load, agreement, gathered, money, version, settledAt, settledBy } = setting;
  const settled = outcome.status === 'settled' ? outcome : undefined;
  return {
    id,
    loadId: load.id,
    version,
    agreementVersionId: agreement.row.versionId,
    loadVersion: load.version,
    resultId: outcome.result ? (gathered.results.get(outcome.result.sample)?.id ?? null) : null,
    status: outcome.status,
    currency: money.currency,
    total: printAmount(settled?.total ?? 0n, money),
    settledAt,
    settledBy,
    ...printedSettlement(outcome, money),
    quoteIds: settled ? quotesOf(settled, { agreement, gathered }) : [],
  };
}

/** The lines and prices of an outcome as they are printed, prices in order of name. */
export function printedSettlement(
  outcome: Settled | Refused,
  money: Money,
): Pick<SettlementRow, 'lines' | 'prices'> {
  if (outcome.status === 'refused') return { lines: [], prices: [] };
  return {
    lines: outcome.lines.map((line) => ({
      label: line.label,
      quantity: printDecimal(line.quantity),
      unit: unitName(line.unit),
      rate: printRate(line, money),
      amount: printAmount(line.amount, money),
      how: line.how(),
    })),
    prices: [...outcome.prices]
      .map(([reference, { price, quote }]) => ({
        reference,
        price: printDecimal(price),
        quote: printDecimal(quote),
      }))
      .sort((a, b) => (a.reference < b.reference ? -1 : 1)),
  };
}

/** Ids of the quotes that a settlement used and, for each series, of the newest, which closed its date. */
function quotesOf(
  { prices }: Settled,
  { agreement, gathered }: Pick<SettlementSetting, 'agreement' | 'gathered'>,
): string[] {
  const ids = new Set<string>();
  for (const [name, { quotedOn }] of prices) {
    const series = agreement.agreement.references[name]?.series;
    const rows = series === undefined || quotedOn.length === 0 ? [] : (gathered.quotes.get(series) ?? []);
    for (const { id } of usedRows(rows, quotedOn)) ids.add(id);
  }
  return [...ids].sort();
}

function usedRows(rows: readonly QuoteRow[], quotedOn: readonly string[]): QuoteRow[] {
  const used = new Set(quotedOn);
  return rows.filter(({ date }, index) => used.has(date) || index === rows.length - 1);
}

/** What the journal remembers of a settlement. */
export function settlementFact(row: SettlementRow): SettlementFact {
  return {
    load: row.loadId,
    version: String(row.version),
    agreementVersion: row.agreementVersionId,
    ...(row.loadVersion === 1 ? {} : { loadVersion: String(row.loadVersion) }),
    result: row.resultId,
    status: row.status,
    currency: row.currency,
    total: row.total,
    lines: row.lines,
    prices: row.prices,
    quotes: row.quoteIds,
  };
}

/** What a settlement or refusal of a ticket posts. */
export function postingsOf(
  { status, total, currency }: Pick<SettlementRow, 'status' | 'total' | 'currency'>,
  load: DeliveredLoad,
): Posting[] {
  const net = scaleWeight(load);
  return status === 'settled' ? settlementPostings(net, { amount: total, currency }) : refusalPostings(net);
}

/** The journal's entry for a settlement or refusal; `before` is what it takes back. */
export function settlementEntering(
  row: SettlementRow,
  load: DeliveredLoad,
  before: readonly Posting[] = [],
): Entering {
  return {
    kind: 'settlement',
    fact: settlementFact(row),
    subjectId: row.id,
    postings: [...reversedPostings(before), ...postingsOf(row, load)],
  };
}
