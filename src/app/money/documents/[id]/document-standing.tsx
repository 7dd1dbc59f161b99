/**
 * What happened to a document since it was issued: what settled it, and the notes that put it right.
 */
import type { Figures } from '../../../../documents/figures.ts';
import type { DocumentView } from '../../../../usecases/money/read-document.ts';
import { standingWords } from './document-words.ts';

export interface DocumentStandingProps {
  readonly view: DocumentView;
  readonly figures: Figures;
}

export function DocumentStanding({ view, figures }: DocumentStandingProps) {
  const { settledBy, correctedBy, corrects, document } = view;
  const words = standingWords(view, figures);
  return (
    <>
      {words.length === 0 ? null : <p className="standing">{words.join(' ')}</p>}
      {corrects === null ? null : (
        <p>
          It puts right <a href={`/money/documents/${corrects.id}`}>{corrects.name}</a>.
        </p>
      )}
      {correctedBy.length === 0 ? null : (
        <p>
          It was put right since by{' '}
          {correctedBy.map(({ id, name }, index) => (
            <span key={id}>
              {index === 0 ? null : ', '}
              <a href={`/money/documents/${id}`}>{name}</a>
            </span>
          ))}
          . What it says here is what was issued.
        </p>
      )}
      {settledBy.length === 0 ? null : (
        <table className="money-table">
          <caption>What settled it</caption>
          <thead>
            <tr>
              <th scope="col">By what</th>
              <th scope="col">When</th>
              <th scope="col" className="amount">
                {document.currency}
              </th>
            </tr>
          </thead>
          <tbody>
            {settledBy.map(({ name, on, amount, discount }) => (
              <tr key={`${name} ${on} ${amount}`}>
                <th scope="row">{name}</th>
                <td className="day">{on}</td>
                <td className="amount">
                  {figures.show(amount)}
                  {discount === null ? null : (
                    <span className="under">and {figures.show(discount)} discount</span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}
