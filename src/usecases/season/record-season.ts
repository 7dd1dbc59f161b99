/**
 * Brings a season's folder into the shared record: validated as `settle` validates it, then recorded through the same
 * use cases that forms go through, and settled.
 */
import {
  CHOICES,
  ELECTIONS,
  LOADS,
  PRICES,
  SAMPLES,
  type TableShape,
} from '../../domain/tables/table-shape.ts';
import type { InputProblem } from '../../files/input-problem.ts';
import type { OpenedSeason } from '../../files/read-season.ts';
import { readTable } from '../../files/read-table.ts';
import { recordAgreement } from '../agreements/record-agreement.ts';
import type { Caller, Tools } from '../context.ts';
import { recordChoices } from '../loads/record-choices.ts';
import { recordLoads } from '../loads/record-loads.ts';
import { recordElections } from '../prices/record-elections.ts';
import { recordQuotes } from '../prices/record-quotes.ts';
import type { InputRow } from '../read-input-rows.ts';
import { recordResults } from '../results/record-results.ts';
import { type SettledLoads, settleLoads } from '../settlements/settle-loads.ts';

export interface SeasonToImport {
  readonly folder: string;
  readonly sellerId: string;
  readonly buyerId: string;
  /** As whom everything is recorded that either side may record. */
  readonly caller: Caller;
  /** As whom each side's own decisions are recorded; where a side is left out, its decisions are passed over. */
  readonly decides: { readonly seller?: Caller; readonly buyer?: Caller };
  /** Whether to settle what is ready; true unless said otherwise. */
  readonly settle?: boolean;
  /** Told what has been recorded so far. */
  readonly onRecorded?: (what: string, count: number) => void;
}

export interface ImportedSeason {
  /** Undefined where the folder has problems; then nothing was recorded. */
  readonly agreementId: string | undefined;
  readonly settled: SettledLoads | undefined;
  /** Rows of decisions that were passed over, since they are another side's to record. */
  readonly passedOver: { readonly elections: number; readonly choices: number };
  readonly problems: readonly InputProblem[];
  readonly warnings: readonly InputProblem[];
}

/** Rows that are recorded in one transaction. */
const ROWS_AT_ONCE = 5_000;

/**
 * Records a folder that was opened; nothing where it has problems. Figures that look mistyped were warned of and are
 * recorded as they are. What is in the record already, the same, is passed over, so that importing twice is harmless;
 * what differs from the record is refused (`ticket-taken` and the like).
 */
export async function recordSeason(
  tools: Tools,
  opened: OpenedSeason,
  season: SeasonToImport,
): Promise<ImportedSeason> {
  const { folder, sellerId, buyerId, caller, decides, onRecorded = () => {} } = season;
  if (!opened.season) return nothingImported(opened);
  const { problems, warnings } = opened;
  const passedOver = { elections: 0, choices: 0 };
  const context = { ...tools, caller };
  const { document } = opened.season;
  const { agreementId } = await recordAgreement(context, { document, sellerId, buyerId });

  const record = async (shape: TableShape, take: (rows: readonly InputRow[]) => Promise<unknown>) => {
    let count = 0;
    let rows: InputRow[] = [];
    const flush = async () => {
      if (rows.length === 0) return;
      await take(rows);
      count += rows.length;
      onRecorded(shape.file, count);
      rows = [];
    };
    for await (const batch of readTable(folder, shape)) {
      for (const row of batch) if (rows.push(row) >= ROWS_AT_ONCE) await flush();
    }
    await flush();
  };
  const given = { agreementId, confirmed: true };
  await record(PRICES, (quotes) => recordQuotes(context, { ...given, quotes }));
  await record(LOADS, (loads) => recordLoads(context, { ...given, loads }));
  await record(SAMPLES, (results) => recordResults(context, { ...given, results }));
  await record(ELECTIONS, async (elections) => {
    if (!decides.seller) passedOver.elections += elections.length;
    else await recordElections({ ...tools, caller: decides.seller }, { agreementId, elections });
  });
  await record(CHOICES, async (choices) => {
    if (!decides.buyer) passedOver.choices += choices.length;
    else await recordChoices({ ...tools, caller: decides.buyer }, { agreementId, choices });
  });
  await tools.store.refreshStatistics();
  const settled = season.settle === false ? undefined : await settleLoads(context, { agreementId });
  return { agreementId, settled, passedOver, problems, warnings };
}

/** What comes of a folder that has problems. */
export function nothingImported({ problems, warnings }: OpenedSeason): ImportedSeason {
  const passedOver = { elections: 0, choices: 0 };
  return { agreementId: undefined, settled: undefined, passedOver, problems, warnings };
}
