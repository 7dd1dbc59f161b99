/**
 * A note between an adviser and whoever asked for the advice. Nobody else ever sees it.
 */
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { insertNote } from '../../store/rows/advice-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { badInput } from '../read-input-rows.ts';
import { findRunningAdvice, otherOf, personName } from './find-advice.ts';

export interface NoteToWrite {
  readonly adviceId: string;
  readonly text: string;
  readonly key?: string;
}

const LONGEST_NOTE = 4_000;

/** Returns the note's id. Refuses `not-allowed`, `bad-input`, `not-found`, `advice-over`. */
export async function writeNote(
  context: Context,
  { adviceId, text, key }: NoteToWrite,
): Promise<{ readonly noteId: string }> {
  permit(context, 'advise');
  const words = readNoteText(text);
  const asked = { verb: 'write-note', subject: adviceId, key, input: { words } };
  return await doOnce(context, asked, async (tx) => {
    const advice = await findRunningAdvice(tx, adviceId);
    const noteId = context.newId();
    await insertNote(tx, {
      adviceId,
      id: noteId,
      byPartyId: context.caller.partyId,
      byName: await personName(tx, context),
      text: words,
      writtenAt: stamp(context),
    });
    const { id: partyId } = otherOf(advice, context);
    await tell(tx, context, [{ partyId, kind: 'advice-note', subjectId: adviceId }]);
    return { noteId };
  });
}

function readNoteText(text: string): string {
  // Line ends are a writer's own; other control characters are not.
  const words = text.replace(/\r\n?/g, '\n').trim();
  const column = 'text';
  if (words === '') throw badInput([{ column, message: 'must say something' }]);
  if (words.length > LONGEST_NOTE) {
    throw badInput([{ column, message: `must have at most ${LONGEST_NOTE} characters` }]);
  }
  if (CONTROL_CHARACTER.test(words.replaceAll('\n', ' '))) {
    throw badInput([{ column, message: 'has characters that cannot be shown; type it anew' }]);
  }
  return words;
}
