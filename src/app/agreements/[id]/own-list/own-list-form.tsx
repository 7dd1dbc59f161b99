/**
 * The form of an own list: one form that grows with each step, and is sent as any form is, with or without scripts.
 */
'use client';

import { useActionState, useEffect, useRef } from 'react';
import type { OwnKind } from '../../../../domain/tables/wanted-columns.ts';
import { MatchView } from '../../../import/match-view.tsx';
import { bringOwnList } from './bring-own-list.ts';

export interface OwnListFormProps {
  readonly kind: OwnKind;
  readonly agreementId: string;
  /** A list is there already, and another takes its place. */
  readonly isAgain: boolean;
  /** Something of the lists waits to be looked at first. */
  readonly isQuiet: boolean;
}

const WORDS: Readonly<
  Record<OwnKind, Readonly<Record<'first' | 'again' | 'each' | 'look' | 'match', string>>>
> = {
  'own-loads': {
    first: 'Your list',
    again: 'A newer list',
    each: 'a line for each load',
    look: 'Look at the file',
    match: 'Match it with the record',
  },
  'own-payments': {
    first: 'Your list of payments',
    again: 'A newer list of payments',
    each: 'a line for each payment',
    look: 'Look at the payments',
    match: 'Match the payments with the record',
  },
};

export function OwnListForm({ kind, agreementId, isAgain, isQuiet }: OwnListFormProps) {
  const [state, send, isSending] = useActionState(bringOwnList, { turn: 0 });
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (state.turn > 0) top.current?.focus();
  }, [state.turn]);
  const { matched, match, refused, problems = [], text, fileName = '' } = state;
  const words = WORDS[kind];
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
      <input type="hidden" name="kind" value={kind} />
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
            <MatchView
              kind={kind}
              idStart={kind}
              fileName={fileName}
              matched={matched}
              match={match}
              isOpen
            />
            <div className="import-steps">
              <button type="submit" name="step" value="keep" className="act" disabled={isSending}>
                {words.match}
              </button>
              <a href={`/agreements/${agreementId}/own-list`}>Choose another file</a>
            </div>
          </>
        ) : (
          <>
            <div className="field">
              <label htmlFor={`${kind}-file`}>{isAgain ? words.again : words.first}</label>
              <p className="hint" id={`${kind}-hint`}>
                CSV, at most 10 MB, as your program saves it: {words.each}, and a first line that names the
                columns.
              </p>
              <input
                id={`${kind}-file`}
                type="file"
                name="file"
                accept=".csv,.txt,.tsv,text/csv"
                aria-describedby={`${kind}-hint`}
              />
            </div>
            <button
              type="submit"
              name="step"
              value="match"
              className={isQuiet ? 'quiet' : 'act'}
              disabled={isSending}
            >
              {words.look}
            </button>
          </>
        )}
      </div>
    </form>
  );
}
