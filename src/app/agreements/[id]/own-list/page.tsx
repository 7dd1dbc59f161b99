/**
 * A party's own list of an agreement's loads beside the record: what agrees, what differs and most likely why, and what
 * stands in one of the two alone.
 */
import { figuresFor } from '../../../../documents/figures.ts';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { readMatching } from '../../../../usecases/season-close/read-matching.ts';
import type { Asked } from '../../../place/asked.ts';
import { withPartner } from '../../../place/partner-words.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { toldBy } from '../../../server/told.ts';
import { MatchingPart } from './matching-part.tsx';
import { OwnListForm } from './own-list-form.tsx';

export const metadata = { title: 'Your list' };

export interface OwnListPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function OwnListPage({ params, searchParams }: OwnListPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { agreement, matching, mayBring } = await ask(async (context) => {
    const agreement = await readAgreementWords(context, { agreementId: id });
    if (agreement.side === 'adviser') {
      throw new Refusal('not-found', 'Lists are between a party and the record.');
    }
    return {
      agreement,
      matching: await readMatching(context, { agreementId: id }),
      mayBring: mayDo(context.caller.role, 'correct'),
    };
  });
  const told = await toldBy(asked);
  return (
    <>
      <div className="title">
        <h1>Your list and the record</h1>
        <p className="quiet-word">
          <a href={`/agreements/${id}`}>{withPartner(agreement)}</a>
        </p>
      </div>
      {told === undefined ? null : (
        <p className="told" role="status">
          {told}
        </p>
      )}
      <p className="hint">
        Bring the list that your office keeps. It is matched with the record load by load, changes nothing in
        it, and nobody but your side sees it.
      </p>
      {matching ? (
        <MatchingPart matching={matching} figures={figuresFor(locale)} timeZone={agreement.timeZone} />
      ) : null}
      {mayBring ? (
        <OwnListForm agreementId={id} isAgain={matching !== undefined} key={told ?? 'first'} />
      ) : null}
      {!matching && !mayBring ? <p>Your office has brought no list yet.</p> : null}
    </>
  );
}
