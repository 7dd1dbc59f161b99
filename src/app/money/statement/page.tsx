/**
 * Statements between the reader and one partner, over a period that the reader chooses.
 */
import { figuresFor } from '../../../documents/figures.ts';
import type { Context } from '../../../usecases/context.ts';
import { readMoney } from '../../../usecases/money/read-money.ts';
import { readStatements, type StatementWanted } from '../../../usecases/money/read-statement.ts';
import { Refusal } from '../../../usecases/refusal.ts';
import { type Asked, askedText } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { statementAddress, statementWanted } from './statement-request.ts';
import { StatementView } from './statement-view.tsx';

export const metadata = { title: 'Statement' };

export default async function StatementPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const wanted = statementWanted((name) => askedText(asked, name));
  if (wanted.partnerId === undefined && wanted.agreementId === undefined) {
    return <PartnerChoice locale={locale} />;
  }
  const { statements, fault } = await ask((context) => statementsOf(context, wanted));
  const [first] = statements;
  const figures = figuresFor(locale);
  return (
    <>
      <h1>Statement with {first?.with}</h1>
      <p className="quiet-word">
        For {first?.of}, who is “you” here. {first?.with} reads the same figures the other way round.
      </p>
      {fault === undefined ? null : (
        <p className="refused" role="alert">
          {fault} The whole time is shown.
        </p>
      )}
      <PeriodForm wanted={wanted} />
      {statements.map((statement) => (
        <StatementView
          key={statement.currency}
          statement={statement}
          figures={figures}
          wanted={fault === undefined ? wanted : { ...wanted, from: undefined, to: undefined }}
          isOneOfMany={statements.length > 1}
        />
      ))}
    </>
  );
}

/** The statements; where the days cannot be read, those of all time, and what is wrong with the days. */
async function statementsOf(context: Context, wanted: StatementWanted) {
  try {
    return { statements: await readStatements(context, wanted), fault: undefined };
  } catch (error) {
    if (!(error instanceof Refusal) || error.code !== 'bad-input') throw error;
    const whole = { ...wanted, from: undefined, to: undefined };
    const fault = error.problems
      .map(({ column, message }) => `The ${column === 'to' ? 'last' : 'first'} day ${message}.`)
      .join(' ');
    return { statements: await readStatements(context, whole), fault };
  }
}

function PeriodForm({ wanted }: { readonly wanted: StatementWanted }) {
  const { partnerId, agreementId, from, to } = wanted;
  return (
    <form action="/money/statement" method="get" className="period-form">
      {partnerId === undefined ? null : <input type="hidden" name="partner" value={partnerId} />}
      {agreementId === undefined ? null : <input type="hidden" name="agreement" value={agreementId} />}
      <div className="field">
        <label htmlFor="period-from">From</label>
        <input type="date" id="period-from" name="from" defaultValue={from} />
      </div>
      <div className="field">
        <label htmlFor="period-to">To</label>
        <input type="date" id="period-to" name="to" defaultValue={to} />
      </div>
      <button type="submit" className="quiet">
        Show these days
      </button>
      {from === undefined && to === undefined ? null : (
        <a className="plain-link" href={statementAddress('/money/statement', { partnerId, agreementId })}>
          All until today
        </a>
      )}
    </form>
  );
}

async function PartnerChoice({ locale }: { readonly locale: string }) {
  const { partners } = await ask((context) => readMoney(context, { locale }));
  const named = new Map(partners.map(({ partnerId, partner }) => [partnerId, partner]));
  return (
    <>
      <h1>Statement</h1>
      <p>{named.size === 0 ? 'You have no agreement with anybody yet.' : 'With whom?'}</p>
      <ul className="pick">
        {[...named].map(([id, name]) => (
          <li key={id}>
            <a className="act-link" href={`/money/statement?partner=${id}`}>
              {name}
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}
