/**
 * Draws up what a season came to, from all that stands: what is open still, and the statement that both would sign. The
 * agreement must be locked.
 */
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { againstCommitted, deliveredOf } from '../../domain/progress/progress.ts';
import { CLOSING_FORMAT, type ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import {
  mayBeCarried,
  type OpenPoint,
  type PointWords,
  pointInWords,
} from '../../domain/season-close/open-points.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readOpenProposals } from '../../store/rows/correction-rows.ts';
import { readLoadStandings } from '../../store/rows/money/load-standing-rows.ts';
import { readOffers } from '../../store/rows/offer-rows.ts';
import { readDeliveredLoads } from '../../store/rows/progress-rows.ts';
import { readRetestRows } from '../../store/rows/retest-rows.ts';
import { readWeighings } from '../../store/rows/weighing-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { countedLoad } from '../agreements/read-progress.ts';
import type { Context } from '../context.ts';
import { outcomesOf } from '../loads/load-views.ts';
import { advancesLeft } from '../money/advances-left.ts';
import { chargedSoFar, interestOwed } from '../money/charge-interest.ts';
import { claimLoads } from '../money/claim-loads.ts';
import { frameOf, type MoneyFrame } from '../money/money-frame.ts';
import { countedPayments, liveHolds, signedAmount } from '../money/money-rows.ts';
import { adjustmentPoints, adjustmentsOf } from './adjustments.ts';
import { type JournalRoot, journalRoot } from './journal-root.ts';
import { type SeasonNoteView, seasonNotesOf } from './season-notes.ts';
import { type SeasonRuleStanding, seasonRules } from './season-rules.ts';

export interface DrawnUp {
  readonly statement: ClosingStatement;
  /** All that is open; those that may be carried over stand in the statement. */
  readonly points: readonly OpenPoint[];
  readonly journal: JournalRoot;
}

export async function drawUp(tx: Transaction, context: Context, found: FoundAgreement): Promise<DrawnUp> {
  const { row, agreement, versions } = found;
  const frame = await frameOf(tx, context, found);
  const standings = await readLoadStandings(tx, row.id);
  const notes = await seasonNotesOf(tx, found, context.caller);
  const rules = await seasonRules(tx, frame);
  const points = await openPoints(tx, { found, frame, standings, notes, rules });
  const journal = await journalRoot(tx, row.id);
  const live = standings.filter(({ isVoid }) => !isVoid);
  const count = (status: 'settled' | 'refused' | null) =>
    String(live.filter((load) => load.status === status).length);
  const settled = live.reduce(
    (sum, { status, total }) => (status === 'settled' ? sum + minorUnits(total ?? '0', frame.money) : sum),
    0n,
  );
  const ended = (await readRetestRows(tx, [row.id])).endings;
  const endedBy = (how: string) => String(ended.filter(({ fact }) => fact.ending === how).length);
  const statement: ClosingStatement = {
    format: CLOSING_FORMAT,
    agreement: {
      id: row.id,
      number: row.number,
      versions: versions.map((version) => version.row.fingerprint),
    },
    seller: row.sellerName,
    buyer: row.buyerName,
    currency: agreement.currency,
    drawnUpOn: frame.today,
    journal: { entries: String(journal.entryCount), head: journal.head, root: journal.root },
    loads: {
      settled: count('settled'),
      refused: count('refused'),
      void: String(standings.length - live.length),
      unsettled: count(null),
    },
    committed: await committed(tx, found),
    money: {
      settled: frame.print(settled),
      invoiced: frame.print(
        frame.rows.documents.reduce((sum, { fact }) => sum + minorUnits(fact.payable, frame.money), 0n),
      ),
      paid: frame.print(
        countedPayments(frame.rows).reduce((sum, { payment }) => sum + signedAmount(payment, frame), 0n),
      ),
      ...discountsIn(frame),
      balance: frame.print(frame.standing.balance),
    },
    questions: {
      decided: endedBy('decided'),
      withdrawn: endedBy('withdrawn'),
      agreed: endedBy('agreed'),
    },
    ...adjustmentsOf(rules, frame),
    carried: points.filter(mayBeCarried).map((point) => ({
      kind: point.kind,
      count: String(point.count),
      words: pointInWords(point, pointWords(found)),
      amount: point.amount,
    })),
    ...differencesIn(notes),
  };
  return { statement, points, journal };
}

/** What was taken off for paying early. */
function discountsIn({ rows, money, print }: MoneyFrame): Pick<ClosingStatement['money'], 'discounts'> {
  const sum = countedPayments(rows)
    .flatMap(({ answer }) => answer.fact.allocated)
    .reduce((total, { discount }) => total + minorUnits(discount, money), 0n);
  return sum === 0n ? {} : { discounts: print(sum) };
}

/** The differences that both agreed to leave standing. */
function differencesIn(notes: readonly SeasonNoteView[]): Pick<ClosingStatement, 'differences'> {
  const agreed = notes.filter(({ kind, standing }) => kind === 'difference' && standing === 'confirmed');
  if (agreed.length === 0) return {};
  return {
    differences: agreed.map(({ ticket, by, amount, reason }) => ({ ticket, by, amount, words: reason })),
  };
}

/** What the loads come to later is owed less by them. */
function advancePoints(frame: MoneyFrame): readonly OpenPoint[] {
  const given = [...advancesLeft(frame).values()];
  const sum = given.reduce((total, amount) => total + amount, 0n);
  return sum === 0n ? [] : [{ kind: 'advance', count: given.length, amount: frame.print(sum) }];
}

/** Interest on what was late, through today, that is on no document yet. */
async function interestLeft(tx: Transaction, frame: MoneyFrame): Promise<readonly OpenPoint[]> {
  if (!frame.conditions.payment?.interest) return [];
  const charged = await chargedSoFar(tx, frame);
  const owed = interestOwed(frame, { through: frame.today, charged });
  const sum = owed.reduce((total, { units }) => total + units, 0n);
  return sum === 0n ? [] : [{ kind: 'interest', count: owed.length, amount: frame.print(sum) }];
}

/** How open points name the parties and write money, as it is kept: plain figures. */
export function pointWords({ row, agreement }: FoundAgreement): PointWords {
  return {
    seller: row.sellerName,
    buyer: row.buyerName,
    money: (amount) => `${amount} ${agreement.currency}`,
  };
}

interface PointGround {
  readonly found: FoundAgreement;
  readonly frame: MoneyFrame;
  readonly standings: Awaited<ReturnType<typeof readLoadStandings>>;
  readonly notes: readonly SeasonNoteView[];
  readonly rules: readonly SeasonRuleStanding[];
}

async function openPoints(
  tx: Transaction,
  { found, frame, standings, notes, rules }: PointGround,
): Promise<readonly OpenPoint[]> {
  const { id } = found.row;
  const { rows, print, standing } = frame;
  const retests = await readRetestRows(tx, [id]);
  const over = new Set(retests.endings.map(({ fact }) => fact.retest));
  const answered = new Set(rows.answers.map(({ fact }) => fact.payment));
  const agreed = new Set(rows.setOffAnswers.map(({ fact }) => fact.setOff));
  const { claims } = await claimLoads(tx, frame);
  const held = liveHolds(rows);
  const isOpen = { proposals: await readOpenProposals(tx), offers: await readOffers(tx) };
  const counted = (kind: OpenPoint['kind'], count: number): OpenPoint[] =>
    count === 0 ? [] : [{ kind, count, amount: null }];
  return [
    ...counted('weighing', (await readWeighings(tx, id)).filter(({ isOpen }) => isOpen).length),
    ...counted(
      'proposal',
      isOpen.offers.filter(({ agreementId, ending }) => agreementId === id && ending === null).length,
    ),
    ...counted('correction', isOpen.proposals.filter(({ agreementId }) => agreementId === id).length),
    ...counted('payment', rows.payments.filter((payment) => !answered.has(payment.id)).length),
    ...counted('set-off', rows.setOffs.filter((setOff) => !agreed.has(setOff.id)).length),
    ...counted(
      'difference',
      notes.filter(({ kind, standing }) => kind === 'difference' && standing === 'open').length,
    ),
    ...counted(
      'past-season',
      notes.filter(({ kind, standing }) => kind === 'past-season' && standing === 'open').length,
    ),
    ...counted('not-invoiced', claims.length),
    ...counted('question', retests.questions.filter((question) => !over.has(question.id)).length),
    ...(held.length === 0
      ? []
      : [
          {
            kind: 'held' as const,
            count: held.length,
            amount: print(held.reduce((sum, { fact }) => sum + minorUnits(fact.amount, frame.money), 0n)),
          },
        ]),
    ...counted('unsettled', standings.filter(({ isVoid, status }) => !isVoid && status === null).length),
    ...advancePoints(frame),
    ...(await interestLeft(tx, frame)),
    ...adjustmentPoints(rules, frame),
    ...(standing.balance === 0n
      ? []
      : [{ kind: 'balance' as const, count: 1, amount: print(standing.balance) }]),
  ];
}

async function committed(tx: Transaction, found: FoundAgreement): Promise<ClosingStatement['committed']> {
  const volume = conditionsOf(found.agreement)?.volume;
  if (!volume) return null;
  const { amount, unit, weight, tolerancePercent } = volume;
  const { wallClockAt } = zoneCalendar(found.agreement.timeZone);
  const outcomes = await outcomesOf(tx, found, await readDeliveredLoads(tx, found.row.id));
  const counted = outcomes
    .filter(({ outcome }) => outcome.status !== 'refused')
    .map((one) => countedLoad(one, wallClockAt));
  const against = againstCommitted(
    {
      amount: decimal(amount),
      unit,
      weight,
      tolerancePercent: tolerancePercent === undefined ? undefined : decimal(tolerancePercent),
    },
    deliveredOf(counted),
  );
  return {
    ...{ amount, unit, weight },
    tolerancePercent: tolerancePercent ?? null,
    delivered: printDecimal(against.delivered),
    standing: against.standing,
  };
}
