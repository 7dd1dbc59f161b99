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
