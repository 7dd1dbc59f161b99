/**
 * Every settlement worked out anew from what it rests on, and held against what is recorded.
 */
import { checkAgreement } from '../../domain/agreement/check-agreement.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import { sha256 } from '../../journal/fingerprint.ts';
import type { AllowanceRow } from '../../store/rows/allowance-rows.ts';
import type { StandingRows } from '../../store/rows/audit-rows.ts';
import type { LoadRow, LoadVersionRow } from '../../store/rows/load-rows.ts';
import type { SettlementRow } from '../../store/rows/settlement-rows.ts';
import { groupRows } from '../group-rows.ts';
import { type Grounds, quotesOf, recompute } from '../settlements/recompute.ts';
import { printedSettlement } from '../settlements/settlement-row.ts';

type RowFault = { readonly row: string; readonly message: string };

export function checkSettlements(rows: StandingRows): RowFault[] {
  const faults: RowFault[] = [];
  const agreements = new Map<string, Agreement>();
  for (const { id, document, fingerprint } of rows.versions) {
    if (sha256(document) !== fingerprint) {
      faults.push({
        row: `agreement_version ${id}`,
        message: 'does not have the fingerprint of its document',
      });
    }
    const agreement = readDocument(document);
    if (agreement) agreements.set(id, agreement);
    else faults.push({ row: `agreement_version ${id}`, message: 'does not hold an agreement' });
  }
  // Each settlement rests on the ticket as it stood then.
  const tickets = new Map<string, LoadRow | LoadVersionRow>([
    ...rows.loads.map((load) => [`${load.id} 1`, load] as const),
    ...rows.loadVersions.map((load) => [`${load.loadId} ${load.version}`, load] as const),
  ]);
  const results = new Map(rows.results.map((result) => [result.id, result]));
  const quotes = new Map(rows.quotes.map((quote) => [quote.id, quote]));
  const choices = new Map(rows.choices.map((choice) => [choice.loadId, choice]));
  const allowances = new Map(agreedAllowances(rows).map((row) => [row.loadId, row]));
  const elections = groupRows(rows.elections, ({ loadId }) => loadId);
  for (const settlement of rows.settlements) {
    const agreement = agreements.get(settlement.agreementVersionId);
    const load = tickets.get(`${settlement.loadId} ${settlement.loadVersion}`);
    const row = `settlement ${settlement.id}`;
    if (!agreement || !load) {
      faults.push({ row, message: 'rests on an agreement or a load that is not there' });
      continue;
    }
    const message = checkFigures(settlement, {
      agreement,
      load,
      result: settlement.resultId === null ? undefined : results.get(settlement.resultId),
      elections: elections.get(settlement.loadId) ?? [],
      choice: choices.get(settlement.loadId),
      quotes: quotesOf(settlement, quotes),
      allowance: allowances.get(settlement.loadId),
    });
    if (message !== undefined) faults.push({ row, message: `of load ${load.ticket} ${message}` });
  }
  return faults;
}

/** The confirmed proposals of an allowance. */
function agreedAllowances({ allowances }: StandingRows): AllowanceRow[] {
  return allowances.flatMap(({ subjectId, document, answer }) =>
    answer === 'confirmed' ? [{ loadId: subjectId, ticket: '', document }] : [],
  );
}

function readDocument(document: string): Agreement | undefined {
  try {
    return checkAgreement(JSON.parse(document)).agreement;
  } catch {
    return undefined;
  }
}

/** What does not come out as it is recorded, in words; undefined where all does. */
function checkFigures(settlement: SettlementRow, grounds: Grounds): string | undefined {
  const outcome = tryRecompute(grounds);
  if (outcome instanceof Error) return `cannot be worked out again: ${outcome.message}`;
  if (outcome.status === 'waiting') return `cannot be worked out again: ${outcome.detail}`;
  if (outcome.status !== settlement.status)
    return `comes out as ${outcome.status}, recorded as ${settlement.status}`;
  const money = moneyOf(grounds.agreement);
  const total = printAmount(outcome.status === 'settled' ? outcome.total : 0n, money);
  if (total !== settlement.total) return `comes to ${total}, recorded as ${settlement.total}`;
  if (settlement.currency !== money.currency)
    return `is in ${money.currency}, recorded in ${settlement.currency}`;
  const { lines, prices } = printedSettlement(outcome, money);
  for (const [index, line] of lines.entries()) {
    const recorded = settlement.lines[index];
    for (const [key, value] of Object.entries(line)) {
      const found = recorded?.[key as keyof typeof line];
      if (found !== value)
        return `has a line ${index + 1} with ${key} ${value}, recorded as ${found ?? 'nothing'}`;
    }
  }
  if (settlement.lines.length !== lines.length)
    return `has ${lines.length} lines, recorded are ${settlement.lines.length}`;
  return JSON.stringify(prices) === JSON.stringify(settlement.prices)
    ? undefined
    : 'was priced by other reference prices than are recorded';
}

/** Figures that somebody changed may be no figures at all. */
function tryRecompute(grounds: Grounds) {
  try {
    return recompute(grounds);
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}
