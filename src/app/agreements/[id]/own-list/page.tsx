/**
 * A party's own lists of an agreement's loads and payments beside the record: what agrees, what differs and most likely
 * why, and what stands in one of the two alone; and beside the other side's lists, while both agree to it.
 */
import { figuresFor } from '../../../../documents/figures.ts';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { readListsCompared } from '../../../../usecases/season-close/read-lists-compared.ts';
import { readMatching } from '../../../../usecases/season-close/read-matching.ts';
import { readPaymentMatching } from '../../../../usecases/season-close/read-payment-matching.ts';
import type { Asked } from '../../../place/asked.ts';
import { withPartner } from '../../../place/partner-words.ts';
import { Told } from '../../../place/told.tsx';
import { notePartiesOf } from '../../../season-notes/note-fields.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { toldBy } from '../../../server/told.ts';
import { ListsComparedPart } from './lists-compared-part.tsx';
import { MatchingPart } from './matching-part.tsx';
import { OwnListForm } from './own-list-form.tsx';
import { PaymentMatchingPart } from './payment-matching-part.tsx';
import { WaysHint } from './ways-hint.tsx';

export const metadata = { title: 'Your list' };

export interface OwnListPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function OwnListPage({ params, searchParams }: OwnListPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { agreement, matching, payments, compared, mayBring } = await ask(async (context) => {
    const agreement = await readAgreementWords(context, { agreementId: id });
    if (agreement.side === 'adviser') {
      throw new Refusal('not-found', 'Lists are between a party and the record.');
    }
    return {
      agreement,
      matching: await readMatching(context, { agreementId: id }),
      payments: await readPaymentMatching(context, { agreementId: id }),
      compared: await readListsCompared(context, { agreementId: id }),
      mayBring: mayDo(context.caller.role, 'correct'),
    };
  });
  const told = await toldBy(asked);
  const areLoadsOpen = matching !== undefined && matching.open.length > 0;
  const areOpen = areLoadsOpen || (payments !== undefined && payments.open.length > 0);
  const parties = notePartiesOf(agreement);
  const ways = mayBring ? (
    <WaysHint agreementId={id} partner={parties.partner} isSealed={agreement.isSealed} />
  ) : null;
  return (
    <>
      <div className="title">
        <h1>Your lists and the record</h1>
        <p className="quiet-word">
          <a href={`/agreements/${id}`}>{withPartner(agreement)}</a>
        </p>
      </div>
      <Told told={told} />
      <p className="hint">
        Bring the lists that your office keeps. They are matched with the record one by one, change nothing in
        it, and{' '}
        {compared.lists
          ? `${compared.partner} sees the newest of them, since both of you agree to that.`
          : 'nobody but your side sees them.'}
      </p>
      <section aria-labelledby="loads">
        <h2 id="loads">Loads</h2>
        {matching ? (
          <MatchingPart
            matching={matching}
            figures={figuresFor(locale)}
            timeZone={agreement.timeZone}
            parties={parties}
            mayAccept={mayBring}
            mayPut={mayBring && !agreement.isSealed}
            before={ways}
          />
        ) : null}
        {mayBring ? (
          <OwnListForm
            kind="own-loads"
            agreementId={id}
            isAgain={matching !== undefined}
            isQuiet={areOpen || matching !== undefined}
            key={told ?? 'first'}
          />
        ) : null}
        {!matching && !mayBring ? <p>Your office has brought no list of loads yet.</p> : null}
      </section>
      <section aria-labelledby="payments">
        <h2 id="payments">Payments</h2>
        {payments ? (
          <PaymentMatchingPart
            matching={payments}
            figures={figuresFor(locale)}
            timeZone={agreement.timeZone}
            agreementId={id}
            mayAccept={mayBring}
            mayPut={mayBring && !agreement.isSealed}
            before={areLoadsOpen ? null : ways}
          />
        ) : null}
        {mayBring ? (
          <OwnListForm
            kind="own-payments"
            agreementId={id}
            isAgain={payments !== undefined}
            isQuiet={areOpen || payments !== undefined}
            key={told ?? 'first'}
          />
        ) : null}
        {!payments && !mayBring ? <p>Your office has brought no list of payments yet.</p> : null}
      </section>
      <ListsComparedPart
        agreementId={id}
        compared={compared}
        figures={figuresFor(locale)}
        timeZone={agreement.timeZone}
        mayAgree={mayBring}
      />
    </>
  );
}
