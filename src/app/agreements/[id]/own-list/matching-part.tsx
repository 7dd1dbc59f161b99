/**
 * How the rows of an own list and of the record end, the sums first, then each that does not agree.
 */
import type { ReactNode } from 'react';
import type { Figures } from '../../../../documents/figures.ts';
import type { ListRow } from '../../../../domain/matching/list-row.ts';
import type { Outcome } from '../../../../domain/matching/match-lists.ts';
import { type ListNames, outcomeInWords } from '../../../../domain/words/matching-words.ts';
import { type MatchingView, STANDINGS } from '../../../../usecases/season-close/read-matching.ts';
import type { NoteParties } from '../../../season-notes/note-fields.ts';
import { AcceptForm } from './accept-form.tsx';
import { Compared, sidesOf } from './compared.tsx';
import { DifferenceForm } from './difference-form.tsx';

export interface MatchingPartProps {
  readonly matching: MatchingView;
  readonly figures: Figures;
  readonly timeZone: string;
  readonly parties: NoteParties;
  readonly mayAccept: boolean;
  /** Whether the reader may put a load right, or a difference to the other side. */
  readonly mayPut: boolean;
  /** What is said above the rows that do not agree. */
  readonly before: ReactNode;
}

export function MatchingPart({
  matching,
  figures,
  timeZone,
  parties,
  mayAccept,
  mayPut,
  before,
}: MatchingPartProps) {
  const { ownRows, recordRows, currency, put } = matching;
  const names: ListNames = {
    mine: 'your list',
    record: 'the record',
    load: (side, id) => (side === 'mine' ? `line ${id} of your list` : `another load of the record`),
    currency,
    show: figures.show,
  };
  return (
    <Compared
      matching={matching}
      standings={STANDINGS}
      names={names}
      ids={{ heading: 'matching', standing: 'standing' }}
      sizes={`${figures.show(String(ownRows))} loads. The record has ${figures.show(String(recordRows))}.`}
      before={before}
      item={(outcome, ending) => (
        <>
          <Item outcome={outcome} names={names} figures={figures} mayPut={mayPut && ending === 'open'} />
          {mayAccept && ending !== 'left' ? (
            <AcceptForm
              agreementId={parties.agreementId}
              kind="own-loads"
              fingerprint={outcome.fingerprint}
              isAccepted={ending === 'accepted'}
            />
          ) : null}
          {mayPut && ending === 'open' ? (
            <DifferenceForm outcome={outcome} parties={parties} isPut={put.has(outcome.fingerprint)} />
          ) : null}
        </>
      )}
      figures={figures}
      timeZone={timeZone}
    />
  );
}

function Item({
  outcome,
  names,
  figures,
  mayPut,
}: {
  readonly outcome: Outcome;
  readonly names: ListNames;
  readonly figures: Figures;
  readonly mayPut: boolean;
}) {
  const { own, recorded } = sidesOf(outcome);
  return (
    <>
      <h5>
        {own ? `Line ${own.id}, ${rowWords(own, figures)}` : null}
        {own && recorded ? <br /> : null}
        {recorded ? (
          <>
            <a href={`/loads/${recorded.id}`}>Load {recorded.ticket}</a>, {rowWords(recorded, figures)}
          </>
        ) : null}
      </h5>
      {outcomeInWords(outcome, names).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {recorded && mayPut ? (
        <p>
          <a href={`/loads/${recorded.id}/correct`}>
            Put this load right<span className="visually-hidden">: {recorded.ticket}</span>
          </a>
        </p>
      ) : null}
    </>
  );
}

export function rowWords(
  { ticket, deliveredOn, truck, net, unit, amount }: ListRow,
  figures: Figures,
): string {
  return [
    ticket === null ? 'no ticket' : `ticket ${ticket}`,
    deliveredOn,
    ...(truck === null ? [] : [`truck ${truck}`]),
    `${figures.show(net)} ${unit}`,
    ...(amount === null ? [] : [figures.show(amount)]),
  ].join(', ');
}
