/**
 * The record of one question as PDF. Nothing of the reader is in it: both parties get the same bytes for as long as nothing
 * happens to the question.
 */
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { renderRetest } from '../../documents/retest/render-retest.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import type { PrintedPaper } from '../agreements/render-paper.ts';
import { type Context, permit } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import { questionedTerms, recordOf } from './record-of.ts';
import { retestFrame } from './retest-frame.ts';

/** The words on the paper are English, and figures are written the English way. */
const LANGUAGE = 'en-US';

/** Refuses `not-allowed`, `not-found` (an adviser sees no questions), and `bad-input` where a character cannot be printed. */
export async function printRetest(
  context: Context,
  { retestId, fonts }: { readonly retestId: string; readonly fonts: FontBytes },
): Promise<PrintedPaper> {
  permit(context, 'read');
  const { record, paper } = await context.store.forParty(context.caller.partyId, async (tx) => {
    const frame = await retestFrame(tx, context, { table: 'retest', id: retestId });
    const drawnUp = await recordOf(tx, context, frame);
    const { agreement } = questionedTerms(frame, drawnUp.loads);
    const isMetric = readerUnits(agreement).weight === 'kg';
    return { record: drawnUp, paper: isMetric ? ('a4' as const) : ('letter' as const) };
  });
  const printed = await renderRetest({ record, fonts, paper, language: LANGUAGE });
  if (!printed.ok) throw badInput(printed.problems.map(({ message }) => ({ message })));
  const of = record.sample ?? record.ticket ?? '';
  return {
    bytes: printed.bytes,
    name: `Retest ${record.name} ${of} ${record.askedOn}`.replace(/[^\p{L}\p{N}]+/gu, '-'),
  };
}
