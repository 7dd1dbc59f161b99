/**
 * Where to go on from an agreement: its loads, its money, its prices, and for its two parties a proposal to change or close it.
 */
import type { Role, Verb } from '../../../domain/parties/permissions.ts';
import type { AgreementPage } from '../../../usecases/agreements/read-agreement-page.ts';
import { mayAct } from '../../place/may-act.ts';

export interface AgreementStepsProps {
  readonly page: AgreementPage;
  readonly role: Role;
}

export function AgreementSteps({ page, role }: AgreementStepsProps) {
  const { id, side, proposal, closing, document, isSealed } = page;
  const mayPropose = mayAct(side, role, 'make-offer') && !proposal && !closing && !isSealed;
  const mayRecord = (verb: Verb) => !isSealed && mayAct(side, role, verb);
  const follows = Object.values((document['references'] ?? {}) as Record<string, { series?: string }>);
  const series = [...new Set(follows.flatMap((reference) => reference.series ?? []))];
  return (
    <>
      {proposal ? (
        <p className="owed">
          {proposal.purpose === 'closing' ? 'An early end is proposed' : 'A change is proposed'} and waits for
          signatures: <a href={`/offers/${proposal.offerId}`}>read the proposal</a>.
        </p>
      ) : null}
      {isSealed ? (
        <p className="told">
          Both of you have sealed its season: nothing is recorded under it any more. What comes later belongs
          to your next agreement with each other.
        </p>
      ) : null}
      <ul className="pick">
        <Step to={`/loads?agreement=${id}`} label="Its loads" />
        {side === 'adviser' ? null : <Step to={`/money?agreement=${id}`} label="Its money" />}
        <Step to={`/agreements/${id}/progress`} label="Progress" />
        <Step to={`/agreements/${id}/season`} label="The season" />
        <Step to={`/agreements/${id}/samples`} label="Samples" />
        {side === 'adviser' ? null : <Step to={`/retests?agreement=${id}`} label="Questions" />}
        {side === 'adviser' ? null : <Step to={`/agreements/${id}/own-list`} label="Your list" />}
        {side === 'adviser' ? null : (
          <Step
            to={`/agreements/${id}/season-close`}
            label={isSealed ? 'The closed season' : 'Close the season'}
          />
        )}
        {page.hasSealedSeasons && side !== 'adviser' ? (
          <Step to={`/agreements/${id}/past-seasons`} label="Sealed seasons" />
        ) : null}
        {side === 'buyer' ? <Step to={`/agreements/${id}/stored`} label="What you stored" /> : null}
        <Step to={`/agreements/${id}/tickets`} label="Ticket book" />
        <Step to={`/agreements/${id}/laboratories`} label="Laboratories" />
        {series.map((name) => (
          <Step
            key={name}
            to={`/agreements/${id}/series/${encodeURIComponent(name)}`}
            label={`Prices, ${name}`}
          />
        ))}
        {mayRecord('record-load') ? <Step to={`/import?agreement=${id}`} label="Bring in a file" /> : null}
        {mayRecord('record-quote') && series.length > 0 ? (
          <Step to={`/prices/new?agreement=${id}`} label="Record a price" />
        ) : null}
        {mayPropose ? (
          <>
            <Step to={`/agreements/${id}/amend`} label="Propose a change" />
            <Step to={`/agreements/${id}/close`} label="Propose to close it early" />
          </>
        ) : null}
      </ul>
    </>
  );
}

function Step({ to, label }: { readonly to: string; readonly label: string }) {
  return (
    <li>
      <a className="plain-link" href={to}>
        {label}
      </a>
    </li>
  );
}
