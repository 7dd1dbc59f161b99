/**
 * What the bank is to pay: everything due by a day, shown before it is downloaded.
 */

import { figuresFor } from '../../../documents/figures.ts';
import { dayInWords } from '../../../domain/dates/day-words.ts';
import { parseLocalDate } from '../../../domain/dates/local-date.ts';
import {
  type Buying,
  type CheckedInstruction,
  checkInstruction,
  type InstructionWanted,
  readBuying,
} from '../../../usecases/money/instruct-payment.ts';
import type { Problem } from '../../../usecases/refusal.ts';
import { type Asked, addressOf, askedText } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { refusalOf } from '../../server/refused.ts';
import { InstructedList } from './instructed-list.tsx';
import { InstructionForm } from './instruction-form.tsx';
import { instructionWanted } from './instruction-request.ts';
import { XmlProblems } from './xml-problems.tsx';

export const metadata = { title: 'Pay through your bank' };

interface Answered {
  readonly buying: readonly Buying[];
  readonly wanted: InstructionWanted;
  readonly checked?: CheckedInstruction;
  readonly problems?: readonly Problem[];
}

export default async function InstructionPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const { buying, wanted, checked, problems } = await ask(async (context): Promise<Answered> => {
    const agreements = await readBuying(context);
    const request = instructionWanted((name) => askedText(asked, name), agreements[0]?.today);
    const found = { buying: agreements, wanted: request };
    try {
      return { ...found, checked: await checkInstruction(context, request) };
    } catch (error) {
      const refused = refusalOf(error);
      if (refused?.code !== 'bad-input') throw error;
      return { ...found, problems: refused.problems };
    }
  });
  // With days that are days, all that can be wrong is that there is nothing to pay: that is no fault.
  const isNothingDue =
    problems !== undefined && [wanted.dueBy, wanted.payOn].every((text) => parseLocalDate(text.trim()));
  return (
    <div className="narrow">
      <h1>Pay through your bank</h1>
      <p className="quiet-word">
        <a href="/money">Money</a>
      </p>
      {buying.length === 0 ? (
        <p>You buy under no agreement here, so there is nothing to pay.</p>
      ) : (
        <>
          <p className="caution">
            This makes a file for your bank. Nothing is paid until you hand it to your bank and release it
            there, and no payment is recorded here until you <a href="/money/pay">record it</a>.
          </p>
          <InstructionForm buying={buying} wanted={wanted} problems={isNothingDue ? [] : (problems ?? [])} />
          {isNothingDue ? (
            <p role="status">Nothing that you owe is due by {dayInWords(wanted.dueBy, wanted.payOn)}.</p>
          ) : null}
          {checked ? <Shown checked={checked} wanted={wanted} locale={locale} /> : null}
        </>
      )}
    </div>
  );
}

interface ShownProps {
  readonly checked: CheckedInstruction;
  readonly wanted: InstructionWanted;
  readonly locale: string;
}

function Shown({ checked, wanted, locale }: ShownProps) {
  const { instruction, totals, problems, unconfirmed, isDiscountAgreed } = checked;
  const { show } = figuresFor(locale);
  const file = (form: string) =>
    addressOf('/money/instruction/file', {
      form,
      agreement: wanted.agreementId,
      due_by: wanted.dueBy,
      pay_on: wanted.payOn,
    });
  return (
    <section aria-labelledby="contains">
      <h2 id="contains">What it would pay</h2>
      {unconfirmed.length === 0 ? null : (
        <div className="unanswered">
          <p>
            <strong>Paid already, not confirmed yet, and so not taken off here:</strong>
          </p>
          <ul>
            {unconfirmed.map(({ payee, name, amount, currency, paidOn }) => (
              <li key={`${payee} ${name} ${paidOn} ${amount}`}>
                {show(amount)} {currency} to {payee} on {dayInWords(paidOn, wanted.payOn)} ({name})
              </li>
            ))}
          </ul>
        </div>
      )}
      <InstructedList instruction={instruction} totals={totals} show={show} />
      {isDiscountAgreed ? (
        <p className="hint">A discount for paying early is not taken off in these files.</p>
      ) : null}
      {instruction.payments.every(({ account }) => account === null) ? null : (
        <p className="caution">
          Look at each account once more. One that is new or has changed may be a thief’s: call the payee at a
          number that you already know. <a href="/money/account">Accounts, and since when</a>
        </p>
      )}
      {problems.length === 0 ? null : <XmlProblems problems={problems} instruction={instruction} />}
      <ul className="pick">
        {problems.length === 0 ? (
          <li>
            <a className="act-link" href={file('pain.001')} download>
              File for the bank (pain.001 XML)
            </a>
          </li>
        ) : null}
        <li>
          <a className="plain-link" href={file('csv')} download>
            Table (CSV)
          </a>
        </li>
      </ul>
    </section>
  );
}
