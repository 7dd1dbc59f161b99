/**
 * What to do where there is nothing to list yet.
 */
import { mayDo, type Role } from '../../domain/parties/permissions.ts';
import { NoAgreement } from '../agreements/no-agreement.tsx';

export function EmptyLoads({ hasAgreement, role }: { readonly hasAgreement: boolean; readonly role: Role }) {
  if (!hasAgreement) return <NoAgreement mayRecord={mayDo(role, 'record-agreement')} />;
  return (
    <p>
      No load has been weighed yet.{' '}
      {mayDo(role, 'record-load') ? <a href="/loads/new">Weigh the first one.</a> : null}
    </p>
  );
}
