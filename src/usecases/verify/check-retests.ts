/**
 * Every ending of a question worked out anew: a decision from the question, the figures and what each side said of them by
 * then; another one from what both confirmed. And what the tests cost, shared as the ending says.
 */

import { minorUnits } from '../../domain/money/minor-units.ts';
import { type Side, shareCosts } from '../../domain/retests/costs.ts';

import { type Money, printAmount } from '../../domain/settlement/line.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { StandingRows } from '../../store/rows/audit-rows.ts';
import type { RetestEndingRow, RetestRows } from '../../store/rows/retest-rows.ts';
import { agreementOf } from '../agreements/find-agreement.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import type { MoneyOf } from '../money/money-rows.ts';
import { bearerByRule, costOf, decidedText, isSameFigure } from '../retests/end-retest.ts';
import { caseGround, casesOf, courseOn, type RetestCase } from '../retests/retest-case.ts';

type RowFault = { readonly row: string; readonly message: string };

/** Every fault. Figures that somebody changed may be no figures at all. */
export async function checkRetests(tx: Transaction, rows: StandingRows): Promise<RowFault[]> {
  const { agreement: row, retests } = rows;
  if (retests.endings.length === 0) return [];
  const of = tried(() => moneyOfAgreement({ row, agreement: agreementOf(row.document) }));
  if (of instanceof Error)
    return [{ row: 'questions', message: `cannot be worked out again: ${of.message}` }];
  const ground = await caseGround(tx, { found: { row }, rows: retests, dayOf: of.dayOf });
  return retests.endings.flatMap((ending): RowFault[] => {
    const messages = tried(() => {
      const [asked] = casesOf({ ...ground, rows: knownBy(retests, ending) });
      if (!asked) return ['is of a question that is not there'];
      return [...faultsOf(asked, { ending, of }), ...oddDocuments(ending, rows)];
    });
    const told = messages instanceof Error ? [`cannot be worked out again: ${messages.message}`] : messages;
    return told.map((message) => ({ row: `retest_ending ${ending.id}`, message }));
  });
}

/** The rows of an ending's question, of those that were recorded by then. */
function knownBy(rows: RetestRows, ending: RetestEndingRow): RetestRows {
  const byThen = <Row extends { readonly recordedAt: string }>(all: readonly Row[]) =>
    all.filter(({ recordedAt }) => recordedAt <= ending.recordedAt);
  return {
    ...rows,
    questions: rows.questions.filter(({ id }) => id === ending.fact.retest),
    figures: byThen(rows.figures),
    figureAnswers: byThen(rows.figureAnswers),
    proposals: byThen(rows.proposals),
    proposalAnswers: byThen(rows.proposalAnswers),
  };
}

interface ToCheck {
  readonly ending: RetestEndingRow;
  readonly of: Pick<MoneyOf, 'money' | 'dayOf'>;
}

/** What an ending should say, and who bears the tests. */
interface Expected {
  readonly because: string;
  readonly value: string;
  readonly bearer: Side | 'split';
}

function faultsOf(asked: RetestCase, { ending, of }: ToCheck): string[] {
  const expected = ending.fact.ending === 'decided' ? byRule(asked, { ending, of }) : byBoth(asked, ending);
  if (typeof expected === 'string') return [expected];
  const { because, value } = ending.fact;
  return [
    ...(because === expected.because ? [] : [`comes out as ${expected.because}, recorded as ${because}`]),
    ...(isSameFigure(value, expected.value) ? [] : [`comes to ${expected.value}, recorded as ${value}`]),
    ...oddShares(asked, { ending, money: of.money, bearer: expected.bearer }),
  ];
}

function byRule(asked: RetestCase, { ending, of }: ToCheck): Expected | string {
  const outcome = courseOn(asked, of.dayOf(ending.recordedAt));
  if (outcome.kind !== 'outcome') return 'is a decision, and tests are still called for by then';
  const changed = minorUnits(ending.fact.changed, of.money);
  return {
    because: outcome.because,
    value: decidedText(asked, outcome),
    bearer: bearerByRule(asked, { outcome, changed }),
  };
}

function byBoth({ row, proposals }: RetestCase, { fact }: RetestEndingRow): Expected | string {
  const wanted = fact.ending === 'withdrawn' ? 'withdraw' : 'agree';
  const met = proposals.find(
    ({ row: { fact }, answer }) => fact.ending === wanted && answer?.fact.answer === 'confirmed',
  );
  if (!met) return `is ${fact.ending}, and both sides have not confirmed that`;
  return {
    because: 'both-confirmed',
    value: met.row.fact.value ?? row.fact.first,
    bearer: met.row.fact.bearer as Side | 'split',
  };
}

/** Shares that are not those of the tests that counted, or not as the one who bears them says. */
function oddShares(
  asked: RetestCase,
  { ending, money, bearer }: { ending: RetestEndingRow; money: Money; bearer: Side | 'split' },
): string[] {
  const total = costOf(asked, { money });
  const expected = shareCosts(total, bearer);
  const seller = minorUnits(ending.fact.sellerBears, money);
  const buyer = minorUnits(ending.fact.buyerBears, money);
  const print = (amount: bigint) => printAmount(amount, money);
  if (seller + buyer !== total) {
    return [`shares out ${print(seller + buyer)}; the tests that counted cost ${print(total)}`];
  }
  if (seller === expected.seller) return [];
  return [
    `has the seller bear ${print(seller)} and the buyer ${print(buyer)}; it should be ${print(expected.seller)} and ${print(expected.buyer)}`,
  ];
}

/** Notes and fees that an ending says followed from it, and that are not there. */
function oddDocuments({ fact }: RetestEndingRow, { money }: StandingRows): string[] {
  const ids: readonly string[] = JSON.parse(fact.documents);
  const there = new Set(money.documents.map(({ id }) => id));
  return ids.flatMap((id) => (there.has(id) ? [] : [`names document ${id}, which is not there`]));
}

function tried<Answer>(work: () => Answer): Answer | Error {
  try {
    return work();
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}
