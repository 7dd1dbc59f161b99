/**
 * Puts a figure in place of the one that is questioned, as the next version of its result or ticket, and settles the loads
 * concerned anew; or tries that out and takes it back. The agreement must be locked.
 */
import type { Tested } from '../../domain/agreement/measures.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { add, decimal, MAX_DECIMAL_LENGTH } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { columnOf } from '../../domain/tables/table-shape.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readSettledUpon } from '../../store/rows/correction-rows.ts';
import { findLoad, type LoadRow, readLoads } from '../../store/rows/load-rows.ts';
import { insertResults, type ResultRow, readResults } from '../../store/rows/result-rows.ts';
import type { RetestFigureRow, RetestRow } from '../../store/rows/retest-rows.ts';
import { readSettlements } from '../../store/rows/settlement-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { type Context, stamp } from '../context.ts';
import { resultCells } from '../corrections/row-cells.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { readCorrectedTicket, writeCorrectedTicket } from '../loads/correct-load.ts';
import { ticketColumns } from '../loads/read-ticket.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { Refusal } from '../refusal.ts';
import { readReports } from '../results/read-reports.ts';
import { resultFact } from '../results/result-fact.ts';
import { resettle } from '../settlements/resettle.ts';

/** What is questioned, before or after the question was asked. */
export type Questioning = Pick<RetestRow, 'sample'> & {
  readonly fact: Pick<RetestRow['fact'], 'about' | 'load'>;
};

export interface FigureToPut {
  readonly found: FoundAgreement;
  readonly question: Questioning;
  /** A decimal string, in the unit of the figure that is questioned. */
  readonly value: string;
  /** Where a second scale decides, its weighing. */
  readonly weighing?: RetestFigureRow['fact']['weighing'] | undefined;
  /** For the next version. */
  readonly reason: string;
}

/** Ids of the settled loads that rest on what is questioned. */
export async function settledLoadsOf(
  tx: Transaction,
  { found, question }: Pick<FigureToPut, 'found' | 'question'>,
): Promise<readonly string[]> {
  const { load } = question.fact;
  if (load !== null) {
    return (await readSettlements(tx, found.row.id, [load])).length > 0 ? [load] : [];
  }
  const result = await standingResult(tx, { found, question });
  return await readSettledUpon(tx, found.row.id, { resultId: result.id });
}

/** The result that stands of the questioned sample. Refuses `not-found`. */
export async function standingResult(
  tx: Transaction,
  { found, question: { sample } }: Pick<FigureToPut, 'found' | 'question'>,
): Promise<ResultRow> {
  const result = sample === null ? undefined : (await readResults(tx, found.row.id, [sample])).get(sample);
  if (!result) throw new Refusal('not-found', `There is no result of sample ${sample ?? ''}.`);
  return result;
}

/** What the settled loads come to more than before, in minor units, and each of them. */
export interface Put {
  readonly loads: readonly {
    readonly loadId: string;
    readonly ticket: string;
    readonly before: string;
    readonly after: string;
  }[];
  readonly changed: bigint;
}

/** Refuses `bad-input` for a figure that a result or ticket cannot hold, and `not-ready` where a load could not settle. */
export async function putFigure(tx: Transaction, context: Context, toPut: FigureToPut): Promise<Put> {
  const { found, question } = toPut;
  const loadIds = await settledLoadsOf(tx, toPut);
  const totals = async () =>
    new Map(
      (await readSettlements(tx, found.row.id, loadIds)).map(({ loadId, total }) => [loadId, total] as const),
    );
  const before = await totals();
  if (question.fact.load === null) await writeResult(tx, context, toPut);
  else await writeTicket(tx, context, toPut);
  await resettle(tx, context, { found, loadIds });
  const after = await totals();
  const { money } = moneyOfAgreement(found);
  const loads = (await readLoads(tx, found.row.id, loadIds)).map(({ id, ticket }) => ({
    loadId: id,
    ticket,
    before: before.get(id) ?? '',
    after: after.get(id) ?? '',
  }));
  const changed = loads.reduce(
    (sum, load) => sum + minorUnits(load.after, money) - minorUnits(load.before, money),
    0n,
  );
  return { loads, changed };
}

/**
 * Does all that the figure would do, lets the caller look at it, and takes it back. Returns why it could not be, where a
 * use case would refuse it.
 */
export async function tryOutFigure<Seen>(
  tx: Transaction,
  context: Context,
  toPut: FigureToPut & { readonly look: (put: Put) => Promise<Seen> | Seen },
): Promise<{ readonly seen: Seen } | { readonly obstacle: string }> {
  await tx.$executeRawUnsafe('SAVEPOINT figure_tried_out');
  try {
    return { seen: await toPut.look(await putFigure(tx, context, toPut)) };
  } catch (error) {
    if (error instanceof Refusal) return { obstacle: error.message };
    throw error;
  } finally {
    await tx.$executeRawUnsafe('ROLLBACK TO SAVEPOINT figure_tried_out');
  }
}

async function writeResult(
  tx: Transaction,
  context: Context,
  { found, question, value, reason }: FigureToPut,
): Promise<void> {
  const before = await standingResult(tx, { found, question });
  const measure = question.fact.about as Tested;
  const recorded = {
    agreementId: found.row.id,
    recordedAt: stamp(context),
    recordedBy: context.caller.personId,
  };
  // Read as a report is, so that it holds nothing that could not have been reported.
  readReports(found, [{ ...resultCells(before), [columnOf(measure)]: value, sample: before.sample }]);
  const row: ResultRow = {
    ...before,
    id: context.newId(),
    version: before.version + 1,
    reason,
    figures: { ...before.figures, [measure]: value },
  };
  await insertResults(tx, [row], recorded);
  await enterFacts(
    tx,
    [{ kind: 'result', fact: resultFact(row), subjectId: row.id, postings: [] }],
    recorded,
  );
}

async function writeTicket(
  tx: Transaction,
  context: Context,
  { found, question, value, weighing, reason }: FigureToPut,
): Promise<void> {
  const row = await questionedLoad(tx, question);
  const weighed = weighing
    ? { gross: weighing.gross, tare: weighing.tare, unit: weighing.unit, ...scalesOf(weighing.scale) }
    : { gross: printDecimal(add(decimal(value), decimal(row.tare)), MAX_DECIMAL_LENGTH) };
  const input = { ...ticketColumns(row), ...weighed };
  // Whoever weighed or agreed looked at the figures; only what no ticket may say is refused.
  const ticket = await readCorrectedTicket(tx, { row, found, input, confirmed: true, now: context.now() });
  await writeCorrectedTicket(tx, context, { row, ticket, reason });
}

function scalesOf(scale: string) {
  return { gross_scale: scale, tare_scale: scale };
}

/** Refuses `not-found`. */
export async function questionedLoad(tx: Transaction, { fact }: Questioning): Promise<LoadRow> {
  const row = fact.load === null ? undefined : await findLoad(tx, fact.load);
  if (!row) throw new Refusal('not-found', 'There is no such load.');
  return row;
}
