/**
 * Differences of the two sides' books that nobody puts right: noted with their amount, agreed to, and named on both closing
 * statements. The record stays as it is.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../../../documents/figures.ts';
import type { SeasonNoteView } from '../../../../usecases/season-close/season-notes.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { putDifference } from '../../../season-notes/note-actions.ts';
import { aboutFields, differenceFields, type NoteParties } from '../../../season-notes/note-fields.ts';
import { NoteList } from '../../../season-notes/note-list.tsx';

export interface DifferencesPartProps {
  readonly notes: readonly SeasonNoteView[];
  readonly parties: NoteParties;
  readonly figures: Figures;
  /** Whether the reader may put and answer notes, and the season is not sealed. */
  readonly mayNote: boolean;
}

export function DifferencesPart({ notes, parties, figures, mayNote }: DifferencesPartProps) {
  if (notes.length === 0 && !mayNote) return null;
  return (
    <section aria-labelledby="differences">
      <h2 id="differences">Differences that are left standing</h2>
      <NoteList notes={notes} parties={parties} place="season-close" figures={figures} mayAnswer={mayNote} />
      {mayNote ? (
        <>
          <p className="hint">
            If your books say something else and neither of you puts it right, note it here. No money moves:
            the record counts, and both closing statements name the difference, so that neither office looks
            for it again.
          </p>
          <RecordForm
            action={putDifference}
            submit={`Put it to ${parties.partner}`}
            fields={[
              ...aboutFields(parties, 'season-close'),
              {
                kind: 'text',
                name: 'ticket',
                label: 'Load, by its ticket',
                hint: 'Leave it empty where it is about no single load.',
                optional: true,
              },
              ...differenceFields(parties),
            ]}
            requestKey={randomUUID()}
            scope="difference"
            folded={{ summary: 'Note a difference' }}
            quiet
          />
        </>
      ) : null}
    </section>
  );
}
