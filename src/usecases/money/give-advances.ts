/**
 * Issues an advance invoice for the loads that wait for a result or a price: the agreed share of what they are thought to
 * be worth. It is taken off when they are invoiced, or given back where they are refused.
 */
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import type { DocumentLine } from '../../domain/money/money-document.ts';
import { decimal, multiply, percent, powerOfTen } from '../../domain/numbers/exact.ts';
import { printDecimal, printWritten } from '../../domain/numbers/printing.ts';
import { roundToUnits } from '../../domain/numbers/rounding.ts';
import type { Waiting } from '../../domain/settlement/outcome.ts';
import { printRate } from '../../domain/settlement/print-rate.ts';
import { type AdvanceTerms, estimate } from '../../domain/settlement/provisional.ts';
import type { Evidence } from '../../domain/settlement/settle-load.ts';
import { prepareSettlement } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type LoadRow, readUnsettledLoads } from '../../store/rows/load-rows.ts';
import { readInvoicedLoads } from '../../store/rows/money/document-rows.ts';
import type { AgreedTerms } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { byTerms } from '../loads/load-views.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { gatherEvidence } from '../settlements/gather-evidence.ts';
import { refuseOtherIssuer } from './issue-invoices.ts';
import { type MoneyFrame, moneyFrame } from './money-frame.ts';
import { type WrittenDocument, writeDocuments } from './write-documents.ts';

/** A load that waits, with what it may be valued by. */
export interface WaitingLoad {
  readonly row: LoadRow;
  readonly terms: AgreedTerms;
  readonly waiting: Waiting;
  readonly evidence: Evidence;
}

/** The loads of an agreement that have neither settled nor been refused. */
export async function waitingLoads(
  tx: Transaction,
  { agreementId, found }: Pick<MoneyFrame, 'agreementId' | 'found'>,
): Promise<readonly WaitingLoad[]> {
  const waiting: WaitingLoad[] = [];
  for (const [terms, rows] of byTerms(found, await readUnsettledLoads(tx, agreementId))) {
    const { evidence } = await gatherEvidence(tx, terms, rows);
    const settle = prepareSettlement(terms.agreement, evidence);
    for (const row of rows) {
      const outcome = settle(deliveredLoad(row));
      if (outcome.status === 'waiting') waiting.push({ row, terms, waiting: outcome, evidence });
    }
  }
  return waiting;
}

/**
 * Issues one advance invoice for every waiting load that has none yet; null where there is none. Refuses `not-allowed`,
 * `not-found`, `not-yours` for the side that does not issue, and `not-ready` where no advance is agreed.
 */
export async function giveAdvances(
  context: Context,
  { agreementId, key }: { readonly agreementId: string; readonly key?: string },
): Promise<{ readonly document: WrittenDocument | null; readonly loads: number }> {
  permit(context, 'issue-invoice');
  return await doOnce(
    context,
    { verb: 'give-advances', subject: agreementId, key, input: {} },
    async (tx) => {
      const frame = await moneyFrame(tx, context, agreementId);
      refuseOtherIssuer(frame);
      if (!frame.found.versions.some(({ agreement }) => conditionsOf(agreement)?.advance)) {
        throw new Refusal(
          'not-ready',
          'No advances are agreed. Both sides can amend the agreement to say so.',
        );
      }
      const advanced = await advancesReady(tx, frame);
      if (advanced.length === 0) return { document: null, loads: 0 };
      const days = advanced.map(({ load }) => load.row.deliveredOn).toSorted();
      const [document = null] = await writeDocuments(tx, context, {
        frame,
        drafts: [
          {
            kind: 'advance',
            dueOn: frame.today,
            period: { from: days.at(0) ?? '', to: days.at(-1) ?? '' },
            named: [],
            correctsId: null,
            reason: null,
            lines: advanced.map(({ line }) => line),
            deductions: [],
            advances: [],
            loads: advanced.map(({ load, units }) => ({
              load: load.row.id,
              settlement: null,
              goods: frame.print(0n),
              deductions: frame.print(0n),
              advance: frame.print(-units),
            })),
            payable: advanced.reduce((sum, { units }) => sum + units, 0n),
          },
        ],
      });
      await tellPartner(tx, context, { found: frame.found, kind: 'invoice-came' });
      return { document, loads: advanced.length };
    },
  );
}

/** An advance that could be given. */
export interface ReadyAdvance {
  readonly load: WaitingLoad;
  readonly line: DocumentLine;
  readonly units: bigint;
}

/** The waiting loads that have no advance yet and may have one, by the version that each was delivered under. */
export async function advancesReady(tx: Transaction, frame: MoneyFrame): Promise<readonly ReadyAdvance[]> {
  const given = new Set((await readInvoicedLoads(tx, frame.agreementId)).map(({ load }) => load));
  return (await waitingLoads(tx, frame)).flatMap((load) => {
    const terms = conditionsOf(load.terms.agreement)?.advance;
    if (!terms || given.has(load.row.id)) return [];
    const line = advanceLine(load, { terms, frame });
    return line.units > 0n ? [{ load, ...line }] : [];
  });
}

function advanceLine(
  { row, terms: { agreement }, waiting, evidence }: WaitingLoad,
  { terms, frame }: { readonly terms: AdvanceTerms; readonly frame: MoneyFrame },
): { readonly line: DocumentLine; readonly units: bigint } {
  const { money, print } = frame;
  const value = estimate(waiting, terms, { agreement, evidence, money });
  const share = percent(decimal(terms.sharePercent));
  const units = roundToUnits(multiply({ n: value.amount, d: 1n }, share), 0, money.rounding);
  const isWhole = value.unit === 'load';
  const rate = isWhole ? { n: units, d: powerOfTen(money.decimals) } : multiply(decimal(terms.rate), share);
  return {
    units,
    line: {
      load: { ticket: row.ticket, deliveredOn: row.deliveredOn },
      label: 'Advance on an estimate',
      quantity: printDecimal(value.quantity),
      unit: value.unit,
      rate: printRate({ quantity: value.quantity, rate, amount: units }, money),
      amount: print(units),
      how: `${value.how} × ${printWritten(terms.sharePercent)} % = ${print(units)}`,
    },
  };
}
