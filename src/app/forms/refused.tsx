/**
 * Why a form was refused: the sentence, and every fault with a way to its field.
 */
import { placeInWords } from '../builder/builder-problems.ts';
import { idOfPath, parsePath } from '../builder/document-path.ts';
import { type Field, inputsOf } from './field.ts';
import type { FormState } from './form-state.ts';

export function Refused({ state, fields }: { readonly state: FormState; readonly fields: readonly Field[] }) {
  const inputs = inputsOf(fields);
  const formula = inputs.find((input) => input.kind === 'formula');
  return (
    <div className="refused" role="alert">
      <p>{state.refused}</p>
      {state.problems === undefined || state.problems.length === 0 ? null : (
        <ul>
          {state.problems.map(({ field, message }) => {
            const path = formula && field !== undefined ? parsePath(field) : undefined;
            if (path) {
              return (
                <li key={`${field} ${message}`}>
                  <a href={`#${idOfPath(path)}`}>
                    {placeInWords(path, sentDocument(state, formula?.name))} {message}
                  </a>
                </li>
              );
            }
            const input = inputs.find(({ name, kind }) => name === field && kind !== 'hidden');
            const label = input && 'label' in input ? input.label : field;
            return (
              <li key={`${field} ${message}`}>
                {input && field !== undefined ? (
                  <a href={`#field-${field}`}>
                    {label} {message}
                  </a>
                ) : (
                  [label, message].filter((part) => part !== undefined).join(' ')
                )}
              </li>
            );
          })}
        </ul>
      )}
    </div>
  );
}

/** The agreement as it was sent, for the names of its parts; undefined where its text is no JSON. */
function sentDocument({ typed }: FormState, name: string | undefined): unknown {
  try {
    return JSON.parse(typed?.[name ?? ''] ?? '');
  } catch {
    return undefined;
  }
}
