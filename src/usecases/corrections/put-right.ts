/**
 * How a result or a quote is put right: the row that is corrected, read with its new figures, written as its next
 * version. The agreement must be locked.
 */

import { plainDecimal } from '../../domain/numbers/printing.ts';
import { readQuoteRow } from '../../domain/tables/other-rows.ts';
import { PRICES } from '../../domain/tables/table-shape.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertQuotes, newestQuotes, type QuoteRow, readQuoteVersions } from '../../store/rows/quote-rows.ts';
import { findResult, insertResults, type Recorded, type ResultRow } from '../../store/rows/result-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { quoteFact } from '../prices/quote-fact.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { doubtReports } from '../results/doubt-reports.ts';
import { readReports, resultRow } from '../results/read-reports.ts';
import { resultFact } from '../results/result-fact.ts';

export interface ToPutRight {
  readonly found: FoundAgreement;
  /** The row that stands now. */
  readonly id: string;
  readonly figures: InputRow;
  readonly reason: string;
  readonly recorded: Recorded;
  readonly confirmed: boolean | undefined;
}

/** The newest version of a result, by the id of any. Refuses `not-found`, `changed-meanwhile` for an older one. */
export async function newestResult(
  tx: Transaction,
  id: string,
): Promise<ResultRow & { readonly agreementId: string }> {
  const row = await findResult(tx, id);
  if (!row) throw new Refusal('not-found', 'There is no such result.');
  if (!row.isNewest) {
    throw new Refusal(
      'changed-meanwhile',
      `The result of sample ${row.sample} was put right meanwhile. Look at it again.`,
    );
  }
  return row;
}

/** Refuses `bad-input`, `not-found`, `changed-meanwhile`, `unusual`. */
export async function putResultRight(
  tx: Transaction,
  context: Context,
  { found, id, figures, reason, recorded, confirmed }: ToPutRight,
): Promise<void> {
  const before = await newestResult(tx, id);
  const [read] = readReports(found, [{ ...figures, sample: before.sample }]);
  if (!read) throw new Error('A report that was read is not there');
  const { feed } = found.agreement;
  const doubts = await doubtReports(tx, { agreementId: found.row.id, feed, results: [read.found] });
  refuseUnusual(doubts, confirmed);
  const { caller, newId } = context;
  const row: ResultRow = {
    ...resultRow(read, { id: newId(), sampleId: before.sampleId, enteredBy: caller.partyId }),
    version: before.version + 1,
    reason,
    report: before.report,
  };
  await insertResults(tx, [row], recorded);
  await enterFacts(
    tx,
    [{ kind: 'result', fact: resultFact(row), subjectId: row.id, postings: [] }],
    recorded,
  );
}

/** The newest version of a quote, by the id of any. Refuses as `newestResult`. */
export async function newestQuote(tx: Transaction, agreementId: string, id: string): Promise<QuoteRow> {
  const versions = await readQuoteVersions(tx, agreementId);
  if (!versions.some((quote) => quote.id === id)) throw new Refusal('not-found', 'There is no such quote.');
  const newest = newestQuotes(versions).find((quote) => quote.id === id);
  if (!newest)
    throw new Refusal('changed-meanwhile', 'This quote was put right meanwhile. Look at it again.');
  return newest;
}

/** Refuses `bad-input`, `not-found`, `changed-meanwhile`. */
export async function putQuoteRight(
  tx: Transaction,
  context: Context,
  { found, id, figures, reason, recorded }: ToPutRight,
): Promise<void> {
  const before = await newestQuote(tx, found.row.id, id);
  const { series, date } = before;
  const [read] = readInputRows([{ price: figures['price'] ?? '', series, date }], {
    shape: PRICES,
    read: readQuoteRow,
    key: ['series', 'date'],
  });
  const price = plainDecimal(read?.text('price') ?? '');
  if (price === before.price) throw badInput([{ column: 'price', message: 'is what stands there already' }]);
  const row: QuoteRow = { ...before, id: context.newId(), price, version: before.version + 1, reason };
  await insertQuotes(tx, [row], recorded);
  await enterFacts(tx, [{ kind: 'quote', fact: quoteFact(row), subjectId: row.id, postings: [] }], recorded);
}
