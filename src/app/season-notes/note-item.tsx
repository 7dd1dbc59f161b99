/**
 * One note about a season: what it says, how it stands, and what the reader may answer.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../documents/figures.ts';
import { differenceInWords, pastSeasonInWords } from '../../domain/words/season-note-words.ts';
import type { SeasonNoteView } from '../../usecases/season-close/season-notes.ts';
import type { Field } from '../forms/field.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { agreeToNote, refuseNote, takeNoteBack } from './note-actions.ts';
import { aboutFields, type NoteParties, type NotePlace } from './note-fields.ts';

export interface NoteItemProps {
  readonly note: SeasonNoteView;
  readonly parties: NoteParties;
  readonly place: NotePlace;
  readonly figures: Figures;
  readonly mayAnswer: boolean;
}

export function NoteItem({ note, parties, place, figures, mayAnswer }: NoteItemProps) {
  const { seller, buyer, currency } = parties;
  const words = { seller, buyer, money: (amount: string) => `${figures.show(amount)} ${currency}` };
  return (
    <li className="correction">
      <p>
        <strong>
          {note.kind === 'difference' ? differenceInWords(note, words) : pastSeasonInWords(note, words)}
        </strong>{' '}
        “{note.reason}”
      </p>
      <p className="quiet-word">{standingOf(note, parties)}</p>
      {note.documentId === null ? null : (
        <p>
          <a href={`/money/documents/${note.documentId}`}>The note that was issued</a>
        </p>
      )}
      {note.standing === 'open' && mayAnswer ? (
        <Answers
          note={note}
          parties={parties}
          place={place}
          owed={`${note.amount.startsWith('-') ? seller : buyer} owes ${words.money(note.amount.replace('-', ''))}`}
        />
      ) : null}
    </li>
  );
}

function standingOf(
  { by, isOurs, on, standing, answeredOn, answerReason }: SeasonNoteView,
  { partner }: NoteParties,
): string {
  const put = `Put by ${isOurs ? 'your side' : by} on ${on}`;
  const other = isOurs ? partner : 'your side';
  switch (standing) {
    case 'open':
      return isOurs ? `${put}; ${partner} has not answered.` : `${put}; it waits for your answer.`;
    case 'confirmed':
      return `${put}; ${other} agreed on ${answeredOn}.`;
    case 'refused':
      return `${put}; ${other} refused on ${answeredOn}: “${answerReason ?? ''}”`;
    case 'withdrawn':
      return `${put}, and taken back on ${answeredOn}.`;
  }
}

function Answers({
  note,
  parties,
  place,
  owed,
}: Pick<NoteItemProps, 'note' | 'parties' | 'place'> & { readonly owed: string }) {
  const about: readonly Field[] = [
    ...aboutFields(parties, place),
    { kind: 'hidden', name: 'note', value: note.id },
  ];
  if (note.isOurs) {
    return (
      <RecordForm
        action={takeNoteBack}
        submit="Take it back"
        fields={about}
        requestKey={randomUUID()}
        scope={`back-${note.id}`}
        quiet
      />
    );
  }
  return (
    <>
      <RecordForm
        action={agreeToNote}
        submit={note.kind === 'difference' ? 'Agree to leave it standing' : `Agree: ${owed}`}
        fields={about}
        requestKey={randomUUID()}
        scope={`agree-${note.id}`}
      />
      <RecordForm
        action={refuseNote}
        submit="Refuse it"
        fields={[...about, { kind: 'text', name: 'reason', label: 'Why not' }]}
        requestKey={randomUUID()}
        scope={`refuse-${note.id}`}
        folded={{ summary: 'Refuse it' }}
        quiet
      />
    </>
  );
}
