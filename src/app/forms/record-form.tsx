/**
 * A form drawn from its fields. It is sent as any form is, with or without scripts; with them, the refusal appears
 * without a new page, and a time that was left alone keeps up with the clock.
 */
'use client';

import { type ReactNode, useActionState, useEffect, useRef } from 'react';
import type { Field } from './field.ts';
import { inputsOf } from './field.ts';
import { FieldView } from './field-view.tsx';
import { FormScope } from './form-scope.ts';
import { type FormAction, type FormState, NOTHING_YET } from './form-state.ts';
import { Refused } from './refused.tsx';

export interface RecordFormProps {
  readonly action: FormAction;
  readonly fields: readonly Field[];
  /** What the button says. */
  readonly submit: string;
  /** Sent with the form so that sending twice records once. */
  readonly requestKey?: string;
  /** For a button that should not draw the eye. */
  readonly quiet?: boolean;
  /** Tells this form's fields from those of the same name in another form of the page. */
  readonly scope?: string;
  /** Folds the form away under these words; an answer unfolds it, with scripts or without. */
  readonly folded?: { readonly summary: ReactNode; readonly isOpen?: boolean };
}

export function RecordForm({
  action,
  fields,
  submit,
  requestKey,
  quiet = false,
  scope = '',
  folded,
}: RecordFormProps) {
  const [state, send, isSending] = useActionState(action, NOTHING_YET);
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (state.turn > 0) top.current?.focus();
  }, [state.turn]);
  const shown = state.asked ? [state.asked, ...fields] : fields;
  const form = (
    <form action={send} className="record-form" noValidate>
      <div ref={top} tabIndex={-1} className="form-answer">
        <Answer state={state} fields={shown} />
      </div>
      {requestKey === undefined ? null : <input type="hidden" name="key" value={state.key || requestKey} />}
      <div key={state.turn} className="fields">
        {shown.map((field) => (
          <FieldView
            key={'name' in field ? field.name : inputsOf([field])[0]?.name}
            field={field}
            state={state}
          />
        ))}
      </div>
      <button type="submit" className={quiet ? 'quiet' : 'act'} disabled={isSending}>
        {submit}
      </button>
    </form>
  );
  return (
    <FormScope value={scope === '' ? '' : `${scope}-`}>
      {folded ? (
        <details className="more-fields" open={state.turn > 0 || folded.isOpen}>
          <summary>{folded.summary}</summary>
          {form}
        </details>
      ) : (
        form
      )}
    </FormScope>
  );
}

function Answer({ state, fields }: { readonly state: FormState; readonly fields: readonly Field[] }) {
  if (state.refused !== undefined) return <Refused state={state} fields={fields} />;
  if (state.told === undefined) return null;
  return (
    <div className="told" role="status">
      <p>{state.told}</p>
      {state.link === undefined ? null : (
        <p>
          <code className="link-shown">{state.link}</code>
        </p>
      )}
      {state.next === undefined ? null : (
        <p>
          <a href={state.next.to}>{state.next.label}</a>
        </p>
      )}
    </div>
  );
}
