/**
 * One field of a form, with its label, its hint and its fault.
 */
import { Fragment, lazy } from 'react';
import { ChecksInput, ChoiceInput, ListInput } from './choice-inputs.tsx';
import type { Field, Given, InputField } from './field.ts';
import type { FormState } from './form-state.ts';
import { WallClockInput } from './wall-clock-input.tsx';

/** Most forms have no formula: its scripts are fetched where there is one. */
const FormulaFieldView = lazy(() => import('./formula-field-view.tsx'));

export function FieldView({ field, state }: { readonly field: Field; readonly state: FormState }) {
  switch (field.kind) {
    case 'hidden':
      return <input type="hidden" name={field.name} value={field.value} />;
    case 'more':
      return (
        <details
          className="more-fields"
          open={field.isOpen || field.fields.some(({ name, value }) => value || isTold(state, name))}
        >
          <summary>{field.summary}</summary>
          <div className="fields">
            {field.fields.map((inner) => (
              <Labelled key={inner.name} field={inner} state={state} />
            ))}
          </div>
        </details>
      );
    case 'row':
      return (
        <div className="field-row">
          {field.fields.map((inner) => (
            <Labelled key={inner.name} field={inner} state={state} />
          ))}
        </div>
      );
    case 'formula':
      return <FormulaFieldView field={field} state={state} />;
    default:
      return <Labelled field={field} state={state} />;
  }
}

function isTold({ problems = [], typed = {} }: FormState, name: string): boolean {
  return Boolean(typed[name]) || problems.some(({ field }) => field === name);
}

function Labelled({ field, state }: { readonly field: InputField; readonly state: FormState }) {
  const id = `field-${field.name}`;
  const faults = (state.problems ?? []).filter((problem) => problem.field === field.name);
  const notes = [
    ...(field.hint === undefined ? [] : [`${id}-hint`]),
    ...(faults.length ? [`${id}-fault`] : []),
  ];
  const given = {
    id,
    name: field.name,
    'aria-invalid': faults.length > 0 || undefined,
    'aria-describedby': notes.join(' ') || undefined,
  };
  const value = state.typed?.[field.name] ?? field.value ?? '';
  const isGroup = field.kind === 'choice' || field.kind === 'checks';
  const Label = isGroup ? 'legend' : 'label';
  const Box = isGroup ? 'fieldset' : 'div';
  return (
    <Box className={`field field-${field.kind}`} id={isGroup ? id : undefined}>
      <Label {...(isGroup ? {} : { htmlFor: id })}>
        {field.label}
        {field.optional ? <span className="quiet-word"> if known</span> : null}
      </Label>
      {field.hint === undefined ? null : (
        <p className="hint" id={`${id}-hint`}>
          {field.hint}
        </p>
      )}
      <Input field={field} value={value} given={given} typed={state.typed} />
      {faults.length === 0 ? null : (
        <p className="fault" id={`${id}-fault`}>
          {faults.map(({ message }, index) => (
            <Fragment key={message}>
              {index > 0 ? <br /> : null}
              {field.label} {message}
            </Fragment>
          ))}
        </p>
      )}
    </Box>
  );
}

interface InputProps {
  readonly field: InputField;
  readonly value: string;
  readonly given: Given;
  readonly typed: FormState['typed'];
}

function Input({ field, value, given, typed }: InputProps) {
  switch (field.kind) {
    case 'text': {
      const input = (
        <input
          {...given}
          type={field.keys === 'email' ? 'email' : 'text'}
          inputMode={field.keys}
          autoComplete={field.autoComplete ?? 'off'}
          defaultValue={value}
          className={field.large ? 'large' : undefined}
        />
      );
      if (field.unit === undefined) return input;
      return (
        <span className="with-unit">
          {input}
          <span className="unit">{field.unit}</span>
        </span>
      );
    }
    case 'password':
      return <input {...given} type="password" autoComplete={field.autoComplete} />;
    case 'lines':
      return <textarea {...given} defaultValue={value} rows={8} spellCheck={false} />;
    case 'file':
      return <input {...given} type="file" accept={field.accept} />;
    case 'date':
      return <input {...given} type="date" defaultValue={value} />;
    case 'wall-clock':
      return (
        <WallClockInput given={given} value={value} preset={field.value ?? ''} timeZone={field.timeZone} />
      );
    case 'choice':
      return <ChoiceInput given={given} value={value} options={field.options} />;
    case 'checks':
      return <ChecksInput given={given} options={field.options} ticked={field.ticked} typed={typed} />;
    case 'list':
      return <ListInput given={given} value={value} options={field.options} />;
  }
}
