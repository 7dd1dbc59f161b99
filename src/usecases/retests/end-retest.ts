/**
 * Ends a question: the figure that counts takes its place, the loads settle anew, what was held is due or goes, notes
 * follow, and what the tests cost is posted to whoever bears it. The agreement must be locked.
 */

import { minorUnits } from '../../domain/money/minor-units.ts';
import { decimal, isZero, subtract } from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import { costBearer, type Side, shareCosts } from '../../domain/retests/costs.ts';
import type { Outcome } from '../../domain/retests/course.ts';
import { decidedFigure } from '../../domain/retests/decide.ts';
import { questionedName } from '../../domain/words/retest-course-words.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { RetestEndingFact } from '../../journal/retest-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertRetestEnding } from '../../store/rows/retest-rows.ts';
import type { Context } from '../context.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { issueNotes } from '../money/issue-invoices.ts';
import { frameOf, type MoneyFrame } from '../money/money-frame.ts';
import { type DocumentDraft, type WrittenDocument, writeDocuments } from '../money/write-documents.ts';
import { tell } from '../notices/tell.ts';
import { endQuestioned, holdQuestioned } from './hold-questioned.ts';
import { type Put, putFigure, settledLoadsOf } from './put-figure.ts';
import type { RetestCase } from './retest-case.ts';
import type { RetestFrame } from './retest-frame.ts';

/** What an ending comes to: a figure, and who bears the tests. */
export interface EndingToEnter {
  readonly ending: 'decided' | 'withdrawn' | 'agreed';
  readonly because: string;
  /** As it is stored and settled by. */
  readonly value: string;
  /** Of a second scale that decides. */
  readonly weighing?: Parameters<typeof putFigure>[2]['weighing'];
  /** Who bears the tests, by what the decision did to the price. */
  readonly bearer: (changed: bigint) => Side | 'split';
}

/** Refuses as `putFigure`. */
export async function endRetest(
  tx: Transaction,
  clock: Context,
  { frame, ending }: { readonly frame: RetestFrame; readonly ending: EndingToEnter },
): Promise<RetestEndingFact> {
  const { found, asked, recorded } = frame;
  // All of it happens in one moment, by which the loads' new settlements are known as this ending's.
  const moment = Date.parse(recorded.recordedAt);
  const context: Context = { ...clock, now: () => moment };
  const { row } = asked;
  const isMoved = !isSameFigure(ending.value, row.fact.first);
  await endQuestioned(tx, context, { found, retestId: asked.id });
  const loadIds = await settledLoadsOf(tx, { found, question: row });
  const put: Pick<Put, 'changed'> = isMoved
    ? await putFigure(tx, context, {
        found,
        question: row,
        value: ending.value,
        weighing: ending.weighing,
        reason: endingReason(asked, ending),
      })
    : { changed: 0n };
  const money = await frameOf(tx, context, found);
  const notes = isMoved
    ? await issueNotes(tx, context, { frame: money, loadIds, why: whyOf(asked, ending) })
    : [];
  const costs = shareCosts(costOf(asked, money), ending.bearer(put.changed));
  const fees = await chargeCosts(tx, context, { asked, money: await frameOf(tx, context, found), costs });
  const fact: RetestEndingFact = {
    retest: asked.id,
    ending: ending.ending,
    because: ending.because,
    value: ending.value,
    sellerBears: money.print(costs.seller),
    buyerBears: money.print(costs.buyer),
    changed: money.print(put.changed),
    documents: canonicalText([...notes, ...fees].map(({ id }) => id)),
  };
  const id = context.newId();
  await insertRetestEnding(tx, { id, fact }, recorded);
  await enterFacts(tx, [{ kind: 'retest-ending', fact, subjectId: id, postings: [] }], recorded);
  // Another question on the same loads holds by what they come to now.
  await holdQuestioned(tx, context, found);
  const { sellerId, buyerId } = found.row;
  await tell(
    tx,
    context,
    [sellerId, buyerId].map((partyId) => ({ partyId, kind: 'retest-decided', subjectId: found.row.id })),
  );
  return fact;
}

/** Ends a question by its rule, from what the rule says of it today. */
export async function endByRule(
  tx: Transaction,
  context: Context,
  { frame, outcome }: { readonly frame: RetestFrame; readonly outcome: Outcome },
): Promise<RetestEndingFact> {
  return await endRetest(tx, context, { frame, ending: decidedEnding(frame.asked, outcome) });
}

