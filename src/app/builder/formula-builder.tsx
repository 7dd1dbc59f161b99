/**
 * The formula builder: the whole agreement file in plain fields, with its words and what it does beside it. It stands
 * inside an ordinary form, which sends the file's text; without scripts that text is the form.
 */
'use client';

import { type KeyboardEvent, useDeferredValue, useEffect, useMemo, useReducer, useState } from 'react';
import type { Agreement } from '../../domain/agreement/document.ts';
import type { FieldProblem } from '../forms/form-state.ts';
import { BlocksPart } from './blocks-part.tsx';
import { type Builder, BuilderContext } from './builder-context.tsx';
import { sentProblems, tellProblems } from './builder-problems.ts';
import { beginState, changeState } from './builder-state.ts';
import { type CheckedDraft, checkDraft } from './check-draft.ts';
import { type Draft, shownText } from './document-path.ts';
import { FileText } from './file-text.tsx';
import type { FixedKey } from './fixed-key.ts';
import { goToPlace, useWaysToPlaces } from './go-to-place.ts';
import { HeadPart } from './head-part.tsx';
import { PricePart } from './price-part.tsx';
import { ProblemList } from './problem-list.tsx';
import { ReferencesPart } from './references-part.tsx';
import { TemplateChoice } from './template-choice.tsx';
import { TestsPart } from './tests-part.tsx';
import { WhatItDoes } from './what-it-does.tsx';
import { WordsPanel } from './words-panel.tsx';

export interface FormulaBuilderProps {
  /** The document to start from. */
  readonly draft: Draft;
  /** What it is compared with. */
  readonly previous?: Draft | undefined;
  /** A lot's tests: figures by measure, constituents in percent of dry matter. */
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  /** Keys that are shown and cannot be changed here. */
  readonly fixed: readonly FixedKey[];
  readonly fieldName: string;
  /** The file's text as it was sent, where it came back. */
  readonly sent?: string | undefined;
  /** What the refusal said of it, by paths like `$.price[2].rate`. */
  readonly sentProblems?: readonly FieldProblem[] | undefined;
  /** Latest quotes by reference, to try it with. */
  readonly quotes?: Readonly<Record<string, string>> | undefined;
  readonly locale?: string | undefined;
}

export function FormulaBuilder(props: FormulaBuilderProps) {
  const { draft, previous, lotTests, fixed, fieldName, sent, quotes, locale } = props;
  const [state, change] = useReducer(changeState, undefined, () => beginState(draft, sent));
  const begun = useMemo(() => beginState(draft, sent).document, [draft, sent]);
  const { document } = state;
  const checked = useMemo(() => ({ ...checkDraft(document), document }), [document]);
  const problems = useMemo(
    () =>
      tellProblems([
        ...checked.problems,
        ...sentProblems(props.sentProblems ?? [], { sent: begun, now: document }),
      ]),
    [checked, document, begun, props.sentProblems],
  );
  const builder = useMemo<Builder>(
    () => ({
      document,
      change,
      problems,
      fixed,
      currency: shownText(document['currency']) || 'money',
    }),
    [document, problems, fixed],
  );
  // The words and the prices may come a moment after the letter that was typed.
  const { good, isOld } = useLastGood(useDeferredValue(checked));
  useWaysToPlaces();
  const { focus } = state;
  useEffect(() => {
    if (focus) goToPlace(focus.id);
  }, [focus]);
  return (
    <BuilderContext value={builder}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: it only keeps Enter in a field from sending the form */}
      <div className="builder" onKeyDown={keepFromSending}>
        <noscript>
          <p className="told">
            The fields of this page need scripts. Without them, open “The file’s text” below and change the
            agreement there; it is checked when you send it.
          </p>
        </noscript>
        <div className="builder-fields">
          <div className="builder-live">
            <TemplateChoice document={document} isEdited={state.isEdited} change={change} />
            <p className="spoken" role="status">
              {state.told}
            </p>
            {state.undo === undefined ? null : (
              <p className="told put-back">
                {state.undo.said}{' '}
                <button type="button" className="quiet" onClick={() => change({ kind: 'undo' })}>
                  Put it back
                </button>
              </p>
            )}
            <HeadPart />
            <ReferencesPart />
            <PricePart termKeys={state.termKeys} />
            <TestsPart />
            <BlocksPart />
          </div>
          <FileText fieldName={fieldName} state={state} change={change} />
        </div>
        <aside className="builder-side" aria-label="In words, and what it does">
          <ProblemList />
          <div className="builder-live">
            {good ? (
              <>
                {isOld ? (
                  <p className="old-note">
                    Below is the agreement before the last changes. It follows once all is put right.
                  </p>
                ) : null}
                <details className={isOld ? 'side-part old' : 'side-part'} open>
                  <summary>What it does</summary>
                  <WhatItDoes
                    before={previous}
                    after={good.document}
                    lotTests={lotTests}
                    quotes={quotes}
                    locale={locale}
                  />
                </details>
                <details className={isOld ? 'side-part old' : 'side-part'} open>
                  <summary>In words</summary>
                  <WordsPanel agreement={good.agreement} />
                </details>
              </>
            ) : (
              <p className="hint">What it pays, and its words, show here once nothing is missing.</p>
            )}
          </div>
        </aside>
      </div>
    </BuilderContext>
  );
}

interface Good {
  readonly document: Draft;
  readonly agreement: Agreement;
}

/** The newest draft that was whole, so that words and prices stay in sight while a figure is being typed. */
function useLastGood(checked: CheckedDraft & { readonly document: Draft }): {
  readonly good: Good | undefined;
  readonly isOld: boolean;
} {
  const { agreement, document } = checked;
  const now = agreement && { agreement, document };
  const [last, setLast] = useState<Good | undefined>(now);
  if (now && now.agreement !== last?.agreement) setLast(now);
  return { good: now ?? last, isOld: now === undefined };
}

/** Enter in a field of the builder would send the whole form. */
function keepFromSending(event: KeyboardEvent): void {
  if (event.key === 'Enter' && event.target instanceof HTMLInputElement) event.preventDefault();
}
