/**
 * Where the reader's party is, for distances to lots; nobody else's to see.
 */
import { randomUUID } from 'node:crypto';
import { permit } from '../../../usecases/context.ts';
import { readPlace } from '../../../usecases/lots/set-place.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { ask } from '../../server/ask.ts';
import { notePlace } from '../lot-actions.ts';

export const metadata = { title: 'Where you are' };

export default async function PlacePage() {
  const place = await ask(async (context) => {
    permit(context, 'make-offer');
    return await readPlace(context);
  });
  return (
    <div className="narrow">
      <h1>Where you are</h1>
      <p>
        Lots then show how far they are from you, as the crow flies. Nobody else sees this. A map on your
        phone gives both figures for the place under your finger; one decimal is enough.
      </p>
      <RecordForm
        action={notePlace}
        submit="Keep this place"
        requestKey={randomUUID()}
        fields={[
          {
            kind: 'row',
            fields: [
              {
                kind: 'text',
                name: 'latitude',
                label: 'Degrees north',
                hint: 'South of the equator with a minus sign.',
                value: place?.latitude ?? '',
              },
              {
                kind: 'text',
                name: 'longitude',
                label: 'Degrees east',
                hint: 'West of Greenwich, as in America, with a minus sign.',
                value: place?.longitude ?? '',
              },
            ],
          },
        ]}
      />
      <p className="hint">Empty both to take the place out of the record.</p>
    </div>
  );
}
