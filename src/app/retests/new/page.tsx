/**
 * Asks a question: what can be asked and until when, then whether the doubt is larger than the test's own scatter and what
 * each outcome would mean in money, then the question itself.
 */
import { randomUUID } from 'node:crypto';
import { figuresFor } from '../../../documents/figures.ts';
import { QUESTIONED } from '../../../domain/agreement/retest-rules.ts';
import { questionedName } from '../../../domain/words/retest-course-words.ts';
import { methodInWords } from '../../../domain/words/retest-words.ts';
import { type AskView, readAsk } from '../../../usecases/retests/read-ask.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { type Asked, addressOf, askedText } from '../../place/asked.ts';
import {
  AgreementChoice,
  AgreementLine,
  type Chosen,
  chooseAgreement,
} from '../../place/chosen-agreement.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { claimName, claimsIn } from '../claim-fields.ts';
import { askQuestion } from '../retest-actions.ts';
import { ClaimList } from './claim-list.tsx';
import { ClaimMeaning } from './claim-meaning.tsx';

export const metadata = { title: 'Question a figure' };
const PATH = '/retests/new';

export default async function AskPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const { chosen, view } = await ask(async (context) => {
    const chosen = await chooseAgreement(context, { asked, locale, verb: 'question' });
    const agreementId = chosen.agreement?.id;
    return {
      chosen,
      view:
        agreementId === undefined
          ? undefined
          : await readAsk(context, {
              agreementId,
              about: askedText(asked, 'about'),
              claims: claimsIn(asked, locale),
              locale,
            }),
    };
  });
  return (
    <>
      <h1>Question a figure</h1>
      {view ? (
        <AskAbout view={view} chosen={chosen} asked={asked} locale={locale} />
      ) : (
        <AgreementChoice agreements={chosen.agreements} path={PATH} />
      )}
    </>
  );
}

function namesIn(text = ''): readonly string[] {
  return text
    .split(/[,;\n]/)
    .map((name) => name.trim())
    .filter((name) => name !== '');
}

interface AskAboutProps {
  readonly view: AskView;
  readonly chosen: Chosen;
  readonly asked: Asked;
  readonly locale: string;
}

function AskAbout({ view, chosen, asked, locale }: AskAboutProps) {
  const agreementId = chosen.agreement?.id ?? '';
  const loadId = askedText(asked, 'load');
  const { about, items, claims, askable } = view;
  const figures = figuresFor(locale);
  const rule = items[0]?.rule;
  if (askable.length === 0) {
    return (
      <>
        <AgreementLine chosen={chosen} path={PATH} />
        <p>
          This agreement does not say how a question is decided. Until both sides amend it to say so, a figure
          is put right by a correction that both confirm: propose it on the load’s page.
        </p>
      </>
    );
  }
  const good = claims.filter(({ wrong }) => wrong === undefined);
  const isReady = good.length > 0 && good.length === claims.length;
  return (
    <>
      <AgreementLine chosen={chosen} path={PATH} />
      <nav aria-label="What is questioned">
        <ul className="pick">
          {QUESTIONED.filter((name) => askable.includes(name)).map((name) => (
            <li key={name}>
              <a
                className="plain-link"
                href={addressOf(PATH, { agreement: agreementId, about: name, load: loadId })}
                aria-current={name === about ? 'page' : undefined}
              >
                {questionedName(name)}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <h2>{questionedName(about)}</h2>
      {rule ? <p>{methodInWords(rule.method)}</p> : null}
      {about === 'weight' ? (
        <p className="hint">
          Only a truck that is still loaded can be weighed full again: have it weighed before it is emptied.
          If it has been emptied, agree on a figure or propose a correction instead.
        </p>
      ) : null}
      <ClaimList
        view={view}
        agreementId={agreementId}
        loadId={loadId}
        figures={figures}
        wanted={namesIn(askedText(asked, 'show'))}
      />
      {claims.map((claim) => (
        <ClaimMeaning key={claim.id} claim={claim} view={view} figures={figures} />
      ))}
      {isReady ? (
        <section aria-labelledby="ask">
          <h2 id="ask">Ask</h2>
          <p className="hint">
            Once you ask, {view.side === 'seller' ? view.buyer : view.seller} is told, and the rule decides.
            To end it otherwise takes both of you.
          </p>
          <RecordForm
            action={askQuestion}
            submit={good.length === 1 ? 'Ask this question' : `Ask these ${good.length} questions`}
            requestKey={randomUUID()}
            fields={[
              { kind: 'hidden', name: 'agreement', value: agreementId },
              { kind: 'hidden', name: 'about', value: about },
              ...good.map(({ id, claimed }) => ({
                kind: 'hidden' as const,
                name: claimName(id),
                value: claimed,
              })),
              {
                kind: 'text',
                name: 'reason',
                label: 'Where your figure comes from',
                hint: 'Like “our own laboratory, report of October 5”. The other side reads it.',
              },
            ]}
          />
        </section>
      ) : null}
    </>
  );
}
