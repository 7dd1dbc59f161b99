/**
 * A buyer's first offer on a lot: the asking formula with the names filled in, changed as the buyer would have it.
 */
import { randomUUID } from 'node:crypto';
import { redirect } from 'next/navigation';
import { readDraft } from '../../../../usecases/advice/read-draft.ts';
import { readOfferGround } from '../../../../usecases/offers/read-offer-ground.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { offerOnLot } from '../../../offers/offer-actions.ts';
import { sendingFields } from '../../../offers/terms-in.ts';
import { type Asked, askedText } from '../../../place/asked.ts';
import { opening } from '../../../place/sentence.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';

export const metadata = { title: 'Make an offer' };

export interface MakeOfferPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function MakeOfferPage({ params, searchParams }: MakeOfferPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const draftId = askedText(asked, 'draft');
  const { ground, draft } = await ask(async (context) => ({
    ground: await readOfferGround(context, { lotId: id }),
    draft: draftId === undefined ? undefined : await readDraft(context, { draftId }),
  }));
  const { lot, feed, openOfferId, quotes, lotTests } = ground;
  if (openOfferId !== undefined) redirect(`/offers/${openOfferId}`);
  const { id: number, seller, buyer } = ground.draft;
  return (
    <>
      <p className="hint">
        <a href={`/lots/${id}`}>
          Lot {lot.number} of {lot.seller}
        </a>
      </p>
      <h1>Offer on lot {lot.number}</h1>
      <p>{opening(feed)}.</p>
      {ground.isOpen ? (
        <>
          <p>
            It begins as {lot.seller} asks; change what you would have otherwise. No other buyer sees your
            offer. It binds nobody until both sides have signed one version of it.
            {draft ? ` Filled in from the draft of ${draft.adviser}.` : null}
          </p>
          <RecordForm
            action={offerOnLot}
            submit={`Send this offer to ${lot.seller}`}
            requestKey={randomUUID()}
            fields={[
              { kind: 'hidden', name: 'lot', value: id },
              {
                kind: 'formula',
                name: 'terms',
                label: 'The terms',
                hint: 'Your offer gets a number of its own when it is sent.',
                draft: draft ? { ...draft.document, id: number, seller, buyer } : ground.draft,
                previous: ground.draft,
                lotTests,
                fixed: ['id', 'seller', 'buyer', 'feed'],
                quotes,
                locale,
              },
              ...sendingFields(lot.seller),
            ]}
          />
        </>
      ) : (
        <p>The lot takes no offers now.</p>
      )}
    </>
  );
}
