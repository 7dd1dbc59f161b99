/**
 * Time passes for questions: what its rule decides by today is recorded, and both sides are reminded before a day is over
 * on which somebody must act.
 */

import { daysBetween } from '../../domain/dates/local-date.ts';
import { countsUnansweredFrom, daysLater, REMINDER_DAYS } from '../../domain/retests/time-limits.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertReminder, readOpenRetests } from '../../store/rows/retest-rows.ts';
import { type FoundAgreement, findAgreement } from '../agreements/find-agreement.ts';
import { type Context, stamp, type Tools } from '../context.ts';
import { tell } from '../notices/tell.ts';
import { Refusal } from '../refusal.ts';
import { endByRule } from './end-retest.ts';
import { courseOn } from './retest-case.ts';
import { frameOfRetest, type RetestFrame, readCases } from './retest-frame.ts';

export interface TimePassed {
  /** Questions that were decided. */
  readonly decided: number;
  readonly reminded: number;
  /** What could not be done, for the log; it is tried again with the next call. */
  readonly failures: readonly unknown[];
}

/** For all questions of all parties; whoever asked the oldest of an agreement has set its rule going. */
export async function passTime(tools: Tools): Promise<TimePassed> {
  let [decided, reminded] = [0, 0];
  const failures: unknown[] = [];
  for (const { agreementId, partyId, personId } of await tools.store.atDoor(readOpenRetests)) {
    const context: Context = { ...tools, caller: { partyId, personId, role: 'owner' } };
    try {
      const passed = await tools.store.forParty(partyId, async (tx) => {
        const found = await findAgreement(tx, agreementId);
        await lockAgreement(tx, agreementId);
        return {
          decided: await decideDue(tx, context, found),
          reminded: await remind(tx, context, found),
        };
      });
      decided += passed.decided;
      reminded += passed.reminded;
    } catch (error) {
      failures.push(error);
    }
  }
  return { decided, reminded, failures };
}

/**
 * Ends the questions of an agreement that are over by their rule today; returns how many. One that cannot be ended stays
 * open, and says why on its page. The agreement must be locked.
 */
export async function decideDue(tx: Transaction, context: Context, found: FoundAgreement): Promise<number> {
  let decided = 0;
  for (const { id, ending } of await readCases(tx, found)) {
    if (ending) continue;
    const frame = await frameOfRetest(tx, context, { found, retestId: id });
    if (await endIfOver(tx, context, frame)) decided++;
  }
  return decided;
}

/** Ends one question where its rule decides it today. Returns whether it did. */
export async function endIfOver(tx: Transaction, context: Context, frame: RetestFrame): Promise<boolean> {
  const course = courseOn(frame.asked, frame.today);
  if (frame.asked.ending || course.kind !== 'outcome') return false;
  await tx.$executeRawUnsafe('SAVEPOINT decided_by_rule');
  try {
    await endByRule(tx, context, { frame, outcome: course });
    return true;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    await tx.$executeRawUnsafe('ROLLBACK TO SAVEPOINT decided_by_rule');
    return false;
  }
}

/** Reminds both sides of days that are near, each once. The agreement must be locked. */
async function remind(tx: Transaction, context: Context, found: FoundAgreement): Promise<number> {
  let reminded = 0;
  const remindedAt = stamp(context);
  for (const asked of await readCases(tx, found)) {
    if (asked.ending) continue;
    const { today } = await frameOfRetest(tx, context, { found, retestId: asked.id });
    const course = courseOn(asked, today);
    if (course.kind === 'outcome') continue;
    // A figure that nobody answers counts: the last day to answer comes before that.
    const answers = course.unanswered.map(({ enteredOn }) => daysLater(countsUnansweredFrom(enteredOn), -1));
    const dueOn = [...(answers.length > 0 ? answers : [course.dueOn])].toSorted()[0] ?? course.dueOn;
    const left = daysBetween(today, dueOn);
    if (left < 0 || left > REMINDER_DAYS) continue;
    if (!(await insertReminder(tx, { agreementId: found.row.id, retestId: asked.id, dueOn, remindedAt })))
      continue;
    reminded++;
    const { sellerId, buyerId } = found.row;
    await tell(
      tx,
      context,
      [sellerId, buyerId].map((partyId) => ({ partyId, kind: 'retest-due', subjectId: found.row.id })),
    );
  }
  return reminded;
}
