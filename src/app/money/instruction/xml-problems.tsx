/**
 * Why there is no file for the bank yet, and what to do about it.
 */
import type { PaymentInstruction } from '../../../domain/money/payment-instruction.ts';
import type { CheckedInstruction } from '../../../usecases/money/instruct-payment.ts';

export interface XmlProblemsProps {
  readonly problems: CheckedInstruction['problems'];
  readonly instruction: PaymentInstruction;
}

export function XmlProblems({ problems, instruction }: XmlProblemsProps) {
  return (
    <div className="refused">
      <p>The file for the bank cannot be made yet:</p>
      <ul>
        {problems.map(({ place, message }) => (
          <li key={`${place} ${message}`}>
            {place === 'payerAccount' ? (
              <>
                It has to say from which of your accounts the bank pays.{' '}
                <a href="/money/account">Give your own account first.</a>
              </>
            ) : (
              <>
                {about(place, instruction)} {message}
                {place.startsWith('payerAccount') ? (
                  <>
                    {' '}
                    <a href="/money/account">Put it right.</a>
                  </>
                ) : null}
              </>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Whom a problem is about. */
function about(place: string, { payments, payer }: PaymentInstruction): string {
  const index = /^payments\[(\d+)\]/.exec(place)?.[1];
  const payee = index === undefined ? undefined : payments[Number(index)]?.payee;
  if (payee !== undefined)
    return place.includes('.account') ? `The account of ${payee}:` : `The payment to ${payee}:`;
  if (place.startsWith('payerAccount')) return 'Your own account:';
  return place === 'payer' ? `Your own name, ${payer}:` : 'The instruction:';
}
