/**
 * Why a form was refused: the sentence, and every fault with a way to its field.
 */
import { useContext } from 'react';
import { type Field, inputsOf } from './field.ts';
import { FormScope } from './form-scope.ts';
import type { FormState } from './form-state.ts';

export function Refused({ state, fields }: { readonly state: FormState; readonly fields: readonly Field[] }) {
  const scope = useContext(FormScope);
  const inputs = inputsOf(fields);
  const formula = inputs.find((input) => input.kind === 'formula');
  // The builder lists its own faults, each with a way to its field.
  const isWithin = (field: string | undefined) => formula !== undefined && field?.startsWith('$');
  const within = (state.problems ?? []).filter(({ field }) => isWithin(field)).length;
  const problems = (state.problems ?? []).filter(({ field }) => !isWithin(field));
  return (
    <div className="refused" role="alert">
      <p>{state.refused}</p>
      {formula === undefined || within === 0 ? null : (
        <p>
          <a href={`#field-${formula.name}`}>
            {formula.label}: {within === 1 ? 'one thing' : `${within} things`} to put right
          </a>
        </p>
      )}
      {problems.length === 0 ? null : (
        <ul>
          {problems.map(({ field, message }) => {
            const input = inputs.find(({ name, kind }) => name === field && kind !== 'hidden');
            const label = input && 'label' in input ? input.label : field;
            return (
              <li key={`${field} ${message}`}>
                {input && field !== undefined ? (
                  <a href={`#field-${scope}${field}`}>
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
