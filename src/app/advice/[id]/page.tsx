/**
 * One advice: what it is about, what both wrote, and for the adviser the way to a draft.
 */
import { type Subject, subjectId, subjectKind } from '../../../domain/advice/subject.ts';
import { mayDo } from '../../../domain/parties/permissions.ts';
import { readOneAdvice } from '../../../usecases/advice/read-advice.ts';
import { ask } from '../../server/ask.ts';
import { AdviceThread } from '../advice-thread.tsx';

export const metadata = { title: 'Advice' };

const PAGES = { lot: '/lots/', offer: '/offers/', agreement: '/agreements/' } as const;

export default async function OneAdvicePage({
  params,
}: {
  readonly params: Promise<{ readonly id: string }>;
}) {
  const { id } = await params;
  const { advice, role, now } = await ask(async (context) => ({
    advice: await readOneAdvice(context, { adviceId: id }),
    role: context.caller.role,
    now: context.now(),
  }));
  const { other, words, isOurs, endedAt, subject } = advice;
  return (
    <div className="narrow" id="advice">
      <h1>{isOurs ? `You advise ${other} on ${words}` : `${other} advises you on ${words}`}</h1>
      {endedAt === null ? null : <p>This advice has ended. What was written stays here.</p>}
      <ul className="pick">
        {endedAt !== null && isOurs ? null : (
          <li>
            <a className="plain-link" href={pageOf(subject)}>
              {subjectKind(subject) === 'lot' ? 'See the lot' : `Read the ${subjectKind(subject)}`}
            </a>
          </li>
        )}
        {isOurs && endedAt === null && mayDo(role, 'advise') ? (
          <li>
            <a className="plain-link" href={`/advice/${id}/draft`}>
              Draft terms for {other}
            </a>
          </li>
        ) : null}
      </ul>
      <AdviceThread advice={advice} role={role} back={`/advice/${id}`} now={now} isOpen />
    </div>
  );
}

function pageOf(subject: Subject): string {
  return PAGES[subjectKind(subject)] + subjectId(subject);
}
