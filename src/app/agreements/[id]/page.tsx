/**
 * One agreement in words: what both sides signed, and what the settlement does.
 */
import { mayDo } from '../../../domain/parties/permissions.ts';
import { readAgreementWords } from '../../../usecases/agreements/read-agreement-words.ts';
import { ask } from '../../server/ask.ts';

export const metadata = { title: 'Agreement' };

export default async function AgreementPage({
  params,
}: {
  readonly params: Promise<{ readonly id: string }>;
}) {
  const { id } = await params;
  const { agreement, role } = await ask(async (context) => ({
    agreement: await readAgreementWords(context, { agreementId: id }),
    role: context.caller.role,
  }));
  const { number, version, fingerprint, seller, buyer, sections } = agreement;
  return (
    <article className="words">
      <h1>Agreement {number}</h1>
      <p className="quiet-word">
        {seller} and {buyer}, version {version}
      </p>
      <ul className="pick">
        <li>
          <a className="plain-link" href={`/loads?agreement=${agreement.id}`}>
            Its loads
          </a>
        </li>
        <li>
          <a className="plain-link" href={`/agreements/${agreement.id}/progress`}>
            Progress
          </a>
        </li>
        <li>
          <a className="plain-link" href={`/agreements/${agreement.id}/samples`}>
            Samples
          </a>
        </li>
        <li>
          <a className="plain-link" href={`/agreements/${agreement.id}/tickets`}>
            Ticket book
          </a>
        </li>
        <li>
          <a className="plain-link" href={`/agreements/${agreement.id}/laboratories`}>
            Laboratories
          </a>
        </li>
        {agreement.series.map((name) => (
          <li key={name}>
            <a className="plain-link" href={`/agreements/${agreement.id}/series/${encodeURIComponent(name)}`}>
              {name}
            </a>
          </li>
        ))}
        {mayDo(role, 'record-load') ? (
          <li>
            <a className="plain-link" href={`/import?agreement=${agreement.id}`}>
              Bring in a file
            </a>
          </li>
        ) : null}
        {mayDo(role, 'record-quote') && agreement.series.length > 0 ? (
          <li>
            <a className="plain-link" href={`/prices/new?agreement=${agreement.id}`}>
              Record a price
            </a>
          </li>
        ) : null}
      </ul>
      {sections.map(({ heading, paragraphs }, index) => (
        <section key={heading}>
          {index === 0 ? null : <h2>{heading}</h2>}
          {paragraphs.map((paragraph) => (
            <p key={paragraph}>{paragraph}</p>
          ))}
        </section>
      ))}
      <section>
        <h2>Fingerprint</h2>
        <p>The same 64 signs stand on every invoice. If a term were changed, they would be others.</p>
        <p>
          <code className="fingerprint">{fingerprint}</code>
        </p>
      </section>
    </article>
  );
}
