/**
 * All that is recorded about the money of some agreements.
 */
import type { Transaction } from '../../open-store.ts';
import {
  type BroughtForwardRow,
  type CarriedLenderRow,
  readBroughtForward,
  readCarriedLenders,
} from './brought-forward-rows.ts';
import { type DocumentRow, readDocuments } from './document-rows.ts';
import { type HoldEndRow, type HoldRow, readHoldEnds, readHolds } from './hold-rows.ts';
import { type LienEndRow, type LienNoticeRow, readLienEnds, readLienNotices } from './lien-rows.ts';
import {
  type PaymentAnswerRow,
  type PaymentReversalRow,
  type PaymentRow,
  readPaymentAnswers,
  readPaymentReversals,
  readPayments,
} from './payment-rows.ts';
import { readSetOffAnswers, readSetOffs, type SetOffAnswerRow, type SetOffRow } from './set-off-rows.ts';

export interface MoneyRows {
  /** In order of number. */
  readonly documents: readonly DocumentRow[];
  readonly payments: readonly PaymentRow[];
  readonly answers: readonly PaymentAnswerRow[];
  readonly reversals: readonly PaymentReversalRow[];
  readonly holds: readonly HoldRow[];
  readonly holdEnds: readonly HoldEndRow[];
  readonly setOffs: readonly SetOffRow[];
  readonly setOffAnswers: readonly SetOffAnswerRow[];
  readonly liens: readonly LienNoticeRow[];
  readonly lienEnds: readonly LienEndRow[];
  /** Of sealed seasons, where their balance went. */
  readonly broughtForward: readonly BroughtForwardRow[];
  /** Joint payees of what was brought forward from sealed seasons. */
  readonly carriedLenders: readonly CarriedLenderRow[];
}

export async function readMoneyRows(tx: Transaction, agreementIds: readonly string[]): Promise<MoneyRows> {
  return {
    documents: await readDocuments(tx, agreementIds),
    payments: await readPayments(tx, agreementIds),
    answers: await readPaymentAnswers(tx, agreementIds),
    reversals: await readPaymentReversals(tx, agreementIds),
    holds: await readHolds(tx, agreementIds),
    holdEnds: await readHoldEnds(tx, agreementIds),
    setOffs: await readSetOffs(tx, agreementIds),
    setOffAnswers: await readSetOffAnswers(tx, agreementIds),
    liens: await readLienNotices(tx, agreementIds),
    lienEnds: await readLienEnds(tx, agreementIds),
    broughtForward: await readBroughtForward(tx, agreementIds),
    carriedLenders: await readCarriedLenders(tx, agreementIds),
  };
}
