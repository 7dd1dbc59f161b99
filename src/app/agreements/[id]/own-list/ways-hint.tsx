/**
 * How a row that does not agree can end, said once above the first of them.
 */
export interface WaysHintProps {
  readonly agreementId: string;
  readonly partner: string;
  /** Nothing is put right or left standing any more; one's own word about a row is private, and stays free. */
  readonly isSealed: boolean;
}

export function WaysHint({ agreementId, partner, isSealed }: WaysHintProps) {
  return (
    <div className="hint">
      <p>
        {isSealed
          ? 'Its season is sealed, so the record stays as it is.'
          : 'How a row that does not agree can end:'}
      </p>
      <ul>
        {isSealed ? null : (
          <li>
            If the record is wrong, put the load right, or question its weight or test on its own page. A
            payment is put right among <a href={`/money/payments?agreement=${agreementId}`}>the payments</a>.
          </li>
        )}
        <li>If your list is wrong, put it right in your office and bring it again.</li>
        <li>
          If you give way, press “The record is right”. Only your side sees that. It changes nothing in the
          record or in your list, and the row is open again if either of them changes.
        </li>
        {isSealed ? null : (
          <li>
            If neither gives way, use “Leave it standing”. {partner} has to agree, both closing statements
            name the difference, and no money moves.
          </li>
        )}
      </ul>
    </div>
  );
}
