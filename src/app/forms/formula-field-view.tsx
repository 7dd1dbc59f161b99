/**
 * The field that holds a whole agreement: its name, what was wrong with it as a whole, and the builder.
 */
import { FormulaBuilder } from '../builder/formula-builder.tsx';
import type { FormulaField } from './field.ts';
import type { FormState } from './form-state.ts';

export interface FormulaFieldViewProps {
  readonly field: FormulaField;
  readonly state: FormState;
}

export default function FormulaFieldView({ field, state }: FormulaFieldViewProps) {
  const { name, label, hint, draft, previous, lotTests, fixed, quotes, locale } = field;
  const problems = state.problems ?? [];
  const whole = problems.filter((problem) => problem.field === name);
  return (
    <section
      className="field-formula"
      id={`field-${name}`}
      tabIndex={-1}
      aria-labelledby={`field-${name}-label`}
    >
      <h2 id={`field-${name}-label`}>{label}</h2>
      {hint === undefined ? null : <p className="hint">{hint}</p>}
      {whole.map(({ message }) => (
        <p key={message} className="fault">
          {label} {message}
        </p>
      ))}
      <FormulaBuilder
        draft={draft}
        previous={previous}
        lotTests={lotTests}
        fixed={fixed}
        fieldName={name}
        sent={state.typed?.[name]}
        sentProblems={problems}
        quotes={quotes}
        locale={locale}
      />
    </section>
  );
}
