/**
 * A defect that took the frame of the page with it, such as a database that does not answer.
 */
'use client';

import './look/ground.css';
import Defect from './error.tsx';

export default function FrameDefect({ error }: { readonly error: Error & { readonly digest?: string } }) {
  return (
    <html lang="en">
      <body>
        <title>Huskledger</title>
        <main>
          <Defect error={error} />
        </main>
      </body>
    </html>
  );
}
