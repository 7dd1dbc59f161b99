/**
 * Recording an agreement that both sides signed, from its file.
 */
import { randomUUID } from 'node:crypto';
import { permit } from '../../../usecases/context.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { type Asked, askedText } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { recordFile } from './record-file.ts';

export const metadata = { title: 'Record an agreement' };

export default async function NewAgreementPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const other = askedText(await searchParams, 'with');
  await ask(async (context) => permit(context, 'record-agreement'));
  return (
    <div className="narrow">
      <h1>Record an agreement</h1>
      <p>
        Both sides hold the same file; it names your farm or dairy and theirs as they are called here. Once
        recorded, every load under it is priced by it, and it is never changed.
      </p>
      <RecordForm
        action={recordFile}
        submit="Record this agreement"
        requestKey={randomUUID()}
        fields={[
          {
            kind: 'text',
            name: 'other',
            label: 'The other side’s number here',
            hint: 'It stands on their page “People and sign-ins”.',
            ...(other === undefined ? {} : { value: other }),
          },
          { kind: 'file', name: 'file', label: 'The agreement file', accept: '.json,application/json' },
          {
            kind: 'more',
            summary: 'Or paste its text',
            fields: [{ kind: 'lines', name: 'text', label: 'The file’s text' }],
          },
        ]}
      />
    </div>
  );
}
