/**
 * A foldable panel of the builder: its name and one line about what it holds, and inside it the settings and whatever is
 * wrong there that no setting shows.
 */
'use client';

import type { ReactNode } from 'react';
import type { JsonPath } from '../../domain/agreement/problem.ts';
import { useBuilder } from './builder-context.tsx';
import { shownProblems, strayProblems } from './builder-problems.ts';
import { idOfPath } from './document-path.ts';
import { placeInWords } from './place-words.ts';
import { type Setting, startsWith } from './setting.ts';

export interface PanelProps {
  readonly at: JsonPath;
  readonly name: string;
  readonly summary: string;
  /** What is asked inside, so that faults elsewhere in this part find a place. */
  readonly settings: readonly Setting[];
  /** One of several panels for one part: only what its own settings show is its own. */
  readonly share?: string;
  readonly children: ReactNode;
}

export function Panel({ at, name, summary, settings, share, children }: PanelProps) {
  const { problems } = useBuilder();
  const own = share === undefined ? problems : shownProblems(problems, { at, settings });
  const within = own.filter(({ path }) => startsWith(path, at)).length;
  return (
    <details className="panel" id={share === undefined ? idOfPath(at) : `${idOfPath(at)}-${share}`}>
      <summary>
        <span className="panel-name">{name}</span>
        <span className="panel-summary">{summary}</span>
        {within === 0 ? null : (
          <span className="panel-faults">
            {within === 1 ? 'one thing to put right' : `${within} things to put right`}
          </span>
        )}
      </summary>
      <div className="panel-body">
        {share === undefined ? <StrayFaults at={at} settings={settings} /> : null}
        {children}
      </div>
    </details>
  );
}

/** Faults under a path that none of its settings shows. */
export function StrayFaults({ at, settings }: Pick<PanelProps, 'at' | 'settings'>) {
  const { problems, document } = useBuilder();
  return strayProblems(problems, { at, settings }).map(({ path, message }) => (
    <p key={`${idOfPath(path)} ${message}`} className="fault">
      {placeInWords(path, document)} {message}
    </p>
  ));
}
