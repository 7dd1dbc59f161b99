/**
 * A scale of the party described anew, after a test or a repair.
 */
import { randomUUID } from 'node:crypto';
import { permit } from '../../../usecases/context.ts';
import { Refusal } from '../../../usecases/refusal.ts';
import { readScales } from '../../../usecases/scales/keep-scale.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { ask } from '../../server/ask.ts';
import { describeAnew } from '../scale-actions.ts';
import { scaleFields } from '../scale-fields.ts';

export const metadata = { title: 'Scale' };

export default async function ScalePage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const { id } = await params;
  const scale = await ask(async (context) => {
    permit(context, 'keep-scale');
    const found = (await readScales(context)).find((known) => known.id === id && known.isOwn);
    if (!found) throw new Refusal('not-found', 'There is no such scale of yours.');
    return found;
  });
  return (
    <div className="narrow">
      <p className="quiet-word">
        <a href="/scales">Scales</a>
      </p>
      <h1>{scale.name}</h1>
      <p>{scale.testInWords}</p>
      <p>
        What you change here becomes version {scale.version + 1}. Tickets that were weighed before keep the
        version they were weighed under.
      </p>
      <RecordForm
        action={describeAnew}
        submit="Record this version"
        fields={scaleFields(scale)}
        requestKey={randomUUID()}
      />
    </div>
  );
}