/** What an outcome of the rule comes to. */
export function decidedEnding(asked: RetestCase, outcome: Outcome): EndingToEnter {
  const second = asked.figures.find((figure) => outcome.from.includes(figure) && figure.weighed);
  return {
    ending: 'decided',
    because: outcome.because,
    value: decidedText(asked, outcome),
    weighing: second?.row.fact.weighing,
    bearer: (changed) => bearerByRule(asked, { outcome, changed }),
  };
}

/** The figure that counts as it is stored: with the decimals of the most precise one that went in. */
export function decidedText(asked: RetestCase, { value, from }: Pick<Outcome, 'value' | 'from'>): string {
  const decimals = Math.max(0, ...from.map((figure) => figure.decimals));
  return printFixed(decidedFigure({ value, from }, asked.rule.rounding), decimals);
}

/** Who bears the tests by the agreed rule. */
export function bearerByRule(
  asked: RetestCase,
  { outcome, changed }: { readonly outcome: Pick<Outcome, 'value'>; readonly changed: bigint },
): Side | 'split' {
  const { rule, asker, first, row, figures } = asked;
  const claimed = decimal(row.fact.claimed);
  const byPrice = asker === 'seller' ? changed > 0n : changed < 0n;
  const towards = subtract(outcome.value, first.value);
  // Before anything has settled there is no price to move, so that the figure's own way counts.
  const byFigure = !isZero(towards) && towards.n > 0n === subtract(claimed, first.value).n > 0n;
  const referee = figures.findLast(({ from }) => from === 'referee' || from === 'second-scale');
  return costBearer({
    rule: rule.fee,
    asker,
    isMovedToAsker: changed === 0n ? byFigure : byPrice,
    held: { asker: claimed, other: first.value },
    referee: referee?.value,
  });
}

export function isSameFigure(one: string, other: string): boolean {
  return isZero(subtract(decimal(one), decimal(other)));
}

function endingReason({ row }: RetestCase, { ending, value }: EndingToEnter): string {
  const how = ending === 'decided' ? 'Decided by retest' : 'Agreed on after a question';
  return `${how}: ${questionedName(row.fact.about).toLowerCase()} ${value} in place of ${row.fact.first}`;
}

function whyOf({ row }: RetestCase, { ending }: EndingToEnter): string {
  const what = row.fact.about === 'weight' ? 'the weight' : questionedName(row.fact.about).toLowerCase();
  return ending === 'decided' ? `after a retest of ${what}` : `as both sides agreed about ${what}`;
}

/** What was paid for tests, by both sides or one, in minor units. What was contested was reported wrongly, and costs nothing. */
export function costOf(asked: RetestCase, { money }: Pick<MoneyFrame, 'money'>, by?: Side): bigint {
  return asked.figures
    .filter(({ answer, row }) => answer?.word !== 'contest' && (by ?? row.fact.paidBy) === row.fact.paidBy)
    .reduce((sum, { row }) => sum + minorUnits(row.fact.charge, money), 0n);
}

interface CostsToCharge {
  readonly asked: RetestCase;
  readonly money: MoneyFrame;
  readonly costs: Readonly<Record<Side, bigint>>;
}

/**
 * One document for what a side bears beyond what it paid itself: a fee that the buyer owes, or a credit that the seller
 * owes.
 */
async function chargeCosts(
  tx: Transaction,
  context: Context,
  { asked, money, costs }: CostsToCharge,
): Promise<readonly WrittenDocument[]> {
  const paidByBuyer = costOf(asked, money, 'buyer');
  const owed = costs.buyer - paidByBuyer;
  if (owed === 0n) return [];
  const name = `retest of ${asked.row.fact.about === 'weight' ? 'the weight' : questionedName(asked.row.fact.about).toLowerCase()}`;
  const of = asked.row.sample === null ? `load ${asked.row.ticket ?? ''}` : `sample ${asked.row.sample}`;
  const draft: DocumentDraft = {
    kind: owed > 0n ? 'fee' : 'credit-note',
    ...(owed > 0n ? {} : { isOfFees: true as const }),
    dueOn: money.today,
    period: null,
    named: [],
    correctsId: null,
    reason: `What the ${name} of ${of} cost, as agreed.`,
    lines: [
      {
        load: null,
        label: `Costs of the ${name}, ${of}`,
        quantity: '1',
        unit: 'retest',
        rate: money.print(owed),
        amount: money.print(owed),
        how: `${money.found.row.buyerName} bears ${money.print(costs.buyer)} and paid ${money.print(paidByBuyer)}; ${money.found.row.sellerName} bears ${money.print(costs.seller)}`,
      },
    ],
    deductions: [],
    advances: [],
    loads: [],
    payable: owed,
  };
  return await writeDocuments(tx, context, { frame: money, drafts: [draft] });
}
