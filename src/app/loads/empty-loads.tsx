/**
 * What to do where there is nothing to list yet.
 */
export function EmptyLoads({ hasAgreement }: { readonly hasAgreement: boolean }) {
  return hasAgreement ? (
    <p>
      No load has been weighed yet. <a href="/loads/new">Weigh the first one.</a>
    </p>
  ) : (
    <>
      <p>There is no agreement here yet, so there is nothing to weigh for.</p>
      <p>
        <a href="/people">Invite the other side</a>, then record the agreement that you both signed.
      </p>
    </>
  );
}
