/**
 * The import form: one form that grows with each step, and is sent as any form is, with or without scripts.
 */
'use client';

import { useActionState, useEffect, useRef } from 'react';
import type { ImportKind } from '../../domain/tables/wanted-columns.ts';
import { bringFile } from './bring-file.ts';
import { ImportPreviewView } from './import-preview-view.tsx';
import type { ImportState } from './import-state.ts';
import { MatchView } from './match-view.tsx';

const KIND_LABELS: Readonly<Record<ImportKind, string>> = {
  tickets: 'Scale tickets',
  results: 'Laboratory results',
  quotes: 'Prices',
};

export interface ImportFormProps {
  readonly agreementId: string;
  readonly kinds: readonly ImportKind[];
}

export function ImportForm({ agreementId, kinds }: ImportFormProps) {
  const first: ImportState = { turn: 0, kind: kinds[0] ?? 'tickets' };
  const [state, send, isSending] = useActionState(bringFile, first);
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (state.turn > 0) top.current?.focus();
  }, [state.turn]);
  const { matched, match, preview, refused, problems = [], text, fileName = '' } = state;
  return (
    <form action={send} className="record-form import-form" noValidate>
      <div ref={top} tabIndex={-1} className="form-answer">
        {refused === undefined ? null : (
          <div className="refused" role="alert">
            <p>{refused}</p>
            {problems.length === 0 ? null : (
              <ul>
                {problems.map((problem) => (
                  <li key={problem}>{problem}</li>
                ))}
              </ul>
            )}
          </div>
        )}
      </div>
      <input type="hidden" name="agreement" value={agreementId} />
      <div key={state.turn} className="fields">
        {matched && match && text !== undefined ? (
          <>
            <input type="hidden" name="kind" value={state.kind} />
            <input type="hidden" name="file_name" value={fileName} />
            <textarea name="text" defaultValue={text} hidden aria-hidden="true" tabIndex={-1} />
            {preview ? <ImportPreviewView preview={preview} kind={state.kind} isSending={isSending} /> : null}
            <MatchView
              kind={state.kind}
              fileName={fileName}
              matched={matched}
              match={match}
              isOpen={preview === undefined}
            />
            <div className="import-steps">
              <button
                type="submit"
                name="step"
                value="preview"
                className={preview ? 'quiet' : 'act'}
                disabled={isSending}
              >
                {preview ? 'Look at it again' : 'See what would be recorded'}
              </button>
              <a href={`/import?agreement=${agreementId}`}>Choose another file</a>
            </div>
          </>
        ) : (
          <>
            <fieldset className="field field-choice">
              <legend>What is in the file?</legend>
              <div className="options">
                {kinds.map((kind) => (
                  <label key={kind} className="option">
                    <input type="radio" name="kind" value={kind} defaultChecked={kind === state.kind} />
                    <span>{KIND_LABELS[kind]}</span>
                  </label>
                ))}
              </div>
            </fieldset>
            <div className="field">
              <label htmlFor="field-file">The file</label>
              <p className="hint" id="hint-file">
                CSV, at most 10 MB, as your program saves it. Its first line must name the columns; which is
                which you say next.
              </p>
              <input
                id="field-file"
                type="file"
                name="file"
                accept=".csv,.txt,.tsv,text/csv"
                aria-describedby="hint-file"
              />
            </div>
            <button type="submit" name="step" value="match" className="act" disabled={isSending}>
              Look at the file
            </button>
            <p className="hint">Nothing is recorded until you have seen every row.</p>
          </>
        )}
      </div>
    </form>
  );
}
