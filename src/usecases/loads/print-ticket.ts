/**
 * The ticket of a load as PDF: from what is recorded, the same bytes for both parties.
 */
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { renderTicket } from '../../documents/ticket/render-ticket.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { readHistory } from '../../store/rows/list-rows.ts';
import { findLoad, readFirstLoads, readLoadVersions } from '../../store/rows/load-rows.ts';
import { findAgreement, isId, termsOn } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { findScales } from '../scales/scale-view.ts';
import { ticketPaper } from './ticket-paper.ts';

/** The words on the paper are English, and figures are written the English way. */
const LANGUAGE = 'en-US';

export interface PrintedTicket {
  readonly bytes: Uint8Array;
  readonly ticket: string;
}

/** Refuses `not-allowed`, `not-found`, and `bad-input` where a character cannot be printed. */
export async function printTicket(
  context: Context,
  { loadId, fonts }: { readonly loadId: string; readonly fonts: FontBytes },
): Promise<PrintedTicket> {
  permit(context, 'read');
  const { paper, terms, writtenAt } = await context.store.forParty(context.caller.partyId, async (tx) => {
    const row = isId(loadId) ? await findLoad(tx, loadId) : undefined;
    if (!row) throw new Refusal('not-found', 'There is no such load.');
    const { agreementId } = row;
    const found = await findAgreement(tx, agreementId);
    const [first] = await readFirstLoads(tx, agreementId, [row.id]);
    if (!first) throw new Error('A load that was found was never recorded');
    const versions = await readLoadVersions(tx, agreementId, [row.id]);
    const scaleIds = [first, ...versions].flatMap(({ grossScale, tareScale }) =>
      [grossScale, tareScale].filter((id) => id !== null),
    );
    const entries = await readHistory(tx, agreementId, [row.id, ...versions.map(({ id }) => id)]);
    const of = termsOn(found, row.deliveredOn);
    return {
      paper: ticketPaper({
        ...{ terms: of, row, first, versions, entries },
        scales: scaleIds.length === 0 ? new Map() : await findScales(tx, [...new Set(scaleIds)]),
      }),
      terms: of,
      writtenAt: entries.at(-1)?.postedAt,
    };
  });
  const printed = await renderTicket({
    ...paper,
    fonts,
    language: LANGUAGE,
    paper: readerUnits(terms.agreement).weight === 'kg' ? 'a4' : 'letter',
    createdOn: writtenAt,
  });
  if (!printed.ok) {
    throw new Refusal('bad-input', printed.problems.map(({ message }) => message).join('\n'));
  }
  return { bytes: printed.bytes, ticket: paper.ticket };
}
