/**
 * The inputs of the weighing form: large enough for gloves, with their units.
 */
'use client';

const UNITS = ['lb', 'kg', 'short-ton', 'tonne'];

export function UnitChoice(props: {
  readonly id: string;
  readonly value: string;
  readonly onChange: (unit: string) => void;
}) {
  return (
    <fieldset className="field">
      <legend>The scale weighs in</legend>
      <div className="options">
        {UNITS.map((unit) => (
          <label key={unit} className="option" htmlFor={`${props.id}-${unit}`}>
            <input
              id={`${props.id}-${unit}`}
              type="radio"
              name={`${props.id}-unit`}
              checked={props.value === unit}
              onChange={() => props.onChange(unit)}
            />
            {unit === 'short-ton' ? 'short ton' : unit}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export interface FieldProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly isLarge?: boolean;
  readonly unit?: string;
  readonly hint?: string;
  readonly type?: 'text' | 'datetime-local';
  readonly suggestions?: readonly string[];
}

export function Field({
  id,
  label,
  value,
  onChange,
  isLarge,
  unit,
  hint,
  type = 'text',
  suggestions,
}: FieldProps) {
  const input = (
    <input
      id={id}
      type={type}
      value={value}
      inputMode={isLarge || unit === '%' ? 'decimal' : undefined}
      autoComplete="off"
      className={isLarge ? 'large' : undefined}
      list={suggestions === undefined ? undefined : `${id}-list`}
      aria-describedby={hint === undefined ? undefined : `${id}-hint`}
      onChange={(event) => onChange(event.target.value)}
    />
  );
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {unit === undefined ? (
        input
      ) : (
        <span className="with-unit">
          {input}
          <span className="unit">{unit === 'short-ton' ? 'short ton' : unit}</span>
        </span>
      )}
      {hint === undefined ? null : (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {suggestions === undefined ? null : (
        <datalist id={`${id}-list`}>
          {suggestions.map((suggestion) => (
            <option key={suggestion} value={suggestion} />
          ))}
        </datalist>
      )}
    </div>
  );
}
