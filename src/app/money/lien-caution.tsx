/**
 * That a lender is to be paid as well, where money is paid or liens are read.
 */
import type { AgreementPayments } from '../../usecases/money/read-payments.ts';
import { nameList } from './name-list.ts';

export interface LienCautionProps {
  readonly money: AgreementPayments;
  /** Whether the notices stand on the same page. */
  readonly isHere?: boolean;
}

export function LienCaution({ money, isHere = false }: LienCautionProps) {
  const { jointPayees, agreementId, side, seller } = money;
  if (jointPayees.length === 0) return null;
  const lenders = nameList(jointPayees);
  return (
    <div className="caution">
      <p>
        <strong>Each payment is to be made out to {nameList([seller, ...jointPayees])}, jointly.</strong>{' '}
        {lenders} {jointPayees.length === 1 ? 'has' : 'have'} a lien on the feed
        {isHere ? null : (
          <>
            {' ('}
            <a href={`/money/liens?agreement=${agreementId}`}>read the notice</a>)
          </>
        )}
        .
      </p>
      <p>
        {side === 'buyer' ? 'If you pay past a lender, you' : 'A buyer who pays past a lender'} may have to
        pay a second time. Local law decides; ask a licensed adviser before you pay any other way.
      </p>
    </div>
  );
}
