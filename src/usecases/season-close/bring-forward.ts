/**
 * Brings the balance of a sealed season forward into another agreement of the same two parties, once: as both signed it. What
 * was held there is held here, for the same side.
 */
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { HoldFact } from '../../journal/money-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterHolds } from '../money/hold-amount.ts';
import { refuseOtherIssuer } from '../money/issue-invoices.ts';
import { frameOf, type MoneyFrame, moneyFrame, refreshed } from '../money/money-frame.ts';
import { liveHolds } from '../money/money-rows.ts';
import { type WrittenDocument, writeDocuments } from '../money/write-documents.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { findSealedSeason, type SealedSeason } from './find-sealed-season.ts';

export interface SeasonToBringForward {
  /** The agreement that takes it up. */
  readonly agreementId: string;
  readonly ofAgreementId: string;
  readonly key?: string;
}

/**
 * Issues the note: a debit note where the buyer owed, a credit note where the seller did. Refuses `not-allowed`, `not-found`,
 * `not-yours` for the side that does not issue, `season-closed` where this season is sealed too, `not-ready` where the other is
 * not or nothing was owed, and `ended-already` where its balance was brought forward before.
 */
export async function bringForward(
  context: Context,
  { agreementId, ofAgreementId, key }: SeasonToBringForward,
): Promise<{ readonly document: WrittenDocument }> {
  permit(context, 'issue-invoice');
  const asked = { verb: 'bring-forward', subject: agreementId, key, input: { ofAgreementId } };
  return await doOnce(context, asked, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    refuseOtherIssuer(frame);
    const season = await findSealedSeason(tx, frame, ofAgreementId);
    // Another agreement might take it up at the same instant.
    await lockAgreement(tx, season.found.row.id);
    const left = await frameOf(tx, context, season.found);
    const [gone] = left.rows.broughtForward;
    if (gone) {
      throw new Refusal(
        'ended-already',
        `The balance of that season was brought forward into agreement ${gone.into}.`,
      );
    }
    const document = await issueBalance(tx, context, { frame, season });
    await holdOn(tx, context, { frame: await refreshed(tx, frame), document, left });
    await tellPartner(tx, context, { found: frame.found, kind: 'invoice-came' });
    return { document };
  });
}

async function issueBalance(
  tx: Transaction,
  context: Context,
  { frame, season }: { readonly frame: MoneyFrame; readonly season: SealedSeason },
): Promise<WrittenDocument> {
  const { found, statement, sealedOn } = season;
  const payable = minorUnits(statement.money.balance, frame.money);
  if (payable === 0n)
    throw new Refusal('not-ready', 'Nothing was owed any more when that season was sealed.');
  const { invoiced, paid } = statement.money;
  const [document] = await writeDocuments(tx, context, {
    frame,
    drafts: [
      {
        kind: payable < 0n ? 'credit-note' : 'debit-note',
        season: { rule: 'brought-forward', ofAgreement: found.row.id },
        dueOn: frame.today,
        period: null,
        named: [],
        correctsId: null,
        reason: `Balance of the season of agreement ${found.row.number}, as both sides signed it and sealed on ${sealedOn}.`,
        lines: [
          {
            load: null,
            label: `Brought forward from agreement ${found.row.number}`,
            quantity: '1',
            unit: 'season',
            rate: frame.print(payable),
            amount: frame.print(payable),
            how: `as signed: invoiced ${invoiced}, paid ${paid}, open ${statement.money.balance}`,
          },
        ],
        deductions: [],
        advances: [],
        loads: [],
        payable,
      },
    ],
  });
  if (!document) throw new Error('A note was not written');
  return document;
}

/** Holds on the note what was held in the sealed season, as far as the note is open. */
async function holdOn(
  tx: Transaction,
  context: Context,
  {
    frame,
    document,
    left,
  }: { readonly frame: MoneyFrame; readonly document: WrittenDocument; readonly left: MoneyFrame },
): Promise<void> {
  let open = minorUnits(document.payable, frame.money);
  const facts: HoldFact[] = [];
  for (const { id, fact } of liveHolds(left.rows)) {
    let held = minorUnits(fact.amount, frame.money);
    if (held > open) held = open;
    if (held <= 0n) break;
    open -= held;
    facts.push({
      document: document.id,
      load: null,
      amount: frame.print(held),
      reason: `Held already under agreement ${left.found.row.number}: ${fact.reason}`,
      party: fact.party,
      correction: null,
      carriedFrom: id,
    });
  }
  if (facts.length > 0) await enterHolds(tx, context, { frame, facts });
}
