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
