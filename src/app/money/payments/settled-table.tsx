/**
 * What money was used for, document by document, with the discounts that it earned.
 */
import type { SettledPart } from '../../../usecases/money/read-payments.ts';

export interface SettledTableProps {
  readonly settles: readonly SettledPart[];
  readonly currency: string;
  readonly show: (amount: string) => string;
  /** What it says above the amounts: "Paid", or "Had paid" for what came back. */
  readonly word: string;
}

export function SettledTable({ settles, currency, show, word }: SettledTableProps) {
  if (settles.length === 0) return null;
  const isEarned = settles.some(({ discount }) => /[1-9]/.test(discount));
  return (
    <table className={isEarned ? 'payable earned' : 'payable'}>
      <thead>
        <tr>
          <th scope="col">Document</th>
          <th scope="col">
            {word}, {currency}
          </th>
          {isEarned ? <th scope="col">Discount, {currency}</th> : null}
        </tr>
      </thead>
      <tbody>
        {settles.map(({ documentId, name, amount, discount }) => (
          <tr key={documentId}>
            <th scope="row">
              <a href={`/money/documents/${documentId}`}>{name}</a>
            </th>
            <td className="amount">{show(amount)}</td>
            {isEarned ? <td className="amount">{show(discount)}</td> : null}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
