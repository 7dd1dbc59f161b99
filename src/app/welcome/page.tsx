/**
 * The first run: the first person and their farm or dairy. The page is there only while the record has nobody.
 */
import { redirect } from 'next/navigation';
import { isFirstRun } from '../../usecases/people/create-first-person.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { openedRecord } from '../server/record.ts';
import { begin } from './begin.ts';

export const metadata = { title: 'Begin' };

export default async function WelcomePage() {
  if (!(await isFirstRun(await openedRecord()))) redirect('/');
  return (
    <div className="narrow">
      <h1>Begin this record</h1>
      <p>
        Nobody is here yet. Whoever fills this in becomes the first owner: of one farm or dairy, with the
        right to invite its people and the other side.
      </p>
      <RecordForm
        action={begin}
        submit="Begin"
        fields={[
          { kind: 'text', name: 'name', label: 'Your name', autoComplete: 'name' },
          { kind: 'text', name: 'party', label: 'Your farm or dairy', autoComplete: 'organization' },
          { kind: 'text', name: 'email', label: 'E-mail address', keys: 'email', autoComplete: 'username' },
          {
            kind: 'password',
            name: 'password',
            label: 'Password',
            hint: '10 characters or more. A few words that only you would put together are good.',
            autoComplete: 'new-password',
          },
        ]}
      />
    </div>
  );
}
