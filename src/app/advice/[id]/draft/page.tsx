/**
 * An adviser drafts terms, beginning with those that stand now.
 */
import { randomUUID } from 'node:crypto';
import { readDraftGround } from '../../../../usecases/advice/propose-draft.ts';
import { readOneAdvice } from '../../../../usecases/advice/read-advice.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { draft } from '../../advice-actions.ts';

export const metadata = { title: 'Draft terms' };

export default async function DraftPage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const { id } = await params;
  const locale = await readerLocale();
  const { advice, ground } = await ask(async (context) => ({
    advice: await readOneAdvice(context, { adviceId: id }),
    ground: await readDraftGround(context, { adviceId: id }),
  }));
  const { other, words } = advice;
  return (
    <>
      <h1>
        Draft terms for {other}, on {words}
      </h1>
      <p>
        {other} alone sees the draft, and may send it as their own or leave it. It binds nobody.{' '}
        <a href={`/advice/${id}`}>Back to your notes</a>
      </p>
      <RecordForm
        action={draft}
        submit={`Show this draft to ${other}`}
        requestKey={randomUUID()}
        fields={[
          { kind: 'hidden', name: 'advice', value: id },
          {
            kind: 'formula',
            name: 'terms',
            label: 'The terms',
            draft: ground.document,
            previous: ground.document,
            lotTests: ground.lotTests,
            fixed: ['id', 'seller', 'buyer', 'feed', 'currency', 'timeZone'],
            locale,
          },
        ]}
      />
    </>
  );
}
