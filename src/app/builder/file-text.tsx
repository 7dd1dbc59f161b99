/**
 * The agreement file's own text: what the form sends. It follows the fields and can be typed or pasted as well, so
 * nothing is out of reach, and it works without scripts.
 */
'use client';

import type { BuilderState, Change } from './builder-state.ts';

export interface FileTextProps {
  readonly fieldName: string;
  readonly state: BuilderState;
  readonly change: (change: Change) => void;
}

export function FileText({ fieldName, state: { text, textFault }, change }: FileTextProps) {
  const id = 'formula-text';
  return (
    <details className="more-fields file-text" id="formula-file">
      <summary>The file’s text</summary>
      <div className="field">
        <label htmlFor={id}>The agreement file</label>
        <p className="hint" id={`${id}-hint`}>
          It follows the fields above. Change it here, or paste another file’s text, and the fields follow it.
        </p>
        <textarea
          id={id}
          name={fieldName}
          className="file-lines"
          rows={24}
          spellCheck={false}
          autoComplete="off"
          autoCapitalize="off"
          value={text}
          aria-invalid={textFault !== undefined || undefined}
          aria-describedby={`${id}-hint ${id}-fault`}
          onChange={({ target }) => change({ kind: 'type-text', text: target.value })}
        />
        <p className="fault" id={`${id}-fault`} role="status">
          {textFault === undefined
            ? null
            : `The text ${textFault}. The fields show what stood here before; changing one of them replaces this text.`}
        </p>
      </div>
    </details>
  );
}
