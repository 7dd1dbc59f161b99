/**
 * Issuing under one agreement: what is ready, and what was just issued.
 */
import { figuresFor } from '../../../documents/figures.ts';
import { mayDo } from '../../../domain/parties/permissions.ts';
import { type ListedDocument, readDocumentList } from '../../../usecases/money/read-document-list.ts';
import { type IssueView, readIssue } from '../../../usecases/money/read-issue.ts';
import { type Asked, askedText } from '../../place/asked.ts';
import { AgreementChoice } from '../../place/chosen-agreement.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { whichAgreement } from '../which-agreement.ts';
import { AdvancePart, InterestPart } from './advance-part.tsx';
import { InvoicePart, type PartProps } from './invoice-part.tsx';
import { agreedWords } from './issue-words.ts';

export const metadata = { title: 'Issue invoices' };

export default async function IssuePage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const told = await toldBy(asked);
  // Only what was told of here may say what was just issued.
  const issuedIds = told === undefined ? [] : (askedText(asked, 'issued') ?? '').split('.');
  const { which, view, issued, role } = await ask(async (context) => {
    const found = await whichAgreement(context, { asked, locale, isToIssue: true });
    const { agreementId } = found;
    const list =
      agreementId === undefined || issuedIds.length === 0
        ? []
        : (await readDocumentList(context, { agreementId })).documents;
    return {
      which: found,
      view: agreementId === undefined ? undefined : await readIssue(context, { agreementId }),
      issued: list.filter(({ id }) => issuedIds.includes(id)),
      role: context.caller.role,
    };
  });
  if (!view) {
    return (
      <>
        <h1>Issue invoices</h1>
        <AgreementChoice agreements={which.agreements} path="/money/issue" />
      </>
    );
  }
  const figures = figuresFor(locale);
  const mayIssue = view.isIssuer && mayDo(role, 'issue-invoice');
  const parts = { view, figures, mayIssue };
  return (
    <>
      <h1>Issue invoices</h1>
      <p className="quiet-word">
        {view.agreement} with {view.partner} ·{' '}
        <a href={`/money/documents?agreement=${view.agreementId}`}>what is issued already</a>
      </p>
      {told === undefined ? null : <Told told={told} issued={issued} />}
      {view.isSealed ? <Sealed agreementId={view.agreementId} /> : <Issue view={view} parts={parts} />}
    </>
  );
}

function Sealed({ agreementId }: { readonly agreementId: string }) {
  return (
    <p className="told">
      <a href={`/agreements/${agreementId}/season-close`}>Its season is sealed</a>: nothing is issued under it
      any more, and what is left over is taken up by your next agreement with each other.
    </p>
  );
}

function Issue({ view, parts }: { readonly view: IssueView; readonly parts: PartProps }) {
  return (
    <>
      <p>{agreedWords(view)}</p>
      {view.terms.length === 0 ? (
        <p>No terms of payment are agreed: an invoice is due on the day on which it is issued.</p>
      ) : (
        <details className="more-fields">
          <summary>The terms of payment that go on every invoice</summary>
          {view.terms.map((term) => (
            <p key={term}>{term}</p>
          ))}
        </details>
      )}
      {view.isIssuer ? null : <p className="told">By your agreement {view.issuer} issues the invoices.</p>}
      <InvoicePart {...parts} />
      <AdvancePart {...parts} />
      <InterestPart {...parts} />
    </>
  );
}

function Told({ told, issued }: { readonly told: string; readonly issued: readonly ListedDocument[] }) {
  return (
    <div className="told" role="status">
      <p>{told}</p>
      {issued.length === 0 ? null : (
        <ul className="plain-links">
          {issued.map(({ id, name }) => (
            <li key={id}>
              <a href={`/money/documents/${id}`}>{name}</a>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
