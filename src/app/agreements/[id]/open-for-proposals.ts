/**
 * An agreement about which the reader may propose something now; else the page ends, or leads to what is open already.
 */
import { forbidden, redirect } from 'next/navigation';
import { type AgreementPage, readAgreementPage } from '../../../usecases/agreements/read-agreement-page.ts';
import { type Context, permit } from '../../../usecases/context.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';

export interface OpenForProposals<More> {
  readonly page: AgreementPage;
  readonly more: More;
  /** The other side. */
  readonly other: string;
}

/** Reads the agreement, and `more` in the same go. */
export async function openForProposals<More>(
  id: string,
  readMore: (context: Context) => Promise<More>,
): Promise<OpenForProposals<More>> {
  const locale = await readerLocale();
  const { page, more } = await ask(async (context) => {
    permit(context, 'make-offer');
    return {
      page: await readAgreementPage(context, { agreementId: id, locale }),
      more: await readMore(context),
    };
  });
  if (page.side === 'adviser') forbidden();
  if (page.proposal) redirect(`/offers/${page.proposal.offerId}`);
  if (page.closing) redirect(`/agreements/${id}`);
  return { page, more, other: page.side === 'seller' ? page.buyer : page.seller };
}
