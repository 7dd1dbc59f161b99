/**
 * How a load stands, in a sentence that both sides read alike.
 */

import type { LoadView } from '../../../usecases/loads/read-load.ts';
import { opening } from '../../place/sentence.ts';

export function LoadStanding({ load }: { readonly load: LoadView }) {
  const { standing, seller, buyer } = load;
  switch (standing.status) {
    case 'settled': {
      // The seller's charges can be more than the feed is worth.
      const isBack = standing.total.startsWith('−');
      const [debtor, creditor] = isBack ? [seller, buyer] : [buyer, seller];
      return (
        <div className="standing">
          <p>
            Settled: {debtor} owes {creditor}{' '}
            <strong className="total">
              {standing.total.replace('−', '')} {standing.currency}
            </strong>
            .
          </p>
          <p>
            <a className="plain-link" href={`/loads/${load.id}/invoice`}>
              Settlement of this load (PDF)
            </a>
          </p>
        </div>
      );
    }
    case 'ready':
      return (
        <p className="standing">
          All is known, and nothing is owed until it is settled. It would come to{' '}
          <strong className="total">
            {standing.total} {standing.currency}
          </strong>
          .
        </p>
      );
    case 'refused':
      return (
        <div className="standing">
          <p>
            {buyer} refused this load: {standing.detail}. Nothing is owed for it.
          </p>
          {load.wentTo === null ? null : <p>It went here: {load.wentTo}.</p>}
        </div>
      );
    case 'waiting':
      return <p className="standing">Not settled yet. {opening(standing.detail)}.</p>;
  }
}
