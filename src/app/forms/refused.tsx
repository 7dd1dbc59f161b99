/**
 * Why a form was refused: the sentence, and every fault with a way to its field.
 */
import { type Field, inputsOf } from './field.ts';
import type { FormState } from './form-state.ts';

export function Refused({ state, fields }: { readonly state: FormState; readonly fields: readonly Field[] }) {
  const inputs = inputsOf(fields);
  return (
    <div className="refused" role="alert">
      <p>{state.refused}</p>
      {state.problems === undefined || state.problems.length === 0 ? null : (
        <ul>
          {state.problems.map(({ field, message }) => {
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
