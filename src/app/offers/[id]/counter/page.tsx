/**
 * A new version of an offer, in the builder, held against the newest one; of a proposal to close, its day and reason.
 */
import { randomUUID } from 'node:crypto';
import { forbidden, redirect } from 'next/navigation';
import { readDraft } from '../../../../usecases/advice/read-draft.ts';
import { permit } from '../../../../usecases/context.ts';
import { type OfferPage, readOfferPage } from '../../../../usecases/offers/read-offer-page.ts';
import type { Field } from '../../../forms/field.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { type Asked, askedText } from '../../../place/asked.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { counter } from '../../offer-actions.ts';
import { offerTitle } from '../../offer-title.ts';
import { sendingFields } from '../../terms-in.ts';

export const metadata = { title: 'New version' };

export interface CounterPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function CounterPage({ params, searchParams }: CounterPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const draftId = askedText(asked, 'draft');
  const { page, draft } = await ask(async (context) => {
    permit(context, 'make-offer');
    return {
      page: await readOfferPage(context, { offerId: id }),
      draft: draftId === undefined ? undefined : await readDraft(context, { draftId }),
    };
  });
  const { offer } = page;
  const { newest } = offer;
  if (offer.side === 'adviser') forbidden();
  if (offer.state !== 'open' && offer.state !== 'lapsed') redirect(`/offers/${id}`);
  const other = offer.side === 'seller' ? offer.buyer : offer.seller;
  return (
    <>
      <p className="hint">
        <a href={`/offers/${id}`}>{offerTitle(page)}</a>
      </p>
      <h1>
        Version {newest.version + 1}, to {other}
      </h1>
      <p>
        It begins as version {newest.version} stands; change what you would have otherwise. Signatures under
        the version before count no more, and what was sent before stays to be read.
        {draft ? ` Filled in from the draft of ${draft.adviser}.` : null}
      </p>
      <RecordForm
        action={counter}
        submit={`Send version ${newest.version + 1} to ${other}`}
        requestKey={randomUUID()}
        fields={[
          { kind: 'hidden', name: 'offer', value: id },
          { kind: 'hidden', name: 'version', value: String(newest.version) },
          ...(offer.purpose === 'closing'
            ? closingFields(page)
            : termFields(page, { draft: named(draft?.document, newest.document), locale })),
          ...sendingFields(other),
        ]}
      />
    </>
  );
}

/** Terms that somebody drafted, under the number and the names that the offer keeps. */
function named(drafted: Document | undefined, { id, seller, buyer, ...terms }: Document): Document {
  return { ...(drafted ?? terms), id, seller, buyer };
}
type Document = Readonly<Record<string, unknown>>;

export interface TermFields {
  readonly draft: Document;
  readonly locale: string;
}

function termFields({ offer, quotes }: OfferPage, { draft, locale }: TermFields): readonly Field[] {
  const { newest, purpose, lotTests } = offer;
  return [
    ...(purpose === 'amendment'
      ? [
          {
            kind: 'date',
            name: 'effectiveFrom',
            label: 'For loads delivered from',
            hint: 'Earlier loads keep the terms that they were delivered under.',
            value: newest.effectiveFrom ?? '',
          } as const,
        ]
      : []),
    {
      kind: 'formula',
      name: 'terms',
      label: 'The terms',
      draft,
      previous: newest.document,
      lotTests,
      fixed:
        purpose === 'amendment'
          ? ['id', 'seller', 'buyer', 'feed', 'currency', 'timeZone']
          : ['id', 'seller', 'buyer', 'feed'],
      quotes,
      locale,
    },
  ];
}

function closingFields({ offer }: OfferPage): readonly Field[] {
  const { lastDelivery, reason } = offer.newest.document;
  return [
    {
      kind: 'date',
      name: 'lastDelivery',
      label: 'Last day of delivery',
      value: typeof lastDelivery === 'string' ? lastDelivery : '',
    },
    { kind: 'text', name: 'reason', label: 'Reason', value: typeof reason === 'string' ? reason : '' },
  ];
}
