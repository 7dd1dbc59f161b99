/**
 * Puts a ticket or a result right, or proposes to.
 */
'use server';

import { TESTED } from '../../../../domain/agreement/measures.ts';
import { columnOf } from '../../../../domain/tables/table-shape.ts';
import { proposeCorrection } from '../../../../usecases/corrections/agree-correction.ts';
import { correctResult } from '../../../../usecases/corrections/correct-recorded.ts';
import { readSubject } from '../../../../usecases/corrections/read-subject.ts';
import { correctLoad, voidLoad } from '../../../../usecases/loads/correct-load.ts';
import { badInput, type InputRow } from '../../../../usecases/read-input-rows.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { isConfirmed, keyOf, rowOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';
import { isWallClock, offsetsOf, wallClockNow } from '../../../times/wall-clock.ts';
import { SHOWN_COLUMNS } from './right-fields.ts';

export async function correctTicket(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const loadId = textOf(sent, 'load');
    const subject = await readSubject(context, { loadId });
    const hidden = Object.entries(subject.ticket).filter(([name]) => !SHOWN_COLUMNS.includes(name));
    const load = {
      ...Object.fromEntries(hidden),
      ...rowOf(sent, SHOWN_COLUMNS),
      delivered_at: timeOf(sent, subject),
    } as InputRow;
    const reason = textOf(sent, 'reason');
    const confirmed = isConfirmed(sent);
    if (textOf(sent, 'settled') === 'yes') {
      const { agreementId } = subject;
      const proposal = {
        agreementId,
        subject: 'load',
        subjectId: loadId,
        figures: load,
        reason,
        confirmed,
      } as const;
      await proposeCorrection(context, { ...proposal, ...keyOf(sent) });
      return { to: await tellingAddress('/corrections', {}, `Proposed to ${subject.partner}.`) };
    }
    const baseVersion = Number(textOf(sent, 'version'));
    await correctLoad(context, { loadId, load, reason, baseVersion, confirmed, ...keyOf(sent) });
    return { to: `/loads/${loadId}` };
  });
}

/** The recorded moment where the clock's time was left alone; else the typed one. Refuses `bad-input`. */
function timeOf(
  sent: FormData,
  { deliveredAt, timeZone, ticket }: { deliveredAt: number; timeZone: string; ticket: InputRow },
): string {
  const typed = textOf(sent, 'time').slice(0, 16);
  if (typed === wallClockNow(deliveredAt, timeZone)) return ticket['delivered_at'] ?? '';
  const offset = isWallClock(typed) ? offsetsOf(typed, timeZone).at(-1) : undefined;
  if (offset === undefined) {
    throw badInput([{ column: 'time', message: 'must be a day and a time, like 14 September 2026, 21:40' }]);
  }
  return `${typed}:00${offset}`;
}

const RESULT_COLUMNS = [
  'basis',
  ...TESTED.map(columnOf),
  'laboratory',
  'method',
  'dry_matter_method',
  'reported_on',
];

export async function correctResultOf(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const [agreementId, loadId] = [textOf(sent, 'agreement'), textOf(sent, 'load')];
    const figures = { ...rowOf(sent, RESULT_COLUMNS), sample: textOf(sent, 'sample') };
    const reason = textOf(sent, 'reason');
    const asked = { agreementId, figures, reason, confirmed: isConfirmed(sent), ...keyOf(sent) };
    const id = textOf(sent, 'result');
    if (textOf(sent, 'settled') === 'yes') {
      await proposeCorrection(context, { ...asked, subject: 'result', subjectId: id });
      return { to: await tellingAddress('/corrections', {}, 'Proposed to the other side.') };
    }
    await correctResult(context, { ...asked, id });
    return { to: `/loads/${loadId}` };
  });
}

export async function voidTicket(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const loadId = textOf(sent, 'load');
    const baseVersion = Number(textOf(sent, 'version'));
    await voidLoad(await currentContext(), {
      loadId,
      reason: textOf(sent, 'reason'),
      baseVersion,
      ...keyOf(sent),
    });
    return { to: `/loads/${loadId}` };
  });
}
