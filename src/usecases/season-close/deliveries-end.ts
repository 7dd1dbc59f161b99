/**
 * Whether the deliveries under an agreement are over: by the last day that is agreed on, or the early end that both signed.
 */
import type { Transaction } from '../../store/open-store.ts';
import { readClosing } from '../../store/rows/signing-rows.ts';
import type { MoneyFrame } from '../money/money-frame.ts';

export interface DeliveriesEnd {
  /** The last local day of delivery; undefined where none is agreed on, so that somebody has to say that no more come. */
  readonly lastDay: string | undefined;
  /** That day is past. */
  readonly isPast: boolean;
}

export async function deliveriesEnd(
  tx: Transaction,
  { agreementId, conditions, today }: Pick<MoneyFrame, 'agreementId' | 'conditions' | 'today'>,
): Promise<DeliveriesEnd> {
  const lastDay = (await readClosing(tx, agreementId))?.lastDeliveryOn ?? conditions.delivery?.to;
  return { lastDay, isPast: lastDay !== undefined && lastDay < today };
}
