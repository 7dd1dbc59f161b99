/**
 * One load in the stack: its ticket, its strip, and how it stands.
 */
import type { LoadSummary, Standing } from '../../usecases/loads/read-load-list.ts';
import { LoadStripPicture } from '../strip/load-strip-picture.tsx';

export function LoadRow({
  load,
  showAgreement,
}: {
  readonly load: LoadSummary;
  readonly showAgreement: boolean;
}) {
  return (
    <li className="load">
      <div className="load-line">
        <a className="load-ticket" href={`/loads/${load.id}`}>
          {load.ticket}
        </a>
        <span className="load-when">
          {load.deliveredAt}
          {showAgreement ? ` · ${load.agreementNumber}` : ''}
        </span>
        <span className="load-weight">{load.strip.weight}</span>
        <StandingWord standing={load.standing} isTested={load.strip.water !== null} />
      </div>
      <LoadStripPicture load={load.strip} />
    </li>
  );
}

/** Words before colour: what a load came to, or what it waits for. */
function StandingWord({ standing, isTested }: { readonly standing: Standing; readonly isTested: boolean }) {
  switch (standing.status) {
    case 'settled':
      return (
        <span className="load-standing">
          <strong className="amount">{standing.total}</strong> {standing.currency}
        </span>
      );
    case 'ready':
      return (
        <span className="load-standing open">
          ready: would come to <span className="amount">{standing.total}</span> {standing.currency}
        </span>
      );
    case 'refused':
      return <span className="load-standing open">refused</span>;
    case 'waiting':
      return (
        <span className="load-standing open">
          {standing.reason === 'no-result' && isTested
            ? 'a figure is missing'
            : WAITING_WORDS[standing.reason]}
        </span>
      );
  }
}

const WAITING_WORDS: Readonly<Record<Extract<Standing, { status: 'waiting' }>['reason'], string>> = {
  'no-result': 'waits for a result',
  'choice-needed': 'waits for the buyer’s choice',
  'refusal-contested': 'refusal disputed',
  'no-quote': 'waits for a price',
  'not-elected': 'waits for a pricing date',
  'month-open': 'waits for the month’s end',
  'outside-table': 'outside the agreed table',
};
