/**
 * Every document of an agreement with how it stands, newest first.
 */
import { figuresFor } from '../../../documents/figures.ts';
import { type ListedDocument, readDocumentList } from '../../../usecases/money/read-document-list.ts';
import type { Asked } from '../../place/asked.ts';
import { AgreementChoice } from '../../place/chosen-agreement.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { whichAgreement } from '../which-agreement.ts';

export const metadata = { title: 'Invoices and notes' };

export default async function DocumentsPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const { which, list } = await ask(async (context) => {
    const found = await whichAgreement(context, { asked, locale });
    const { agreementId } = found;
    return {
      which: found,
      list: agreementId === undefined ? undefined : await readDocumentList(context, { agreementId }),
    };
  });
  if (!list) {
    return (
      <>
        <h1>Invoices and notes</h1>
        <AgreementChoice agreements={which.agreements} path="/money/documents" />
      </>
    );
  }
  const { agreementId, agreement, partner, seller, buyer, currency, documents } = list;
  const { show } = figuresFor(locale);
  return (
    <>
      <h1>Invoices and notes</h1>
      <p className="quiet-word">
        {seller} to {buyer}, agreement <a href={`/agreements/${agreementId}`}>{agreement}</a>
      </p>
      {documents.length === 0 ? (
        <p>
          Nothing is issued under this agreement yet. See under{' '}
          <a href={`/money/issue?agreement=${agreementId}`}>what can be issued</a> who issues invoices and
          which loads are ready.
        </p>
      ) : (
        <table className="money-table">
          <caption className="visually-hidden">Documents between you and {partner}, newest first</caption>
          <thead>
            <tr>
              <th scope="col">Document</th>
              <th scope="col">How it stands</th>
              <th scope="col" className="amount">
                As issued, {currency}
              </th>
            </tr>
          </thead>
          <tbody>
            {documents.map((document) => (
              <tr key={document.id}>
                <th scope="row">
                  <a href={`/money/documents/${document.id}`}>{document.name}</a>
                  <span className="under day">{document.issuedOn}</span>
                </th>
                <td>
                  <Standing document={document} show={show} />
                </td>
                <td className="amount">{show(document.payable.replace('-', ''))}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}

function Standing({
  document,
  show,
}: {
  readonly document: ListedDocument;
  readonly show: (amount: string) => string;
}) {
  const { state, corrects, dueOn, daysLate, due, held, open } = document;
  const isHeld = /[1-9]/.test(held);
  switch (state) {
    case 'note':
      return (
        <>
          Lowers {corrects ? <a href={`/money/documents/${corrects.id}`}>{corrects.name}</a> : 'what is owed'}
        </>
      );
    case 'over':
      return <>Nothing is open any more</>;
    case 'held':
      return <>All that is open is held: {show(open)}</>;
    case 'open':
      return (
        <>
          {show(due)} to pay, due <span className="day">{dueOn}</span>
          {daysLate === 0 ? null : (
            <strong className="under late day">
              {daysLate === 1 ? 'one day late' : `${daysLate} days late`}
            </strong>
          )}
          {isHeld ? <span className="under">{show(held)} more is held</span> : null}
        </>
      );
  }
}
