/**
 * A load with its ticket and result as cells, for a form in which one of them is put right.
 */

import { sampleOf } from '../../domain/samples/sampling-plan.ts';
import { readCorrections } from '../../store/rows/correction-rows.ts';
import { findLoad } from '../../store/rows/load-rows.ts';
import { readResults } from '../../store/rows/result-rows.ts';
import { readSettlements } from '../../store/rows/settlement-rows.ts';
import { findOwnAgreement, isId, termsOn } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { ticketColumns } from '../loads/read-ticket.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { resultCells } from './row-cells.ts';

export interface SubjectView {
  readonly agreementId: string;
  /** Its season is sealed, so that nothing is put right in it any more. */
  readonly isSealed: boolean;
  readonly timeZone: string;
  readonly currency: string;
  readonly partner: string;
  readonly loadId: string;
  readonly version: number;
  readonly isVoid: boolean;
  /** Putting it right now needs the other side. */
  readonly isSettled: boolean;
  /** A correction of the ticket, or of the result, is open already. */
  readonly isTicketOpen: boolean;
  readonly isResultOpen: boolean;
  readonly ticket: InputRow;
  readonly deliveredAt: number;
  readonly result:
    | { readonly id: string; readonly sample: string; readonly cells: InputRow; readonly isOurs: boolean }
    | undefined;
}

/** Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readSubject(
  context: Context,
  { loadId }: { readonly loadId: string },
): Promise<SubjectView> {
  permit(context, 'correct');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const row = isId(loadId) ? await findLoad(tx, loadId) : undefined;
    if (!row) throw new Refusal('not-found', 'There is no such load.');
    const found = await findOwnAgreement(tx, context.caller, row.agreementId);
    const { agreement } = termsOn(found, row.deliveredOn);
    const sample = sampleOf(deliveredLoad(row), agreement);
    const results = await readResults(tx, row.agreementId, sample === undefined ? [] : [sample]);
    const result = sample === undefined ? undefined : results.get(sample);
    const open = (await readCorrections(tx, row.agreementId)).filter(({ answer }) => answer === null);
    return {
      agreementId: row.agreementId,
      isSealed: found.row.isSealed,
      timeZone: agreement.timeZone,
      currency: agreement.currency,
      partner: found.row.sellerId === partyId ? found.row.buyerName : found.row.sellerName,
      loadId,
      version: row.version,
      isVoid: row.isVoid,
      isSettled: (await readSettlements(tx, row.agreementId, [loadId])).length > 0,
      isTicketOpen: open.some(({ subjectId }) => subjectId === loadId),
      isResultOpen: open.some(({ subjectId }) => subjectId === result?.id),
      ticket: ticketColumns(row),
      deliveredAt: row.deliveredAt,
      result: result && {
        id: result.id,
        sample: result.sample,
        cells: resultCells(result),
        isOurs: result.enteredBy === null || result.enteredBy === partyId,
      },
    };
  });
}
