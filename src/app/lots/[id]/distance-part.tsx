/**
 * How far a lot is by road, as a buyer notes it for itself.
 */
import { randomUUID } from 'node:crypto';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { noteDistance } from '../lot-actions.ts';

export function DistancePart({ view: { summary, road, hasPlace } }: { readonly view: LotView }) {
  return (
    <section>
      <h2>How far it is</h2>
      <RecordForm
        action={noteDistance}
        submit="Keep this distance"
        requestKey={randomUUID()}
        quiet
        fields={[
          { kind: 'hidden', name: 'lot', value: summary.id },
          {
            kind: 'row',
            fields: [
              {
                kind: 'text',
                name: 'length',
                label: 'By road, one way',
                hint: 'Only you see it. Empty it to go by the crow again.',
                keys: 'decimal',
                value: road?.length ?? '',
              },
              {
                kind: 'choice',
                name: 'unit',
                label: 'in',
                value: road?.unit ?? (summary.ton === 'tonne' ? 'km' : 'mile'),
                options: [
                  { value: 'mile', label: 'miles' },
                  { value: 'km', label: 'km' },
                ],
              },
            ],
          },
        ]}
      />
      {hasPlace ? null : (
        <p className="hint">
          Or <a href="/lots/place">say where you are</a>, for rough distances to every lot.
        </p>
      )}
    </section>
  );
}
