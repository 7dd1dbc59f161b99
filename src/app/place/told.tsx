/**
 * What was just done, at the top of the page that one comes back to.
 */
export function Told({ told }: { readonly told: string | undefined }) {
  return told === undefined ? null : (
    <p className="told" role="status">
      {told}
    </p>
  );
}
