/**
 * What to do where there is no agreement yet.
 */
export function NoAgreement({ mayRecord }: { readonly mayRecord: boolean }) {
  if (!mayRecord) return <p>There is no agreement here yet. An owner of your party records it.</p>;
  return (
    <>
      <p>
        There is no agreement here yet. One comes of an offer on <a href="/lots">feed for sale</a> that both
        sides sign. One that you signed elsewhere is recorded:
      </p>
      <ol>
        <li>
          <a href="/people">Invite the other side</a>, unless they are here already.
        </li>
        <li>
          <a href="/agreements/new">Record the agreement</a> that you both signed.
        </li>
      </ol>
    </>
  );
}
