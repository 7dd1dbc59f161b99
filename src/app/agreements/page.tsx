/**
 * Agreements: with whom, for what feed, how each came about, and what is owed under it.
 */
import { agreementName } from '../../domain/agreement/agreement-name.ts';
import { mayDo } from '../../domain/parties/permissions.ts';
import { type AgreementSummary, readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
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
        <ul className="pick">
          <li>
            <a className="plain-link" href="/offers">
              Offers
            </a>
          </li>
          {mayRecord && agreements.length > 0 ? (
            <li>
              <a className="plain-link" href="/agreements/new">
                Record one signed elsewhere
              </a>
            </li>
          ) : null}
        </ul>
      </div>
      {agreements.length === 0 ? (
        <NoAgreement mayRecord={mayRecord} />
      ) : (
        <ul className="agreements">
          {agreements.map((agreement) => (
            <AgreementItem key={agreement.id} agreement={agreement} />
          ))}
        </ul>
      )}
    </>
  );
}

function AgreementItem({ agreement }: { readonly agreement: AgreementSummary }) {
  const { id, serial, number, seller, buyer, side, loads, waiting } = agreement;
  return (
    <li>
      <h2>
        <a href={`/agreements/${id}`}>{agreementName(agreement)}</a>, {seller} to {buyer}
      </h2>
      <p className="quiet-word">
        {serial === null ? 'Signed elsewhere and recorded here' : `Signed here; its file is called ${number}`}
        {agreement.version > 1 ? `; amended, version ${agreement.version}` : null}.
        {side === 'adviser' ? ' You advise on it.' : null}
      </p>
      {agreement.closedOn === null ? null : (
        <p>Closed early by both sides: {agreement.closedOn} is its last day of delivery.</p>
      )}
      {agreement.isSealed ? (
        <p>
          Its season is sealed: <a href={`/agreements/${id}/season-close`}>the closing statement</a>.
        </p>
      ) : null}
      <p>{opening(agreement.feed)}.</p>
      {side === 'adviser' ? null : <p className="owed">{owedWords(agreement)}</p>}
      {loads === 0 ? (
        <p>No load has been weighed under it yet.</p>
      ) : (
        <p>
          <a href={`/loads?agreement=${id}`}>{loads === 1 ? 'One load' : `${loads} loads`}</a>
          {waiting === 0 ? ', all settled or closed.' : `, ${waiting} not settled yet.`}
        </p>
      )}
    </li>
  );
}
