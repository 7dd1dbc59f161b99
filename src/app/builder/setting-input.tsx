/**
 * The input of one setting. What the document holds is what is shown, even where it is wrong, so that nothing that was
 * typed or pasted is lost.
 */
'use client';

import type { JsonPath } from '../../domain/agreement/problem.ts';
import { type Place, useBuilder } from './builder-context.tsx';
import { readAt, shownText } from './document-path.ts';
import { tidyFigure } from './figure-text.ts';
import type { ListSetting, OneSetting, Option, TicksSetting } from './setting.ts';

/** What ties an input to its label, hint and faults. */
export interface Described {
  readonly id: string;
  readonly 'aria-invalid': true | undefined;
  readonly 'aria-describedby': string | undefined;
}

export interface SettingInputProps<Kind> {
  readonly setting: Kind;
  readonly at: JsonPath;
  readonly place: Place;
  readonly described: Described;
}

export function SettingInput({ setting, at, place, described }: SettingInputProps<OneSetting>) {
  const shown = shownText(place.value);
  switch (setting.kind) {
    case 'text': {
      const listId = setting.known ? `${described.id}-known` : undefined;
      return (
        <>
          <input
            {...described}
            type="text"
            autoComplete="off"
            list={listId}
            value={shown}
            onChange={({ target }) => place.write(target.value)}
          />
          {setting.known ? (
            <datalist id={listId}>
              {setting.known.map((name) => (
                <option key={name} value={name} />
              ))}
            </datalist>
          ) : null}
        </>
      );
    }
    case 'figure': {
      const input = (
        <input
          {...described}
          type="text"
          inputMode={setting.signed ? 'text' : 'decimal'}
          autoComplete="off"
          value={shown}
          onChange={({ target }) => place.write(target.value)}
          onBlur={({ target }) => {
            const tidy = tidyFigure(target.value);
            if (tidy !== target.value) place.write(tidy);
          }}
        />
      );
      if (setting.unit === undefined) return input;
      return (
        <span className="with-unit">
          {input}
          <span className="unit">{setting.unit}</span>
        </span>
      );
    }
    case 'date':
      return (
        <input
          {...described}
          type="date"
          value={shown}
          onChange={({ target }) => place.write(target.value)}
        />
      );
    case 'lines':
      return (
        <textarea
          {...described}
          rows={3}
          value={shown}
          onChange={({ target }) => place.write(target.value.replace(/[\r\n\t]+/g, ' '))}
        />
      );
    case 'list':
      return <ListInput setting={setting} at={at} place={place} described={described} />;
    case 'yes-no':
      return (
        <Select
          described={described}
          shown={shown}
          without="not said"
          options={[
            { value: 'true', label: 'yes' },
            { value: 'false', label: 'no' },
          ]}
          choose={(chosen) => place.write(chosen === '' ? undefined : chosen === 'true')}
        />
      );
    case 'tick':
      return (
        <label className="option" htmlFor={described.id}>
          <input
            {...described}
            type="checkbox"
            checked={place.value === setting.ticked}
            onChange={({ target }) => place.write(target.checked ? setting.ticked : undefined)}
          />
          {setting.label}
        </label>
      );
    case 'ticks':
      return <TicksInput setting={setting} at={at} place={place} described={described} />;
  }
}

function ListInput({ setting, at, place, described }: SettingInputProps<ListSetting>) {
  const { document, change } = useBuilder();
  const { group, path, options, without } = setting;
  const choose = (chosen: string) => {
    if (chosen === '' || !group) return place.write(chosen);
    const holder = [...at, ...path.slice(0, -1)];
    return change({ kind: 'write', path: holder, value: group(chosen, readAt(document, holder)) });
  };
  return (
    <Select
      described={described}
      shown={shownText(place.value)}
      options={options}
      without={without}
      choose={choose}
    />
  );
}

interface SelectProps {
  readonly described: Described;
  readonly shown: string;
  readonly options: readonly Option[];
  readonly without: string | undefined;
  readonly choose: (value: string) => void;
}

/** One of many; what the document holds is among them, even where the format knows no such word. */
function Select({ described, shown, options, without, choose }: SelectProps) {
  const isKnown = shown === '' || options.some(({ value }) => value === shown);
  return (
    <select {...described} value={shown} onChange={({ target }) => choose(target.value)}>
      {without !== undefined || shown === '' ? <option value="">{without ?? 'Choose…'}</option> : null}
      {isKnown ? null : <option value={shown}>{shown}</option>}
      {options.map(({ value, label }) => (
        <option key={value} value={value}>
          {label}
        </option>
      ))}
    </select>
  );
}

function TicksInput({ setting, place, described }: SettingInputProps<TicksSetting>) {
  const held: readonly unknown[] = Array.isArray(place.value) ? place.value : [];
  const unknown = held.filter((word) => !setting.options.some(({ value }) => value === word)).map(shownText);
  const options = [...setting.options, ...unknown.map((word) => ({ value: word, label: word }))];
  return (
    <div className="options">
      {options.map(({ value, label }) => (
        <label key={value} className="option" htmlFor={`${described.id}-${value}`}>
          <input
            type="checkbox"
            id={`${described.id}-${value}`}
            checked={held.some((word) => shownText(word) === value)}
            onChange={({ target }) =>
              place.write(
                target.checked ? [...held, value] : held.filter((word) => shownText(word) !== value),
              )
            }
          />
          {label}
        </label>
      ))}
    </div>
  );
}
