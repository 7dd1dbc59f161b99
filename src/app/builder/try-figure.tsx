/**
 * A figure to try a formula with. It belongs to the panel alone and is never sent with a form.
 */
'use client';

import { useId } from 'react';

export interface TryFigureProps {
  readonly label: string;
  readonly unit: string;
  readonly value: string;
  readonly isWrong: boolean;
  readonly type: (text: string) => void;
}

export function TryFigure({ label, unit, value, isWrong, type }: TryFigureProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="with-unit">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={value}
          aria-invalid={isWrong || undefined}
          aria-describedby={isWrong ? `${id}-fault` : undefined}
          onChange={({ target }) => type(target.value)}
          onKeyDown={(event) => {
            // A figure to look with must not send the form that it stands in.
            if (event.key === 'Enter') event.preventDefault();
          }}
        />
        <span className="unit">{unit}</span>
      </span>
      {isWrong ? (
        <p className="fault" id={`${id}-fault`}>
          This must be a number of 0 or more, like 4.25.
        </p>
      ) : null}
    </div>
  );
}
