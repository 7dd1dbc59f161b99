/**
 * What to do where there is nothing to list yet.
 */
import { mayDo, type Role } from '../../domain/parties/permissions.ts';
import { NoAgreement } from '../agreements/no-agreement.tsx';

export interface EmptyLoadsProps {
  readonly hasAgreement: boolean;
  /** Whether the reader's party is a side of one; else it advises. */
  readonly isPartner: boolean;
  /** Others let the party enter their results, which is all that most laboratories do here. */
  readonly isLaboratory: boolean;
  readonly role: Role;
}

export function EmptyLoads({ hasAgreement, isPartner, isLaboratory, role }: EmptyLoadsProps) {
  if (!hasAgreement && isLaboratory) return null;
  if (!hasAgreement) return <NoAgreement mayRecord={mayDo(role, 'record-agreement')} />;
  return (
    <p>
      No load has been weighed yet.{' '}
      {isPartner && mayDo(role, 'record-load') ? <a href="/loads/new">Weigh the first one.</a> : null}
    </p>
  );
}
