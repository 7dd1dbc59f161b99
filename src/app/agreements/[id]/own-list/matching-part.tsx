/**
 * How the rows of an own list and of the record end, the sums first, then each that does not agree.
 */
import type { Figures } from '../../../../documents/figures.ts';
import type { ListRow } from '../../../../domain/matching/list-row.ts';
import type { Outcome } from '../../../../domain/matching/match-lists.ts';
import { type ListNames, outcomeInWords } from '../../../../domain/words/matching-words.ts';
import { type MatchingView, STANDINGS } from '../../../../usecases/season-close/read-matching.ts';
import { AcceptForm, AcceptHint } from './accept-form.tsx';
import { Compared, sidesOf } from './compared.tsx';

export interface MatchingPartProps {
  readonly matching: MatchingView;
  readonly figures: Figures;
  readonly timeZone: string;
  readonly agreementId: string;
  readonly mayAccept: boolean;
}

export function MatchingPart({ matching, figures, timeZone, agreementId, mayAccept }: MatchingPartProps) {
  const { ownRows, recordRows, currency } = matching;
  const names: ListNames = {
    mine: 'your list',
    record: 'the record',
    load: (side, id) => (side === 'mine' ? `line ${id} of your list` : `another load of the record`),
    currency,
  };
  return (
    <Compared
      matching={matching}
      standings={STANDINGS}
      names={names}
      ids={{ heading: 'matching', standing: 'standing' }}
      sizes={`${figures.show(String(ownRows))} loads. The record has ${figures.show(String(recordRows))}.`}
      before={mayAccept ? <AcceptHint /> : null}
      item={(outcome, isAccepted) => (
        <>
          <Item outcome={outcome} names={names} figures={figures} isAccepted={isAccepted} />
          {mayAccept ? (
            <AcceptForm
              agreementId={agreementId}
              kind="own-loads"
              fingerprint={outcome.fingerprint}
              isAccepted={isAccepted}
            />
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
  isAccepted,
}: {
  readonly outcome: Outcome;
  readonly names: ListNames;
  readonly figures: Figures;
  readonly isAccepted: boolean;
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
      {recorded && !isAccepted ? (
        <p className="hint">
          If the record is wrong, <a href={`/loads/${recorded.id}/correct`}>propose to put it right</a> or
          question its weight or test on the load’s page. If your list is wrong, put it right there and bring
          it again.
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
