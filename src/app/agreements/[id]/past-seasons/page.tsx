/**
 * The seasons that the two parties have sealed: what each carried over, where its balance went, and what they agree on since.
 */
import { figuresFor } from '../../../../documents/figures.ts';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { readPastSeasons } from '../../../../usecases/season-close/read-past-seasons.ts';
import type { Asked } from '../../../place/asked.ts';
import { withPartner } from '../../../place/partner-words.ts';
import { Told } from '../../../place/told.tsx';
import { notePartiesOf } from '../../../season-notes/note-fields.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { toldBy } from '../../../server/told.ts';
import { PastSeasonPart } from './past-season-part.tsx';

export const metadata = { title: 'Sealed seasons' };

export interface PastSeasonsPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function PastSeasonsPage({ params, searchParams }: PastSeasonsPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { agreement, past, mayPut, mayIssue } = await ask(async (context) => {
    const agreement = await readAgreementWords(context, { agreementId: id });
    if (agreement.side === 'adviser') {
      throw new Refusal('not-found', 'A sealed season is between its two parties.');
    }
    return {
      agreement,
      past: await readPastSeasons(context, { agreementId: id }),
      mayPut: mayDo(context.caller.role, 'correct'),
      mayIssue: mayDo(context.caller.role, 'issue-invoice'),
    };
  });
  const told = await toldBy(asked);
  const parties = notePartiesOf(agreement);
  return (
    <>
      <div className="title">
        <h1>Sealed seasons</h1>
        <p className="quiet-word">
          <a href={`/agreements/${id}`}>{withPartner(agreement)}</a>
        </p>
      </div>
      <Told told={told} />
      {past.seasons.length === 0 ? (
        <p>
          The two of you have sealed no season in {past.currency} yet. What such a season leaves over is taken
          up here: its balance, and what turns out later.
        </p>
      ) : (
        <p className="hint">
          A sealed season takes no entry any more. What it left over is owed under this agreement, once it is
          brought forward or both of you have agreed to it.
        </p>
      )}
      {past.seasons.map((season) => (
        <PastSeasonPart
          key={season.agreementId}
          season={season}
          past={past}
          parties={parties}
          figures={figuresFor(locale)}
          mayPut={mayPut && !past.isSealed}
          mayIssue={mayIssue && !past.isSealed}
        />
      ))}
    </>
  );
}
