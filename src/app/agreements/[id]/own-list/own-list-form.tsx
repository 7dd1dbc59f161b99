/**
 * The form of an own list: one form that grows with each step, and is sent as any form is, with or without scripts.
 */
'use client';

import { useActionState, useEffect, useRef } from 'react';
import { MatchView } from '../../../import/match-view.tsx';
import { bringOwnList } from './bring-own-list.ts';

export interface OwnListFormProps {
  readonly agreementId: string;
  /** A list is there already, and another takes its place. */
  readonly isAgain: boolean;
}

export function OwnListForm({ agreementId, isAgain }: OwnListFormProps) {
  const [state, send, isSending] = useActionState(bringOwnList, { turn: 0 });
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (state.turn > 0) top.current?.focus();
  }, [state.turn]);
  const { matched, match, refused, problems = [], text, fileName = '' } = state;
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
            <input type="hidden" name="file_name" value={fileName} />
            <textarea name="text" defaultValue={text} hidden aria-hidden="true" tabIndex={-1} />
            {matched.isRemembered ? (
              <p>
                A file with these columns was brought before. It is read as it was then, unless you change it.
              </p>
            ) : null}
            <MatchView kind="own-loads" fileName={fileName} matched={matched} match={match} isOpen />
            <div className="import-steps">
              <button type="submit" name="step" value="keep" className="act" disabled={isSending}>
                Match it with the record
              </button>
              <a href={`/agreements/${agreementId}/own-list`}>Choose another file</a>
            </div>
          </>
        ) : (
          <>
            <div className="field">
              <label htmlFor="field-file">{isAgain ? 'A newer list' : 'Your list'}</label>
              <p className="hint" id="hint-file">
                CSV, at most 10 MB, as your program saves it: a line for each load, and a first line that
                names the columns.
              </p>
              <input
                id="field-file"
                type="file"
                name="file"
                accept=".csv,.txt,.tsv,text/csv"
                aria-describedby="hint-file"
              />
            </div>
            <button
              type="submit"
              name="step"
              value="match"
              className={isAgain ? 'quiet' : 'act'}
              disabled={isSending}
            >
              Look at the file
            </button>
          </>
        )}
      </div>
    </form>
  );
}
