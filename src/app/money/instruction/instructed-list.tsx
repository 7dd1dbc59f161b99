/**
 * The payments of an instruction: to whom, how, how much, and for what.
 */
import type { InstructedPayment, PaymentInstruction } from '../../../domain/money/payment-instruction.ts';
import type { CheckedInstruction } from '../../../usecases/money/instruct-payment.ts';
import { nameList } from '../name-list.ts';

export interface InstructedListProps {
  readonly instruction: PaymentInstruction;
  readonly totals: CheckedInstruction['totals'];
  readonly show: (amount: string) => string;
}

export function InstructedList({ instruction, totals, show }: InstructedListProps) {
  return (
    <>
      <ul className="payments">
        {instruction.payments.map((payment) => (
          <li key={payment.reference} className="payment">
            <h3>{payment.payee}</h3>
            <p>{howPaid(payment)}</p>
            <table className="payable">
              <thead>
                <tr>
                  <th scope="col">For</th>
                  <th scope="col">{payment.currency}</th>
                </tr>
              </thead>
              <tbody>
                {payment.invoices.map(({ name, number, amount }) => (
                  <tr key={number}>
                    <th scope="row">{name}</th>
                    <td className="amount">{show(amount)}</td>
                  </tr>
                ))}
              </tbody>
              <tfoot>
                <tr>
                  <th scope="row">In one payment, called {payment.reference}</th>
                  <td className="amount">{show(payment.amount)}</td>
                </tr>
              </tfoot>
            </table>
          </li>
        ))}
      </ul>
      {instruction.payments.length < 2
        ? null
        : totals.map(({ currency, amount }) => (
            <p key={currency} className="owed">
              {show(amount)} {currency} in all.
            </p>
          ))}
    </>
  );
}

function howPaid({ payee, jointPayees, account }: InstructedPayment): string {
  if (jointPayees.length > 0) {
    const lenders = nameList(jointPayees);
    return `By check made out to ${nameList([payee, ...jointPayees])}, jointly: ${lenders} ${jointPayees.length === 1 ? 'has' : 'have'} a lien on the feed, and a transfer reaches one account alone.`;
  }
  if (account === null) return `By check made out to ${payee}, which gave no account.`;
  const { holder, kind, number, bankKind, bank } = account;
  const at = bankKind === null ? '' : `, ${bankKind === 'aba' ? 'routing number' : 'BIC'} ${bank ?? ''}`;
  return `By transfer to ${holder}, ${kind === 'iban' ? 'IBAN' : 'account'} ${number}${at}.`;
}
