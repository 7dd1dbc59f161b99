/**
 * A world of money in which every table about money has rows, and every column that may be empty has something in it in
 * one of them: for the tests that look at each.
 */
import { answerCorrection, proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { answerSetOff, proposeSetOff } from '../../src/usecases/money/agree-set-off.ts';
import { answerPayment } from '../../src/usecases/money/answer-payment.ts';
import { holdAmount, releaseHold } from '../../src/usecases/money/hold-amount.ts';
import { endLien, recordLien } from '../../src/usecases/money/keep-liens.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { reversePayment } from '../../src/usecases/money/reverse-payment.ts';
import { issueSeasonRules } from '../../src/usecases/season-close/issue-season-rules.ts';
import type { TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld, type WorldTerms } from './money-world.ts';

/** The tables about the money of an agreement. */
export const MONEY_TABLES = [
  'money_document',
  'document_load',
  'payment',
  'payment_answer',
  'payment_reversal',
  'allocation',
  'hold',
  'hold_end',
  'set_off',
  'set_off_answer',
  'lien_notice',
  'lien_end',
] as const;

export interface EveryMoneyRow extends MoneyWorld {
  /** Rows that nobody has answered or ended. */
  readonly open: {
    readonly documentId: string;
    /** Recorded by the buyer, who pays. */
    readonly paymentId: string;
    /** Placed by the buyer. */
    readonly holdId: string;
    /** Proposed by the buyer. */
    readonly setOffId: string;
    readonly lienId: string;
  };
  /** By the buyer, and confirmed by the seller. */
  readonly confirmedId: string;
}

const PAYMENT = {
  ...{ netDays: '10', from: 'invoice', invoices: 'day', returnedPaymentFee: '25' },
  discount: { percent: '2', withinDays: '5' },
};
/** 43 tons come, so that the buyer owes for 7 that it did not take. */
const VOLUME = {
  ...{ amount: '50', unit: 'short-ton', weight: 'as-fed' },
  shortfall: { owedBy: 'buyer', from: 'amount', rate: '2' },
};
const NOTICE = {
  ...{ lender: 'Fallow Creek Credit', debtor: 'Quillback Acres', crop_year: '2026', county: 'Larkspur' },
  ...{ conditions: 'Checks to both', received_on: '2026-11-20' },
};

export async function everyMoneyRow(
  record: TestRecord,
  parties?: WorldTerms['parties'],
): Promise<EveryMoneyRow> {
  const world = await moneyWorld(record, {
    conditions: { payment: PAYMENT, volume: VOLUME },
    ...(parties === undefined ? {} : { parties }),
  });
  const { agreementId, seller, buyer, deliver } = world;
  const [first = '', second = ''] = await deliver({ T1: '10', T2: '12' }, '2026-11-22');
  await deliver({ T3: '11' }, '2026-11-23');
  const { documents } = await world.invoice();
  const [one = '', other = ''] = documents.map(({ id }) => id);
  await lowerWeight(world, first);
  const hold = async (documentId: string, loadId: string, figure: string) =>
    await holdAmount(buyer, { documentId, loadId, figure, reason: 'Wet' });
  const { holdId: released } = await hold(one, second, '1100');
  await releaseHold(buyer, { holdId: released });
  const { holdId } = await hold(one, second, '1150');

  const lien = async (lender: string) =>
    await recordLien(buyer, { agreementId, notice: { ...NOTICE, lender }, confirmed: true });
  const { lienId: over } = await lien('Fallow Creek Credit');
  const pay = async (amount: string, more: Record<string, string> = {}) => {
    const payment = { amount, paid_on: '2026-11-25', method: 'check', ...more };
    const asked = { agreementId, direction: 'paid', payment, confirmed: true } as const;
    return (await recordPayment(buyer, asked)).paymentId;
  };
  const past = { past_lien: 'Released by telephone', reference: '1043', spread: 'in-proportion' };
  const confirmedId = await pay('600', past);
  await answerPayment(seller, { paymentId: confirmedId, answer: 'confirmed' });
  await endLien(buyer, { lienId: over, endedOn: '2026-11-25', reason: 'Its release' });
  const contested = await pay('50');
  await answerPayment(seller, { paymentId: contested, answer: 'contested', reason: 'Did not come' });
  const bounced = await pay('70');
  await answerPayment(seller, { paymentId: bounced, answer: 'confirmed' });
  await reversePayment(seller, { paymentId: bounced, reversedOn: '2026-11-25', reason: 'No funds' });
  // Pays all that is due in time, its discount and 300.00 more.
  const rest = await pay('5000');
  await answerPayment(seller, { paymentId: rest, answer: 'confirmed' });
  await deliver({ T4: '10' }, '2026-11-24');
  const later = await world.invoice();
  const propose = async (amount: string) =>
    (await proposeSetOff(buyer, { agreementId, amount, reason: 'For the next invoice' })).setOffId;
  const refused = await propose('40');
  await answerSetOff(seller, { setOffId: refused, answer: 'refused', reason: 'Not yet' });
  await answerSetOff(seller, { setOffId: await propose('60'), answer: 'confirmed' });
  const setOffId = await propose('45');
  const paymentId = await pay('20');
  const { lienId } = await lien('Second Fallow Credit');
  await issueSeasonRules(seller, { agreementId, noMoreLoads: true });
  const documentId = later.documents[0]?.id ?? other;
  return { ...world, open: { documentId, paymentId, holdId, setOffId, lienId }, confirmedId };
}

/** A correction that holds 50.00 until both agree, and becomes a credit note. */
async function lowerWeight({ agreementId, seller, buyer }: MoneyWorld, subjectId: string): Promise<void> {
  const figures = {
    ...{ ticket: 'T1', delivered_at: '2026-11-22T09:00:00-06:00' },
    ...{ gross: '49000', tare: '30000', unit: 'lb' },
  };
  const asked = { agreementId, subject: 'load', subjectId, figures, reason: 'Misread' } as const;
  const { correctionId } = await proposeCorrection(buyer, { ...asked, confirmed: true });
  await answerCorrection(seller, { correctionId, answer: 'confirmed' });
}
