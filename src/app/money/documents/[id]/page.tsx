/**
 * One document about money: what it says as it was issued, how it stands now, and what is held of it.
 */
import { figuresFor } from '../../../../documents/figures.ts';
import {
  correctedNames,
  hasDueDate,
  jointPayment,
  selfBilling,
} from '../../../../documents/money-document/document-words.ts';
import type { MoneyDocument } from '../../../../domain/money/money-document.ts';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { readDocument } from '../../../../usecases/money/read-document.ts';
import { type Asked, askedText } from '../../../place/asked.ts';
import { opening } from '../../../place/sentence.ts';
import { Told } from '../../../place/told.tsx';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { toldBy } from '../../../server/told.ts';
import { DocumentHolds } from './document-holds.tsx';
import { DocumentLines } from './document-lines.tsx';
import { DocumentStanding } from './document-standing.tsx';
import { owedByIt } from './document-words.ts';
import { EInvoiceForm } from './e-invoice-form.tsx';

export const metadata = { title: 'Document' };

export interface DocumentPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function DocumentPage({ params, searchParams }: DocumentPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { view, role } = await ask(async (context) => ({
    view: await readDocument(context, { documentId: id }),
    role: context.caller.role,
  }));
  const told = await toldBy(asked);
  const figures = figuresFor(locale);
  const { document, side, due } = view;
  const { agreement, seller, buyer } = document;
  const mayPay = side === 'buyer' && !view.isSealed && mayDo(role, 'record-payment') && /[1-9]/.test(due);
  return (
    <>
      <div className="title">
        <h1>{view.name}</h1>
        <p className="quiet-word">
          {seller} to {buyer}, agreement <a href={`/agreements/${view.agreementId}`}>{agreement.number}</a>
        </p>
      </div>
      <Told told={told} />
      {view.isSealed ? (
        <p className="told">Its season is sealed: nothing about this document is recorded any more.</p>
      ) : null}
      <p>{owedByIt(document, figures)}</p>
      <DocumentStanding view={view} figures={figures} />
      <ul className="pick">
        {mayPay ? (
          <li>
            <a className="act-link" href={`/money/pay?agreement=${view.agreementId}`}>
              Pay
            </a>
          </li>
        ) : null}
        <li>
          <a className="plain-link" href={`/money/documents/${id}/paper`}>
            {view.name} (PDF)
          </a>
        </li>
        <li>
          <a className="plain-link" href={`/money/documents?agreement=${view.agreementId}`}>
            All invoices and notes
          </a>
        </li>
      </ul>
      <Warnings document={document} />
      <Facts document={document} />
      <DocumentHolds
        view={view}
        figures={figures}
        mayQuestion={mayDo(role, 'question-amount') && !view.isSealed}
        isAsking={askedText(asked, 'question') !== undefined}
      />
      <DocumentLines
        document={document}
        figures={figures}
        loadIds={new Map(view.loads.map(({ loadId, ticket }) => [ticket, loadId]))}
      />
      {document.terms.length === 0 ? null : (
        <section aria-labelledby="terms">
          <h2 id="terms">Terms</h2>
          {document.terms.map((term) => (
            <p key={term}>{term}</p>
          ))}
        </section>
      )}
      <EInvoiceForm documentId={id} seller={seller} buyer={buyer} />
    </>
  );
}

/** What must not be overlooked before it is paid. */
function Warnings({ document }: { readonly document: MoneyDocument }) {
  const told = [selfBilling(document), jointPayment(document)].filter((words) => words !== undefined);
  return told.map((words) => (
    <p key={words} className="told">
      {words}
    </p>
  ));
}

function Facts({ document }: { readonly document: MoneyDocument }) {
  const { period, kind, corrects, reason, agreement, feed } = document;
  const isAbout = kind === 'interest' || kind === 'fee';
  const days = period && (period.from === period.to ? period.from : `${period.from} to ${period.to}`);
  const facts: readonly (readonly [string, string | null])[] = [
    ['Seller', document.seller],
    ['Buyer', document.buyer],
    ['Issued', document.issuedOn],
    ['Due', hasDueDate(document) ? document.dueOn : null],
    [isAbout ? 'Days that it covers' : 'Delivered', days],
    ['Agreement', `${agreement.number}, version ${agreement.version}`],
    ['Feed', opening(feed)],
    [isAbout ? 'Is about' : 'Puts right', corrects.length === 0 ? null : correctedNames(document)],
    ['Why', reason],
  ];
  return (
    <dl className="facts sums">
      {facts.map(([name, value]) =>
        value === null ? null : (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ),
      )}
    </dl>
  );
}
