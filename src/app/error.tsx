/**
 * A defect of ours: bland to the reader, with the reference under which the server's log tells it in full.
 */
'use client';

export default function Defect({ error }: { readonly error: Error & { readonly digest?: string } }) {
  return (
    <div className="narrow">
      <h1>Something is wrong on our side</h1>
      <p>
        Load the page again in a moment. If it stays, tell whoever runs this record
        {error.digest === undefined ? '.' : ` the reference ${error.digest}: the log has the rest.`}
      </p>
    </div>
  );
}
