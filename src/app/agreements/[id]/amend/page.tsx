/**
 * Proposing other terms from a day on, beginning with those that stand.
 */
import { randomUUID } from 'node:crypto';
import { readDraft } from '../../../../usecases/advice/read-draft.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { sendingFields } from '../../../offers/terms-in.ts';
import { type Asked, askedText } from '../../../place/asked.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { amend } from '../../proposal-actions.ts';
import { openForProposals } from '../open-for-proposals.ts';

export const metadata = { title: 'Propose a change' };

export interface AmendPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function AmendPage({ params, searchParams }: AmendPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const draftId = askedText(asked, 'draft');
  const { page, more, other } = await openForProposals(id, async (context) =>
    draftId === undefined ? undefined : await readDraft(context, { draftId }),
  );
  return (
    <>
      <p className="hint">
        <a href={`/agreements/${id}`}>{page.name}</a>
      </p>
      <h1>Propose a change to {other}</h1>
      <p>
        It begins as the agreement stands. When both sides have signed the new version, loads delivered from
        its day on come under it; earlier loads keep the terms that they were delivered under.
        {more ? ` Filled in from the draft of ${more.adviser}.` : null}
      </p>
      <RecordForm
        action={amend}
        submit={`Propose it to ${other}`}
        requestKey={randomUUID()}
        fields={[
          { kind: 'hidden', name: 'agreement', value: id },
          {
            kind: 'date',
            name: 'effectiveFrom',
            label: 'For loads delivered from',
            hint: 'After the last load that has settled.',
          },
          {
            kind: 'formula',
            name: 'terms',
            label: 'The terms',
            draft: more?.document ?? page.document,
            previous: page.document,
            lotTests: page.lotTests,
            fixed: ['id', 'seller', 'buyer', 'feed', 'currency', 'timeZone'],
            quotes: page.quotes,
            locale,
          },
          ...sendingFields(other),
        ]}
      />
    </>
  );
}
