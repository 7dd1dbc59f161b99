/**
 * Fields that choose: a few in sight, or many in a list.
 */
import type { Given, Option } from './field.ts';

interface ChoosingProps {
  readonly given: Given;
  readonly value: string;
  readonly options: readonly Option[];
}

export function ChoiceInput({ given: { id, name, ...described }, value, options }: ChoosingProps) {
  return (
    <div className="options" {...described}>
      {options.map((option) => (
        <label key={option.value} className="option" htmlFor={`${id}-${option.value}`}>
          <input
            type="radio"
            id={`${id}-${option.value}`}
            name={name}
            value={option.value}
            defaultChecked={option.value === value}
          />
          {option.label}
        </label>
      ))}
    </div>
  );
}

interface TickingProps extends Omit<ChoosingProps, 'value'> {
  readonly ticked: readonly string[];
  /** What was sent, where the form came back. */
  readonly typed: Readonly<Record<string, string>> | undefined;
}

export function ChecksInput({ given: { id, name, ...described }, options, ticked, typed }: TickingProps) {
  return (
    <div className="options" {...described}>
      {options.map(({ value, label }) => (
        <label key={value} className="option" htmlFor={`${id}-${value}`}>
          <input
            type="checkbox"
            id={`${id}-${value}`}
            name={`${name}.${value}`}
            value="yes"
            defaultChecked={typed ? typed[`${name}.${value}`] === 'yes' : ticked.includes(value)}
          />
          {label}
        </label>
      ))}
    </div>
  );
}

export function ListInput({ given, value, options }: ChoosingProps) {
  return (
    <select {...given} defaultValue={value}>
      {options.map((option) => (
        <option key={option.value} value={option.value}>
          {option.label}
        </option>
      ))}
    </select>
  );
}
