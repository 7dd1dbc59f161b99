/**
 * The closing statement as PDF, as it stands. Nothing of the reader is in it: once sealed, both parties get the same bytes,
 * whatever happens later.
 */
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { renderClosing } from '../../documents/season-close/render-closing.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { findAgreement, sideOf } from '../agreements/find-agreement.ts';
import type { PrintedPaper } from '../agreements/render-paper.ts';
import { type Context, permit } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { closeViewOf } from './read-close.ts';

/** The words on the paper are English, and figures are written the English way. */
const LANGUAGE = 'en-US';

/** Refuses `not-allowed`, `not-found` (also an adviser), and `bad-input` where a character cannot be printed. */
export async function printClose(
  context: Context,
  { agreementId, fonts }: { readonly agreementId: string; readonly fonts: FontBytes },
): Promise<PrintedPaper> {
  permit(context, 'read');
  const { view, agreement } = await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    if (sideOf(found.row, context.caller) === 'adviser') {
      throw new Refusal('not-found', 'A season is closed by its two parties.');
    }
    const view = await closeViewOf(tx, context, found);
    // The version that was closed, so that no later one changes the paper.
    const last = view.statement.agreement.versions.at(-1);
    const { agreement } = found.versions.find(({ row }) => row.fingerprint === last) ?? found;
    return { view, agreement };
  });
  const { statement, seal, inTheWay } = view;
  const signed = view.drawn?.isStale ? undefined : view.drawn;
  const printed = await renderClosing({
    closing: {
      statement,
      timeZone: agreement.timeZone,
      fingerprint: signed?.fingerprint,
      signatures: signed?.signatures ?? [],
      seal,
      inTheWay: signed ? [] : inTheWay,
    },
    fonts,
    paper: readerUnits(agreement).weight === 'kg' ? 'a4' : 'letter',
    language: LANGUAGE,
  });
  if (!printed.ok) throw badInput(printed.problems.map(({ message }) => ({ message })));
  const name = `Closing statement ${statement.agreement.number}${seal ? '' : ' not sealed'}`;
  return { bytes: printed.bytes, name: name.replace(/[^\p{L}\p{N}]+/gu, '-') };
}
