/**
 * Posting a lot: who sees it, and what anybody may see without signing in, with a look at that beforehand.
 */
import { randomUUID } from 'node:crypto';
import { PUBLIC_PARTS } from '../../../../domain/lots/lot-document.ts';
import { permit } from '../../../../usecases/context.ts';
import { ANY_FEED } from '../../../../usecases/lots/feed-request.ts';
import { readLotView } from '../../../../usecases/lots/read-lot-view.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { ListingFacts } from '../../../feed/listing-facts.tsx';
import { RecordForm } from '../../../forms/record-form.tsx';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { feedTitle, standingWords } from '../../lot-words.ts';
import { PART_WORDS } from './part-words.ts';
import { post } from './post.ts';

export const metadata = { title: 'Post a lot' };

export default async function PostLotPage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const [{ id }, locale] = [await params, await readerLocale()];
  const view = await ask(async (context) => {
    const found = await readLotView(context, { lotId: id, basis: ANY_FEED, locale });
    permit(context, 'keep-lot');
    if (!found.summary.isOwn) throw new Refusal('not-yours', 'This lot is another party’s.');
    return found;
  });
  const { summary, publicParts, everyPart } = view;
  const { standing, number, until, audience } = summary;
  const isHidden = standing === 'draft' || standing === 'withdrawn';
  if (standing === 'sold') {
    return (
      <div className="narrow">
        <h1>Lot {number} is sold</h1>
        <p>
          It is shown to nobody any more. <a href={`/lots/${id}`}>Back to it</a>
        </p>
      </div>
    );
  }
  return (
    <div className="post-lot">
      <h1>
        {isHidden ? 'Post' : 'Who sees'} your lot {number}
      </h1>
      <p>
        {feedTitle(summary.feed)}, {summary.amount}. It is {standingWords(summary)}.{' '}
        {standing === 'over' ? (
          <a href={`/lots/${id}/edit`}>Give it a later last day first</a>
        ) : isHidden ? (
          `Once posted, offers may be made until the end of ${until}.`
        ) : null}
      </p>
      <RecordForm
        action={post}
        submit={isHidden ? 'Post it' : 'Show it so'}
        requestKey={randomUUID()}
        fields={[
          { kind: 'hidden', name: 'lot', value: id },
          {
            kind: 'choice',
            name: 'audience',
            label: 'Who may see it and make offers',
            value: audience,
            options: [
              { value: 'everyone', label: 'Everyone who is signed in here' },
              { value: 'invited', label: 'Only whom I invite' },
            ],
          },
          {
            kind: 'choice',
            name: 'listed',
            label: 'And anybody, without signing in?',
            hint: 'A public page can be found by search engines. The address is never on it. For invited parties alone there is none.',
            value: publicParts === undefined ? 'no' : 'yes',
            options: [
              { value: 'no', label: 'No, nothing' },
              { value: 'yes', label: 'Yes, what I tick below' },
            ],
          },
          {
            kind: 'checks',
            name: 'public',
            label: 'What anybody may see',
            hint: 'The kind of feed and its last day always stand there.',
            ticked: publicParts ?? [],
            options: PUBLIC_PARTS.map((part) => ({ value: part, label: PART_WORDS[part] })),
          },
        ]}
      />
      {everyPart ? (
        <section className="public-choice" aria-live="polite">
          <h2>What anybody would see</h2>
          <div className="listing">
            <ListingFacts extract={everyPart} locale={locale} />
          </div>
        </section>
      ) : null}
    </div>
  );
}
