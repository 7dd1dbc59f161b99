/**
 * Agreements: with whom, for what feed, and what is owed under each.
 */
import { readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { owedWords } from './owed-words.ts';

export const metadata = { title: 'Agreements' };

export default async function AgreementsPage() {
  const locale = await readerLocale();
  const agreements = await ask((context) => readAgreementList(context, { locale }));
  return (
    <>
      <h1>Agreements</h1>
      {agreements.length === 0 ? (
        <p>
          There is no agreement here yet. <a href="/people">Invite the other side</a>, then record the
          agreement that you both signed.
        </p>
      ) : (
        <ul className="agreements">
          {agreements.map((agreement) => (
            <li key={agreement.id}>
              <h2>
                <a href={`/agreements/${agreement.id}`}>{agreement.number}</a>, {agreement.seller} to{' '}
                {agreement.buyer}
              </h2>
              <p>{agreement.feed}.</p>
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
