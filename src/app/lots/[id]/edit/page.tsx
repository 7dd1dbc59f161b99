/**
 * Changing a lot; one that is posted shows the change at once.
 */
import { randomUUID } from 'node:crypto';
import { permit } from '../../../../usecases/context.ts';
import { ANY_FEED } from '../../../../usecases/lots/feed-request.ts';
import { readLotView } from '../../../../usecases/lots/read-lot-view.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { GasCaution, SamplingCaution } from '../../cautions.tsx';
import { type LotFieldsGiven, lotFields } from '../../form/lot-fields.ts';
import { saveLot } from '../../form/save-lot.ts';
import { feedTitle } from '../../lot-words.ts';

export const metadata = { title: 'Change a lot' };

export default async function EditLotPage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const [{ id }, locale] = [await params, await readerLocale()];
  const view = await ask(async (context) => {
    const found = await readLotView(context, { lotId: id, basis: ANY_FEED, locale });
    permit(context, 'keep-lot');
    if (!found.summary.isOwn) throw new Refusal('not-yours', 'This lot is another party’s.');
    return found;
  });
  const { summary, document, askingDraft, address, files, lotTests, quotesByReference } = view;
  if (summary.standing === 'sold') {
    return (
      <div className="narrow">
        <h1>Lot {summary.number} is sold</h1>
        <p>
          It stays as it was. <a href={`/lots/${id}`}>Back to it</a>
        </p>
      </div>
    );
  }
  return (
    <div className="lot-form">
      <h1>Change your lot {summary.number}</h1>
      <p>
        {feedTitle(summary.feed)}.{' '}
        {summary.standing === 'draft' || summary.standing === 'withdrawn'
          ? 'Nobody sees the change until you post the lot.'
          : 'Whoever sees the lot sees the change at once. Offers that were made stay as they are.'}
      </p>
      <SamplingCaution />
      {document['storage'] === 'upright-silo' ? <GasCaution /> : null}
      <RecordForm
        action={saveLot}
        submit="Write the change down"
        requestKey={randomUUID()}
        fields={[
          { kind: 'hidden', name: 'lot', value: id },
          ...lotFields({
            lot: document as unknown as LotFieldsGiven['lot'],
            asking: askingDraft,
            previous: askingDraft,
            address: address ?? '',
            files,
            lotTests,
            quotes: quotesByReference,
            locale,
          }),
        ]}
      />
    </div>
  );
}
