/**
 * Characters in the texts of a document that one of its two weights cannot draw, each with its place in the data.
 * Looked for before anything is drawn, so that a name is never printed with a letter missing.
 */
import type { Faces } from './typeface.ts';

export interface MissingCharacters {
  readonly kind: 'missing-characters';
  /** Such as "invoices[0].loads[2].truck". */
  readonly place: string;
  readonly text: string;
  /** Each once, in the order met. */
  readonly characters: readonly string[];
  readonly message: string;
}

type PlacedText = { readonly place: string; readonly text: string };

/** Every text in the data; names of keys count, since an agreement's own keys are printed. */
function* textsOf(value: unknown, place: string): Generator<PlacedText> {
  if (typeof value === 'string') {
    yield { place, text: value };
  } else if (Array.isArray(value)) {
    for (const [index, item] of value.entries()) yield* textsOf(item, `${place}[${index}]`);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value)) {
      const here = place === '' ? key : `${place}.${key}`;
      yield { place: here, text: key };
      yield* textsOf(item, here);
    }
  }
}

function codeName(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
}

/** All characters in the data that one of the two weights lacks, a problem for each text that holds some. `place` names the data. */
export function missingCharacters(
  { data, place }: { readonly data: unknown; readonly place: string },
  faces: Faces,
): MissingCharacters[] {
  const problems: MissingCharacters[] = [];
  const complete = new Set<string>();
  for (const { place: at, text } of textsOf(data, place)) {
    if (complete.has(text)) continue;
    const characters = [...new Set([...faces.regular.lacking(text), ...faces.semibold.lacking(text)])];
    if (characters.length === 0) {
      complete.add(text);
      continue;
    }
    const names = characters.map((character) => `“${character}” (${codeName(character)})`).join(', ');
    const message = `The document’s font cannot print ${names} in “${text}”.`;
    problems.push({ kind: 'missing-characters', place: at, text, characters, message });
  }
  return problems;
}
