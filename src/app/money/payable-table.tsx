/**
 * What is due, oldest first, with what is held and how late it is.
 */
import { dayInWords } from '../../domain/dates/day-words.ts';
import type { AgreementPayments } from '../../usecases/money/read-payments.ts';

export interface PayableTableProps {
  readonly money: AgreementPayments;
  readonly show: (amount: string) => string;
}

export function PayableTable({ money, show }: PayableTableProps) {
  const { payable, currency, today } = money;
  if (payable.length === 0) return <p>Nothing is due.</p>;
  return (
    <table className="payable">
      <thead>
        <tr>
          <th scope="col">Document</th>
          <th scope="col">Due on</th>
          <th scope="col">Due, {currency}</th>
        </tr>
      </thead>
      <tbody>
        {payable.map(({ documentId, name, dueOn, daysLate, due, held, discount, discountUntil }) => (
          <tr key={documentId}>
            <th scope="row">
              <a href={`/money/documents/${documentId}`}>{name}</a>
              {held === '' ? null : <small>{show(held)} more is held and not due</small>}
              {discount === '' ? null : (
                <small>
                  {show(discount)} less if paid in full by {dayInWords(discountUntil, today)}
                </small>
              )}
            </th>
            <td>
              {dayInWords(dueOn, today)}
              {daysLate > 0 ? (
                <small>{daysLate === 1 ? 'one day late' : `${daysLate} days late`}</small>
              ) : null}
            </td>
            <td className="amount">{show(due)}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row" colSpan={2}>
            All that is due
          </th>
          <td className="amount">{show(money.due)}</td>
        </tr>
      </tfoot>
    </table>
  );
}
