/**
 * A draft in words, and for whoever asked for it the way into the builder.
 */

import { mayDo } from '../../../../../domain/parties/permissions.ts';
import { agreementInWords } from '../../../../../domain/words/agreement-words.ts';
import { readOneAdvice } from '../../../../../usecases/advice/read-advice.ts';
import { readDraft } from '../../../../../usecases/advice/read-draft.ts';
import { WhatItDoes } from '../../../../builder/what-it-does.tsx';
import { ask } from '../../../../server/ask.ts';
import { readerLocale } from '../../../../server/current-caller.ts';

export const metadata = { title: 'A draft' };

interface Params {
  readonly id: string;
  readonly draft: string;
}

export default async function OneDraftPage({ params }: { readonly params: Promise<Params> }) {
  const { id, draft: draftId } = await params;
  const locale = await readerLocale();
  const { advice, draft, role } = await ask(async (context) => ({
    advice: await readOneAdvice(context, { adviceId: id }),
    draft: await readDraft(context, { draftId }),
    role: context.caller.role,
  }));
  const { other, words, isOurs, endedAt, builderPath } = advice;
  const mayUse = builderPath !== null && endedAt === null && mayDo(role, 'make-offer');
  return (
    <article className="words">
      <h1>A draft for {words}</h1>
      <p>
        {isOurs
          ? `You drafted it for ${other}, who may send it as their own or leave it.`
          : `${draft.name} of ${other} drafted it for you. Nobody else sees it, and it binds nobody.`}{' '}
        <a href={`/advice/${id}`}>{isOurs ? 'Back to your notes' : 'To the notes'}</a>
      </p>
      {mayUse ? (
        <p>
          <a className="act-link" href={`${builderPath}?draft=${draftId}`}>
            Open it in the builder
          </a>
        </p>
      ) : null}
      <h2>What it does</h2>
      {draft.before ? <p className="hint">“Before” is the terms as they stand; “now” is the draft.</p> : null}
      <WhatItDoes
        {...(draft.before ? { before: draft.before } : {})}
        after={draft.whole}
        lotTests={draft.lotTests}
        locale={locale}
      />
      {agreementInWords(draft.agreement).map(({ heading, paragraphs }, index) => (
        <section key={heading}>
          {index === 0 ? null : <h2>{heading}</h2>}
          {paragraphs.map((paragraph) => (
            <p key={paragraph}>{paragraph}</p>
          ))}
        </section>
      ))}
    </article>
  );
}
