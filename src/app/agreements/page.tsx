/**
 * Agreements: with whom, for what feed, and what is owed under each.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
import { opening } from '../place/sentence.ts';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { NoAgreement } from './no-agreement.tsx';
import { owedWords } from './owed-words.ts';

export const metadata = { title: 'Agreements' };

export default async function AgreementsPage() {
  const locale = await readerLocale();
  const { agreements, mayRecord } = await ask(async (context) => ({
    agreements: await readAgreementList(context, { locale }),
    mayRecord: mayDo(context.caller.role, 'record-agreement'),
  }));
  return (
    <>
      <div className="title">
        <h1>Agreements</h1>
        {mayRecord && agreements.length > 0 ? (
          <a className="plain-link" href="/agreements/new">
            Record an agreement
          </a>
        ) : null}
      </div>
      {agreements.length === 0 ? (
        <NoAgreement mayRecord={mayRecord} />
      ) : (
        <ul className="agreements">
          {agreements.map((agreement) => (
            <li key={agreement.id}>
              <h2>
                <a href={`/agreements/${agreement.id}`}>{agreement.number}</a>, {agreement.seller} to{' '}
                {agreement.buyer}
              </h2>
              <p>{opening(agreement.feed)}.</p>
              <p className="owed">{owedWords(agreement)}</p>
              <p>
                <a href={`/loads?agreement=${agreement.id}`}>
                  {agreement.loads === 1 ? 'One load' : `${agreement.loads} loads`}
                </a>
                {agreement.waiting === 0
                  ? ', all settled or closed.'
                  : `, ${agreement.waiting} not settled yet.`}
              </p>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
