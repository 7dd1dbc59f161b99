/**
 * Which payments, due by when, to be paid on which day: a form that only asks, so the address holds all of it.
 */
import type { Buying, InstructionWanted } from '../../../usecases/money/instruct-payment.ts';
import type { Problem } from '../../../usecases/refusal.ts';

export interface InstructionFormProps {
  readonly buying: readonly Buying[];
  readonly wanted: InstructionWanted;
  readonly problems: readonly Problem[];
}

export function InstructionForm({ buying, wanted, problems }: InstructionFormProps) {
  return (
    <form method="get" action="/money/instruction" className="record-form">
      <div className="fields">
        {buying.length < 2 ? null : (
          <div className="field">
            <label htmlFor="instruction-agreement">Agreement</label>
            <select id="instruction-agreement" name="agreement" defaultValue={wanted.agreementId ?? ''}>
              <option value="">all under which you buy</option>
              {buying.map(({ agreementId, number, partner }) => (
                <option key={agreementId} value={agreementId}>
                  {number} with {partner}
                </option>
              ))}
            </select>
          </div>
        )}
        <div className="field-row">
          <Day name="due_by" label="Everything due by" value={wanted.dueBy} problems={problems} />
          <Day name="pay_on" label="The bank pays on" value={wanted.payOn} problems={problems} />
        </div>
      </div>
      <button type="submit" className="quiet">
        Show what it would pay
      </button>
    </form>
  );
}

interface DayProps {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly problems: readonly Problem[];
}

function Day({ name, label, value, problems }: DayProps) {
  const fault = problems.find(({ column }) => column === name)?.message;
  return (
    <div className="field">
      <label htmlFor={`instruction-${name}`}>{label}</label>
      <input
        id={`instruction-${name}`}
        name={name}
        type="date"
        defaultValue={value}
        aria-invalid={fault !== undefined || undefined}
        aria-describedby={fault === undefined ? undefined : `instruction-${name}-fault`}
      />
      {fault === undefined ? null : (
        <p className="fault" id={`instruction-${name}-fault`}>
          {label} {fault}
        </p>
      )}
    </div>
  );
}
