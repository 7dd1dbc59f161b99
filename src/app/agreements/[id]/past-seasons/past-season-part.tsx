/**
 * One sealed season: what it carried over, where its balance went, and what was put since.
 */
import { randomUUID } from 'node:crypto';
import { signOf, unsigned } from '../../../../documents/amount-strings.ts';
import type { Figures } from '../../../../documents/figures.ts';
import { pointInWords } from '../../../../domain/season-close/open-points.ts';
import type { PastSeason, PastSeasons } from '../../../../usecases/season-close/read-past-seasons.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { bringBalance, putPastSeason } from '../../../season-notes/note-actions.ts';
import { aboutFields, type NoteParties, pastSeasonFields } from '../../../season-notes/note-fields.ts';
import { NoteList } from '../../../season-notes/note-list.tsx';

export interface PastSeasonPartProps {
  readonly season: PastSeason;
  readonly past: PastSeasons;
  readonly parties: NoteParties;
  readonly figures: Figures;
  readonly mayPut: boolean;
  readonly mayIssue: boolean;
}

export function PastSeasonPart(props: PastSeasonPartProps) {
  const { season, parties, figures, mayPut } = props;
  const { agreementId, number, sealedOn, carried, notes } = season;
  const id = `season-${agreementId}`;
  const { seller, buyer, currency } = parties;
  const words = { seller, buyer, money: (amount: string) => `${figures.show(amount)} ${currency}` };
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>Agreement {number}</h2>
      <p className="quiet-word">
        Sealed on {sealedOn}. <a href={`/agreements/${agreementId}/season-close`}>Its closing statement</a>
      </p>
      {carried.length === 0 ? (
        <p>It left nothing over.</p>
      ) : (
        <>
          <p>Carried over when both signed:</p>
          <ul>
            {carried.map((point) => (
              <li key={pointInWords(point, words)}>{pointInWords(point, words)}.</li>
            ))}
          </ul>
        </>
      )}
      <Unsettled {...props} />
      <Balance {...props} />
      <NoteList notes={notes} parties={parties} place="past-seasons" figures={figures} mayAnswer={mayPut} />
      {mayPut ? (
        <RecordForm
          action={putPastSeason}
          submit={`Put it to ${parties.partner}`}
          fields={[
            ...aboutFields(parties, 'past-seasons'),
            { kind: 'hidden', name: 'of', value: agreementId },
            ...pastSeasonFields(parties),
          ]}
          requestKey={randomUUID()}
          scope={`past-${agreementId}`}
          folded={{ summary: 'Something of this season turned out otherwise' }}
          quiet
        />
      ) : null}
    </section>
  );
}

/** Which loads are still to be priced, and what was paid on them already: nobody is to owe it twice. */
function Unsettled({ season: { unsettled }, parties, figures }: PastSeasonPartProps) {
  if (unsettled.length === 0) return null;
  return (
    <>
      <p>Loads that had not settled:</p>
      <ul>
        {unsettled.map(({ ticket, advance }) => (
          <li key={ticket}>
            {ticket}
            {advance === null
              ? ''
              : `, with an advance of ${figures.show(advance)} ${parties.currency} that is in the balance already: put what the load comes to less that`}
          </li>
        ))}
      </ul>
    </>
  );
}

function Balance({ season, past, parties, figures, mayIssue }: PastSeasonPartProps) {
  const { agreementId, balance, broughtInto } = season;
  if (signOf(balance) === 0) return null;
  const { seller, buyer, currency } = parties;
  const owed = `${figures.show(unsigned(balance))} ${currency}`;
  const who = signOf(balance) > 0 ? buyer : seller;
  if (broughtInto) {
    return (
      <p>
        Its balance, {owed} that {who} owed, was brought forward
        {broughtInto.agreementId === parties.agreementId
          ? ' into this agreement'
          : ` into agreement ${broughtInto.number}`}
        , and is owed there by{' '}
        {broughtInto.documents.map(({ id, name }, index) => (
          <span key={id}>
            {index === 0 ? '' : ', '}
            <a href={`/money/documents/${id}`}>{name}</a>
          </span>
        ))}
        .
      </p>
    );
  }
  if (!past.isIssuer || !mayIssue) {
    return (
      <p>
        Its balance, {owed} that {who} owed, is not brought forward yet.
        {past.isIssuer || past.isSealed ? '' : ` ${past.issuer} issues the notes, and brings it forward.`}
      </p>
    );
  }
  return (
    <>
      <p>
        Its balance, {owed} that {who} owed, is not brought forward yet. Brought forward, each open document
        goes on under this agreement, due when it was due; what was held stays held. A discount for paying
        early does not go along.
      </p>
      <RecordForm
        action={bringBalance}
        submit={`Bring ${owed} forward`}
        fields={[...aboutFields(parties, 'past-seasons'), { kind: 'hidden', name: 'of', value: agreementId }]}
        requestKey={randomUUID()}
        scope={`bring-${agreementId}`}
      />
    </>
  );
}
