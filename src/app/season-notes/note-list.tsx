/**
 * Notes about a season, one below the other.
 */
import type { SeasonNoteView } from '../../usecases/season-close/season-notes.ts';
import { NoteItem, type NoteItemProps } from './note-item.tsx';

export interface NoteListProps extends Omit<NoteItemProps, 'note'> {
  readonly notes: readonly SeasonNoteView[];
}

export function NoteList({ notes, ...shown }: NoteListProps) {
  if (notes.length === 0) return null;
  return (
    <ul className="corrections">
      {notes.map((note) => (
        <NoteItem key={note.id} note={note} {...shown} />
      ))}
    </ul>
  );
}
