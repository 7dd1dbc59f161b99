/**
 * What was settled about an agreement's price series, as it stands, and what follows for who may enter quotes.
 */
import { mayEnter, NO_TERMS, otherSide, type SeriesTerms } from '../../domain/prices/series-terms.ts';
import type { SeriesTermsFact } from '../../journal/facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readSeriesTerms, type SeriesTermsRow } from '../../store/rows/series-rows.ts';
import { type FoundAgreement, sideOf } from '../agreements/find-agreement.ts';
import type { Caller } from '../context.ts';
import { Refusal } from '../refusal.ts';

/** What the journal remembers of it. */
export function seriesTermsFact({ series, source, enteredBy, contestDays }: SeriesTermsRow): SeriesTermsFact {
  return { series, source, enteredBy, contestDays: String(contestDays) };
}

/** The terms of each series that has some, by its name. */
export async function termsBySeries(
  tx: Transaction,
  agreementId: string,
): Promise<ReadonlyMap<string, SeriesTermsRow>> {
  return new Map((await readSeriesTerms(tx, agreementId)).map((row) => [row.series, row]));
}

export interface SeriesToEnter {
  readonly found: FoundAgreement;
  readonly caller: Caller;
  readonly series: readonly string[];
}

/** Of some series, those whose quotes the caller's side does not enter. */
export async function othersSeries(
  tx: Transaction,
  { found, caller, series }: SeriesToEnter,
): Promise<readonly string[]> {
  const terms = await termsBySeries(tx, found.row.id);
  const side = sideOf(found.row, caller);
  if (side === 'adviser') return series;
  return series.filter((name) => !mayEnter(terms.get(name) ?? NO_TERMS, side));
}

/** Refuses `not-yours` where the other side alone enters the quotes of one of the series. */
export async function refuseOthersSeries(tx: Transaction, asked: SeriesToEnter): Promise<void> {
  const [other] = await othersSeries(tx, asked);
  if (other !== undefined) throw new Refusal('not-yours', tellOthersSeries(asked, other));
}

/** "Tarn Hollow Dairy enters the quotes of corn-elevator-bid. …" */
export function tellOthersSeries({ found, caller }: Omit<SeriesToEnter, 'series'>, series: string): string {
  const side = sideOf(found.row, caller);
  const { sellerName, buyerName } = found.row;
  const name = side !== 'adviser' && otherSide(side) === 'seller' ? sellerName : buyerName;
  return `${name} enters the quotes of ${series}. Contest a quote that looks wrong.`;
}

/** The terms that hold for a series. */
export function standingTerms(row: SeriesTermsRow | undefined): SeriesTerms {
  return row ?? NO_TERMS;
}
