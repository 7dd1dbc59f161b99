/**
 * Where the program opens: what waits for the reader's party, offers first, then loads; and what it was told of.
 */
import { randomUUID } from 'node:crypto';
import { mayDo } from '../domain/parties/permissions.ts';
import { readAdvice } from '../usecases/advice/read-advice.ts';
import { readAgreementList } from '../usecases/agreements/read-agreement-list.ts';
import { readLaboratoryWork } from '../usecases/laboratories/read-laboratories.ts';
import { readWaiting } from '../usecases/loads/read-waiting.ts';
import { readActions } from '../usecases/notices/read-actions.ts';
import { readNotices } from '../usecases/notices/read-notices.ts';
import { NoAgreement } from './agreements/no-agreement.tsx';
import { WaitingList } from './loads/waiting-list.tsx';
import { ActionList } from './notices/action-list.tsx';
import { NoticeList } from './notices/notice-list.tsx';
import { ask } from './server/ask.ts';
import { readerLocale } from './server/current-caller.ts';

export const metadata = { title: 'Waiting for you' };

export default async function FrontPage() {
  const locale = await readerLocale();
  const { role, now, agreements, actions, waiting, notices, advised, work } = await ask(async (context) => ({
    role: context.caller.role,
    now: context.now(),
    agreements: await readAgreementList(context, { locale }),
    actions: await readActions(context, { locale }),
    waiting: await readWaiting(context),
    notices: await readNotices(context),
    work: await readLaboratoryWork(context),
    advised: (await readAdvice(context)).filter(({ isOurs, endedAt }) => isOurs && endedAt === null),
  }));
  // What one only advises on is nobody's to weigh for.
  const own = agreements.filter(({ side }) => side !== 'adviser');
  const weighs = own.length > 0 && mayDo(role, 'record-load');
  const isAwaited = work.some(({ samples }) => samples.some(({ resultId }) => resultId === null));
  const isEmpty = actions.length + waiting.length === 0 && !isAwaited;
  const isNew =
    isEmpty &&
    work.length + agreements.length + advised.length + notices.unseen.length + notices.seen.length === 0;
  return (
    <>
      <div className="title">
        <h1>Waiting for you</h1>
        {weighs ? (
          <a className={role === 'scale-operator' ? 'act-link' : 'plain-link'} href="/loads/new">
            Weigh a load
          </a>
        ) : null}
      </div>
      {isEmpty ? <p>Nothing waits for you.</p> : null}
      {work.length === 0 ? null : (
        <p>
          <a className="act-link" href="/laboratory">
            Samples to report on
          </a>
        </p>
      )}
      <ActionList actions={actions} isLeading={role !== 'scale-operator'} />
      <WaitingList
        groups={waiting}
        role={role}
        requestKey={randomUUID}
        isOneOfMany={own.length > 1}
        isLeading={actions.length === 0}
      />
      {advised.length === 0 ? null : (
        <section aria-labelledby="advised">
          <h2 id="advised">You advise</h2>
          <ul className="notices">
            {advised.map(({ id, other, words }) => (
              <li key={id}>
                <a href={`/advice/${id}`}>
                  {other}, on {words}
                </a>
              </li>
            ))}
          </ul>
        </section>
      )}
      <NoticeList notices={notices} role={role} now={now} />
      {isNew ? (
        <>
          <p>
            Look at the <a href="/lots">feed for sale</a>, or post your own there.
          </p>
          <NoAgreement mayRecord={mayDo(role, 'record-agreement')} />
        </>
      ) : null}
    </>
  );
}
