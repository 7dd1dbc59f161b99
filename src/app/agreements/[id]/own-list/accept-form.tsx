/**
 * One button of a row that does not agree: that the record is right, or to take that back.
 */
import { randomUUID } from 'node:crypto';
import type { OwnKind } from '../../../../domain/tables/wanted-columns.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { sayAccepted } from './list-actions.ts';

export interface AcceptFormProps {
  readonly agreementId: string;
  readonly kind: OwnKind;
  readonly fingerprint: string;
  readonly isAccepted: boolean;
}

export function AcceptForm({ agreementId, kind, fingerprint, isAccepted }: AcceptFormProps) {
  return (
    <RecordForm
      action={sayAccepted}
      submit={isAccepted ? 'No longer accept it' : 'The record is right'}
      requestKey={randomUUID()}
      scope={`accept-${fingerprint}`}
      quiet
      fields={[
        { kind: 'hidden', name: 'agreement', value: agreementId },
        { kind: 'hidden', name: 'kind', value: kind },
        { kind: 'hidden', name: 'fingerprint', value: fingerprint },
        { kind: 'hidden', name: 'word', value: isAccepted ? 'taken-back' : 'accepted' },
      ]}
    />
  );
}

/** Said once, above the rows. */
export function AcceptHint() {
  return (
    <p className="hint">
      Where you leave a row as the record has it, press “The record is right”. Only your side sees that. It
      changes nothing in the record or in your list, and the row is open again if either of them changes.
    </p>
  );
}
