/**
 * A settlement worked out anew from what it rests on: its agreement version, load, result, decisions and quotes, and
 * nothing that came later.
 */
import type { Agreement } from '../../domain/agreement/document.ts';
import type { Outcome } from '../../domain/settlement/outcome.ts';
import { prepareSettlement } from '../../domain/settlement/settle-load.ts';
import type { AllowanceRow } from '../../store/rows/allowance-rows.ts';
import type { TicketRow } from '../../store/rows/load-rows.ts';
import type { ChoiceRow, ElectionRow, QuoteRow } from '../../store/rows/quote-rows.ts';
import type { ResultRow } from '../../store/rows/result-rows.ts';
import type { SettlementRow } from '../../store/rows/settlement-rows.ts';
import { groupRows } from '../group-rows.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { labResult } from '../results/result-fact.ts';
import { allowancesByTicket, evidenceOf, isHeldToLevels } from './gather-evidence.ts';

/** What settlements rest on, by id or by load. */
export interface Grounds {
  readonly agreement: Agreement;
  /** The ticket in the version that it was settled in. */
  readonly load: TicketRow;
  readonly result: ResultRow | undefined;
  readonly elections: readonly ElectionRow[];
  readonly choice: ChoiceRow | undefined;
  readonly quotes: readonly QuoteRow[];
  readonly allowance: AllowanceRow | undefined;
}

/** The outcome for a settlement's own grounds. Equal grounds give equal figures, years later too. */
export function recompute(grounds: Grounds): Outcome {
  const { agreement, load, result, elections, choice, quotes, allowance } = grounds;
  const read = result && labResult(result);
  const settle = prepareSettlement(
    agreement,
    evidenceOf({
      results: { get: () => read },
      quotes: groupRows(quotes, ({ series }) => series),
      elections,
      choices: choice ? [choice] : [],
      record: {
        // It was used, so it counted.
        unusable: () => undefined,
        isHeldToLevels: () => isHeldToLevels(result),
        allowances: allowancesByTicket(allowance ? [{ ...allowance, ticket: load.ticket }] : []),
      },
    }),
  );
  return settle(deliveredLoad(load));
}

/** The quotes of a settlement among those of its agreement. */
export function quotesOf(row: SettlementRow, byId: ReadonlyMap<string, QuoteRow>): readonly QuoteRow[] {
  return row.quoteIds.flatMap((id) => byId.get(id) ?? []);
}
