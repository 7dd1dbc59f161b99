/**
 * The agreements between the caller's party and another one, with all that is recorded of their money.
 */
import type { Transaction } from '../../store/open-store.ts';
import { type AgreementRow, readAgreements } from '../../store/rows/agreement-rows.ts';
import { readMoneyRows } from '../../store/rows/money/all-money-rows.ts';
import { sideOf, withVersions } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { frameWith, type MoneyFrame } from './money-frame.ts';
import { someRows } from './money-rows.ts';

export interface Partner {
  readonly id: string;
  readonly name: string;
}

/** The money of one agreement as the caller's party sees it. */
export interface PartnerMoney {
  readonly partner: Partner;
  readonly frame: MoneyFrame;
}

/** Of all agreements that the caller's party has, by number; or of those with one partner, or one of them. */
export async function readPartnerMoney(
  tx: Transaction,
  context: Context,
  wanted: { readonly partnerId?: string | undefined; readonly agreementId?: string | undefined } = {},
): Promise<readonly PartnerMoney[]> {
  const known: { readonly partner: Partner; readonly row: AgreementRow }[] = [];
  for (const row of await readAgreements(tx)) {
    const side = sideOf(row, context.caller);
    if (side === 'adviser') continue;
    const partner =
      side === 'seller'
        ? { id: row.buyerId, name: row.buyerName }
        : { id: row.sellerId, name: row.sellerName };
    if (wanted.partnerId !== undefined && partner.id !== wanted.partnerId) continue;
    if (wanted.agreementId !== undefined && row.id !== wanted.agreementId) continue;
    known.push({ partner, row });
  }
  if (known.length === 0 && (wanted.partnerId ?? wanted.agreementId) !== undefined) {
    throw new Refusal('not-found', 'You have no agreement with that party.');
  }
  const rows = await readMoneyRows(
    tx,
    known.map(({ row }) => row.id),
  );
  const money: PartnerMoney[] = [];
  for (const { partner, row } of known) {
    const own = someRows(rows, ({ agreementId }) => agreementId === row.id);
    money.push({ partner, frame: frameWith(context, await withVersions(tx, row), own) });
  }
  return money;
}

/** 1 where what the buyer owes is owed to the caller, −1 where the caller owes it. */
export function readerSign({ side }: Pick<MoneyFrame, 'side'>): 1n | -1n {
  return side === 'seller' ? 1n : -1n;
}
