/**
 * One agreement in plain sentences, with what a form about it needs to ask.
 */

import type { Agreement } from '../../domain/agreement/document.ts';
import type { SamplingPlan } from '../../domain/samples/sampling-plan.ts';
import { measuresNeeded, needsDistance } from '../../domain/settlement/prepare-term.ts';
import { agreementInWords, type Section } from '../../domain/words/agreement-words.ts';
import { readAwaitedSamples } from '../../store/rows/result-rows.ts';
import { type Context, permit } from '../context.ts';
import { findAgreement, sideOf } from './find-agreement.ts';

export interface AgreementView {
  readonly id: string;
  readonly number: string;
  readonly version: number;
  readonly fingerprint: string;
  readonly seller: string;
  readonly buyer: string;
  readonly side: 'seller' | 'buyer' | 'adviser';
  /** Both have signed its season shut: nothing is recorded under it any more. */
  readonly isSealed: boolean;
  readonly timeZone: string;
  readonly currency: string;
  readonly sections: readonly Section[];
  /** The price series that quotes are recorded of. */
  readonly series: readonly string[];
  /** Whether a load must say how far it was hauled. */
  readonly distanceNeeded: boolean;
  /** How loads are sampled. */
  readonly sampling: SamplingPlan;
  /** Whether a load waits for a laboratory's figures before it can settle. */
  readonly testsNeeded: boolean;
  /** Samples without a result, oldest first, and how many loads each stands for. */
  readonly awaited: readonly { readonly name: string; readonly loads: number }[];
}

/** Refuses `not-allowed`, and `not-found` for an agreement that is none of the caller's party's. */
export async function readAgreementWords(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<AgreementView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { row, agreement } = await findAgreement(tx, agreementId);
    const series = Object.values(agreement.references).flatMap((reference) => reference.series ?? []);
    return {
      id: row.id,
      number: row.number,
      version: row.version,
      fingerprint: row.fingerprint,
      seller: row.sellerName,
      buyer: row.buyerName,
      side: sideOf(row, context.caller),
      isSealed: row.isSealed,
      timeZone: agreement.timeZone,
      currency: agreement.currency,
      sections: agreementInWords(agreement),
      series: [...new Set(series)],
      distanceNeeded: agreement.price.some(needsDistance),
      sampling: agreement.sampling?.plan ?? 'per-load',
      testsNeeded: needsTests(agreement),
      awaited: await readAwaitedSamples(tx, row.id),
    };
  });
}

/** Whether a load waits for a laboratory’s figures before it can settle. */
export function needsTests({ price, acceptance }: Pick<Agreement, 'price' | 'acceptance'>): boolean {
  return price.some((term) => measuresNeeded(term).length > 0) || (acceptance ?? []).length > 0;
}
