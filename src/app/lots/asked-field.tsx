/**
 * Fields of a form that only asks: small, with their fault beneath.
 */
import type { Option } from '../forms/field.ts';

interface AskedProps {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly fault?: string | undefined;
  readonly hint?: string | undefined;
  readonly isWide?: boolean;
}

export interface AskedFieldProps extends AskedProps {
  readonly placeholder?: string | undefined;
  /** Letters, where others are figures. */
  readonly isText?: boolean;
}

function idOf(name: string): string {
  return `asked-${name.replace(/[^A-Za-z0-9]+/g, '-')}`;
}

export function AskedField({ placeholder, isText = false, ...field }: AskedFieldProps) {
  const { name, value, fault } = field;
  return (
    <Asked field={field}>
      <input
        id={idOf(name)}
        name={name}
        type="text"
        inputMode={isText ? undefined : 'decimal'}
        autoComplete="off"
        defaultValue={value}
        placeholder={placeholder}
        aria-invalid={fault !== undefined || undefined}
        aria-describedby={`${idOf(name)}-notes`}
      />
    </Asked>
  );
}

export function AskedList({ options, ...field }: AskedProps & { readonly options: readonly Option[] }) {
  const { name, value } = field;
  return (
    <Asked field={field}>
      <select id={idOf(name)} name={name} defaultValue={value} aria-describedby={`${idOf(name)}-notes`}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </Asked>
  );
}

function Asked({
  field: { name, label, fault, hint, isWide = false },
  children,
}: {
  readonly field: AskedProps;
  readonly children: React.ReactNode;
}) {
  return (
    <div className={isWide ? 'asked-field wide' : 'asked-field'}>
      <label htmlFor={idOf(name)}>{label}</label>
      {children}
      <span id={`${idOf(name)}-notes`}>
        {fault === undefined ? null : (
          <span className="fault">
            {label} {fault}
          </span>
        )}
        {hint === undefined ? null : <span className="hint">{hint}</span>}
      </span>
    </div>
  );
}
