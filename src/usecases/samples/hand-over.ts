/**
 * Records that a sealed part was handed over: to whom, where it is kept now and until when, and whether its seal was
 * whole.
 */
import { whenText } from '../../domain/dates/instant.ts';
import { HANDOVER_COLUMNS, readHandoverRow } from '../../domain/tables/sampling-rows.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { findPart, type HandoverRow, insertHandover } from '../../store/rows/sample-rows.ts';
import { findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { handoverFact } from './sample-fact.ts';

export interface PartToHandOver {
  readonly partId: string;
  /** `handed_at`, `to_whom`, `kept_where`, `kept_until` and `seal_intact` (yes or no). */
  readonly handover: InputRow;
  readonly key?: string;
}

/** Refuses `not-allowed`, `bad-input`, `not-found`. */
export async function handOver(
  context: Context,
  { partId, handover, key }: PartToHandOver,
): Promise<{ readonly id: string }> {
  permit(context, 'take-sample');
  return await doOnce(context, { verb: 'hand-over', subject: partId, key, input: handover }, async (tx) => {
    const part = isId(partId) ? await findPart(tx, partId) : undefined;
    if (!part) throw new Refusal('not-found', 'There is no such part of a sample.');
    const { agreementId } = part;
    await findOwnAgreement(tx, context.caller, agreementId);
    const [read] = readInputRows([handover], {
      shape: HANDOVER_COLUMNS,
      read: readHandoverRow,
      key: ['to_whom'],
    });
    if (!read) throw new Error('A hand-over that was read is not there');
    await lockAgreement(tx, agreementId);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const { handedAt, ...given } = read.found;
    const row: HandoverRow = { ...given, id: context.newId(), partId, handedAt: whenText(handedAt) };
    await insertHandover(tx, row, recorded);
    await enterFacts(
      tx,
      [{ kind: 'part-handover', fact: handoverFact(row), subjectId: row.id, postings: [] }],
      recorded,
    );
    return { id: row.id };
  });
}
