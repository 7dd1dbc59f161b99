/**
 * Advice on one lot, offer or agreement, for the page of that: who advises the reader's party, what was written, and the
 * way to ask for advice. The other side and other buyers see nothing of it.
 */
import { type Subject, subjectId, subjectKind } from '../../domain/advice/subject.ts';
import { mayDo } from '../../domain/parties/permissions.ts';
import { readAdvice } from '../../usecases/advice/read-advice.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { ask } from '../server/ask.ts';
import { ask as askForAdvice } from './advice-actions.ts';
import { AdviceThread } from './advice-thread.tsx';

const PAGES = { lot: 'lots', offer: 'offers', agreement: 'agreements' } as const;

export async function AdvicePanel({ subject }: { readonly subject: Subject }) {
  const { all, role, now } = await ask(async (context) => ({
    all: await readAdvice(context, subject),
    role: context.caller.role,
    now: context.now(),
  }));
  const [kind, id] = [subjectKind(subject), subjectId(subject)];
  const back = `/${PAGES[kind]}/${id}`;
  const given = all.find(({ isOurs, endedAt }) => isOurs && endedAt === null);
  const running = all.filter(({ isOurs, endedAt }) => !isOurs && endedAt === null);
  const over = all.filter(({ isOurs, endedAt }) => !isOurs && endedAt !== null);
  return (
    <section id="advice" aria-labelledby="advice-heading">
      <h2 id="advice-heading">Advice</h2>
      {given ? (
        <p>
          You advise {given.other} on this: you read it and try the formula, and sign nothing.{' '}
          <a href={`/advice/${given.id}`}>Notes and drafts</a>
        </p>
      ) : (
        <>
          {running.map((advice) => (
            <div key={advice.id}>
              <h3>{advice.other} advises you</h3>
              <AdviceThread advice={advice} role={role} back={back} now={now} />
            </div>
          ))}
          {over.map((advice) => (
            <p key={advice.id} className="quiet-word">
              {advice.other} advised you on this. <a href={`/advice/${advice.id}`}>What you both wrote</a>
            </p>
          ))}
          {mayDo(role, 'invite') ? (
            <details className="more-fields">
              <summary>{running.length === 0 ? 'Ask an adviser' : 'Ask another adviser'}</summary>
              <p>
                An adviser reads this, tries the formula, writes notes that only the two of you see, and
                drafts terms for you. They sign nothing and send the other side nothing.
              </p>
              <RecordForm
                action={askForAdvice}
                submit="Make a link for an adviser"
                quiet
                fields={[{ kind: 'hidden', name: kind, value: id }]}
              />
            </details>
          ) : running.length === 0 ? (
            <p>Nobody advises you on this. An owner of your party can ask somebody.</p>
          ) : null}
        </>
      )}
    </section>
  );
}
