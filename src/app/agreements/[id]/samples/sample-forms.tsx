/**
 * The forms of whoever takes samples, with what they must know before going near the feed.
 */
import type { SamplesView } from '../../../../usecases/samples/read-samples.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { recordHandover, recordParts, recordTaking } from './sample-actions.ts';
import { handoverFields, partFields, type Taken, takingFields } from './sample-fields.ts';

export interface SampleFormsProps {
  readonly view: SamplesView;
  readonly taken: Taken;
  /** The part that is handed over. */
  readonly partId: string | undefined;
  /** A request key for each form. */
  readonly keys: readonly [string, string, string];
}

export function SampleForms({ view, taken, partId, keys }: SampleFormsProps) {
  const { agreementId, sample, ticket } = taken;
  const part = view.samples.flatMap(({ parts }) => parts).find(({ id }) => id === partId);
  const isTaken = view.samples.some((known) => known.sample === sample && known.taking);
  return (
    <>
      {part ? (
        <section aria-labelledby="hand-over" className="narrow">
          <h2 id="hand-over">Hand over the part under seal {part.seal}</h2>
          <RecordForm
            action={recordHandover}
            submit="Record the hand-over"
            fields={handoverFields(part, taken)}
            requestKey={keys[2]}
            scope="hand-over"
          />
        </section>
      ) : null}
      <section aria-labelledby="taking">
        <h2 id="taking">When a sample is taken</h2>
        {view.cautions.map(({ words, body }) => (
          <p key={words} className="caution">
            {words} <span className="quiet-word">({body})</span>
          </p>
        ))}
        <details
          className="more-fields"
          id="take"
          open={(sample !== undefined && !isTaken) || ticket !== undefined}
        >
          <summary>Record that a sample was taken</summary>
          <div className="narrow">
            <RecordForm
              action={recordTaking}
              submit="Record the sample"
              fields={takingFields(view, taken)}
              requestKey={keys[0]}
              scope="take"
            />
          </div>
        </details>
        <details className="more-fields" id="seal" open={isTaken}>
          <summary>Seal parts of a sample</summary>
          <RecordForm
            action={recordParts}
            submit="Record the sealed parts"
            fields={partFields(agreementId, sample)}
            requestKey={keys[1]}
            scope="seal"
          />
        </details>
      </section>
    </>
  );
}
