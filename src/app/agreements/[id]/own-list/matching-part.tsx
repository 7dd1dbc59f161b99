/**
 * How the rows of an own list and of the record end, the sums first, then each that does not agree.
 */
import type { Figures } from '../../../../documents/figures.ts';
import type { ListRow } from '../../../../domain/matching/list-row.ts';
import { type Outcome, standingsOf } from '../../../../domain/matching/match-lists.ts';
import { type ListNames, outcomeInWords, standingInWords } from '../../../../domain/words/matching-words.ts';
import { type MatchingView, STANDINGS } from '../../../../usecases/season-close/read-matching.ts';

export interface MatchingPartProps {
  readonly matching: MatchingView;
  readonly figures: Figures;
  readonly timeZone: string;
}

/** As many as a person looks through at once; the others come once these are settled. */
const MOST_SHOWN = 200;

export function MatchingPart({ matching, figures, timeZone }: MatchingPartProps) {
  const { fileName, broughtAt, ownRows, recordRows, counts, open, currency } = matching;
  const names: ListNames = {
    mine: 'your list',
    record: 'the record',
    load: (side, id) => (side === 'mine' ? `line ${id} of your list` : `another load of the record`),
    currency,
  };
  const day = new Intl.DateTimeFormat('sv-SE', { timeZone }).format(new Date(broughtAt));
  return (
    <section aria-labelledby="matching">
      <h3 id="matching">
        {counts.agrees === ownRows && open.length === 0 ? 'Everything agrees' : 'How they compare'}
      </h3>
      <p className="quiet-word">
        {fileName}, brought on {day}: {figures.show(String(ownRows))} loads. The record has{' '}
        {figures.show(String(recordRows))}.
      </p>
      <dl className="facts sums">
        {STANDINGS.filter((standing) => standing === 'agrees' || counts[standing] > 0).map((standing) => (
          <div key={standing}>
            <dt>{standingInWords(standing, names)}</dt>
            <dd className="amount">{figures.show(String(counts[standing]))}</dd>
          </div>
        ))}
      </dl>
      {STANDINGS.filter((standing) => standing !== 'agrees').map((standing) => {
        const of = open.filter((outcome) => standingsOf(outcome)[0] === standing);
        if (of.length === 0) return null;
        return (
          <section key={standing} aria-labelledby={`standing-${standing}`}>
            <h4 id={`standing-${standing}`}>{standingInWords(standing, names)}</h4>
            <ul className="corrections">
              {of.slice(0, MOST_SHOWN).map((outcome) => (
                <Item key={keyOf(outcome)} outcome={outcome} names={names} figures={figures} />
              ))}
            </ul>
            {of.length > MOST_SHOWN ? (
              <p>{figures.show(String(of.length - MOST_SHOWN))} more are not shown.</p>
            ) : null}
          </section>
        );
      })}
    </section>
  );
}

function keyOf(outcome: Outcome): string {
  return outcome.kind === 'pair'
    ? `${outcome.mine.id} ${outcome.record.id}`
    : `${outcome.in} ${outcome.row.id}`;
}

function Item({
  outcome,
  names,
  figures,
}: {
  readonly outcome: Outcome;
  readonly names: ListNames;
  readonly figures: Figures;
}) {
  const own = outcome.kind === 'pair' ? outcome.mine : outcome.in === 'mine' ? outcome.row : undefined;
  const recorded =
    outcome.kind === 'pair' ? outcome.record : outcome.in === 'record' ? outcome.row : undefined;
  return (
    <li className="correction">
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
      {recorded ? (
        <p className="hint">
          If the record is wrong, <a href={`/loads/${recorded.id}/correct`}>propose to put it right</a> or
          question its weight or test on the load’s page. If your list is wrong, put it right there and bring
          it again.
        </p>
      ) : null}
    </li>
  );
}

function rowWords({ ticket, deliveredOn, truck, net, unit, amount }: ListRow, figures: Figures): string {
  return [
    ticket === null ? 'no ticket' : `ticket ${ticket}`,
    deliveredOn,
    ...(truck === null ? [] : [`truck ${truck}`]),
    `${figures.show(net)} ${unit}`,
    ...(amount === null ? [] : [figures.show(amount)]),
  ].join(', ');
}
