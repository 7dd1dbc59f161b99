/**
 * A sealed season that another agreement of the same two parties takes up, with the statement that both signed.
 */

import type { LocalDate } from '../../domain/dates/local-date.ts';
import { isSamePair } from '../../domain/parties/same-pair.ts';
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAgreement } from '../../store/rows/agreement-rows.ts';
import { readSeal, readSeasonClose } from '../../store/rows/season-close-rows.ts';
import { type FoundAgreement, isId, withVersions } from '../agreements/find-agreement.ts';
import { type MoneyFrame, moneyOfAgreement } from '../money/money-frame.ts';
import { Refusal } from '../refusal.ts';

export interface SealedSeason {
  readonly found: FoundAgreement;
  readonly statement: ClosingStatement;
  readonly sealedOn: LocalDate;
}

/** Whether one agreement can take up what is left of another. */
export function isOfTheSame(
  frame: Pick<MoneyFrame, 'found' | 'money'>,
  { row, agreement }: FoundAgreement,
): boolean {
  const { row: own } = frame.found;
  return row.id !== own.id && isSamePair(row, own) && agreement.currency === frame.money.currency;
}

/** Refuses `not-found` for one of other parties or another currency, and `not-ready` for one that is not sealed. */
export async function findSealedSeason(
  tx: Transaction,
  frame: Pick<MoneyFrame, 'found' | 'money'>,
  id: string,
): Promise<SealedSeason> {
  const row = isId(id) ? await readAgreement(tx, id) : undefined;
  const found = row && (await withVersions(tx, row));
  if (!found || !isOfTheSame(frame, found)) {
    throw new Refusal('not-found', 'There is no such season between the two of you in this currency.');
  }
  const season = await sealedSeason(tx, found);
  if (!season) {
    throw new Refusal('not-ready', 'That season is not sealed: what belongs to it is recorded there.');
  }
  return season;
}

/** Undefined where it is not sealed. */
export async function sealedSeason(
  tx: Transaction,
  found: FoundAgreement,
): Promise<SealedSeason | undefined> {
  const seal = await readSeal(tx, found.row.id);
  const close = seal && (await readSeasonClose(tx, found.row.id));
  if (!close) return undefined;
  return {
    found,
    statement: JSON.parse(close.statement) as ClosingStatement,
    sealedOn: moneyOfAgreement(found).dayOf(seal.sealedAt),
  };
}
