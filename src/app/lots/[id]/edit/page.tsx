/**
 * Changing a lot; one that is posted shows the change at once.
 */
import { randomUUID } from 'node:crypto';
import { NO_ONE_YET } from '../../../../domain/lots/lot-document.ts';
import { readDraft } from '../../../../usecases/advice/read-draft.ts';
import { permit } from '../../../../usecases/context.ts';
import { ANY_FEED } from '../../../../usecases/lots/feed-request.ts';
import { readLotView } from '../../../../usecases/lots/read-lot-view.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { type Asked, askedText } from '../../../place/asked.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { GasCaution, SamplingCaution } from '../../cautions.tsx';
import { type LotFieldsGiven, lotFields } from '../../form/lot-fields.ts';
import { saveLot } from '../../form/save-lot.ts';
import { feedTitle } from '../../lot-words.ts';

export const metadata = { title: 'Change a lot' };

export interface EditLotProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function EditLotPage({ params, searchParams }: EditLotProps) {
  const [{ id }, locale] = [await params, await readerLocale()];
  const draftId = askedText(await searchParams, 'draft');
  const { view, draft } = await ask(async (context) => {
    const found = await readLotView(context, { lotId: id, basis: ANY_FEED, locale });
    permit(context, 'keep-lot');
    if (!found.summary.isOwn) throw new Refusal('not-yours', 'This lot is another party’s.');
    const drafted = draftId === undefined ? undefined : await readDraft(context, { draftId });
    const isOfThis = drafted !== undefined && 'lotId' in drafted.subject && drafted.subject.lotId === id;
    return { view: found, draft: isOfThis ? drafted : undefined };
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
      {draft ? (
        <p className="told">
          The formula below is as {draft.name} of {draft.adviser} drafted it. Nothing is changed until you
          write it down.
        </p>
      ) : null}
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
            asking: draft ? { ...draft.document, ...NO_ONE_YET } : askingDraft,
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
