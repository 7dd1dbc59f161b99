/**
 * The tables of a statement. Each change stands in the column of the one whom it favours, and each balance says in words which
 * way it is owed, as on paper.
 */
import { signOf, turned } from '../../../documents/amount-strings.ts';
import type { Figures } from '../../../documents/figures.ts';
import { directionOf, onAccountDirection, sizeText } from '../../../documents/statement/statement-setting.ts';
import { AGES } from '../../../documents/statement/statement-words.ts';
import type { OpenItem, Statement, StatementEntry } from '../../../domain/money/statement.ts';

export interface TablesProps {
  readonly statement: Statement;
  readonly figures: Figures;
}

export function EntriesTable({ statement, figures }: TablesProps) {
  const { entries, currency, from, to, opening, closing } = statement;
  return (
    <section aria-labelledby={`recorded-${currency}`}>
      <h3 id={`recorded-${currency}`}>What was recorded</h3>
      {entries.length === 0 ? (
        <p>
          Nothing was recorded from {from} to {to}.
        </p>
      ) : null}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by keyboard */}
      <section className="wide-table" aria-labelledby={`recorded-${currency}`} tabIndex={0}>
        <table className="money-table statement-table">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col" className="amount">
                In your favour
              </th>
              <th scope="col" className="amount">
                In their favour
              </th>
              <th scope="col" className="amount">
                Balance, {currency}
              </th>
            </tr>
          </thead>
          <tbody>
            <BoundRow name="Opening balance" day={from} amount={opening} figures={figures} />
            {entries.map((entry, index) => (
              // Two entries may read alike; they never move.
              // biome-ignore lint/suspicious/noArrayIndexKey: entries never move
              <EntryRow key={index} entry={entry} statement={statement} figures={figures} />
            ))}
          </tbody>
          <tfoot>
            <BoundRow name="Closing balance" day={to} amount={closing} figures={figures} />
          </tfoot>
        </table>
      </section>
    </section>
  );
}

interface BoundProps {
  readonly name: string;
  readonly day: string;
  readonly amount: string;
  readonly figures: Figures;
}

function BoundRow({ name, day, amount, figures }: BoundProps) {
  return (
    <tr>
      <th scope="row">
        {name}
        <span className="under day">{day}</span>
      </th>
      <td className="amount" />
      <td className="amount" />
      <Balance amount={amount} figures={figures} />
    </tr>
  );
}

function Balance({ amount, figures }: Pick<BoundProps, 'amount' | 'figures'>) {
  return (
    <td className="amount">
      {sizeText(amount, figures)}
      <span className="under day">{directionOf(amount)}</span>
    </td>
  );
}

function EntryRow({ entry, statement, figures }: TablesProps & { readonly entry: StatementEntry }) {
  const { on, name, detail, amount, balance, agreement } = entry;
  const change = sizeText(amount, figures);
  const isForReader = signOf(amount) >= 0;
  const of = statement.agreements.length > 1 ? `agreement ${agreement}` : '';
  return (
    <tr>
      <th scope="row">
        {name}
        <span className="under">{[on, of, detail].filter((part) => part !== '').join(', ')}</span>
      </th>
      <td className="amount">{isForReader ? change : ''}</td>
      <td className="amount">{isForReader ? '' : change}</td>
      <Balance amount={balance} figures={figures} />
    </tr>
  );
}

export function AgeingTable({ statement: { ageing, currency }, figures }: TablesProps) {
  const ages = AGES.filter(([age]) => signOf(ageing[age]) !== 0);
  if (ages.length === 0) return null;
  return (
    <section aria-labelledby={`ages-${currency}`}>
      <h3 id={`ages-${currency}`}>How late it is</h3>
      <table className="money-table">
        <thead>
          <tr>
            <th scope="col">How late</th>
            <th scope="col">Which way</th>
            <th scope="col" className="amount">
              Open, {currency}
            </th>
          </tr>
        </thead>
        <tbody>
          {ages.map(([age, name]) => (
            <tr key={age}>
              <th scope="row">{name}</th>
              <td className="day">{(age === 'onAccount' ? onAccountDirection : directionOf)(ageing[age])}</td>
              <td className="amount">{sizeText(ageing[age], figures)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">Balance</th>
            <td className="day">{directionOf(ageing.total)}</td>
            <td className="amount">{sizeText(ageing.total, figures)}</td>
          </tr>
        </tfoot>
      </table>
    </section>
  );
}

export function OpenTable({ statement, figures }: TablesProps) {
  const { open, currency } = statement;
  if (open.length === 0) return null;
  return (
    <section aria-labelledby={`open-${currency}`}>
      <h3 id={`open-${currency}`}>Open documents</h3>
      <table className="money-table">
        <thead>
          <tr>
            <th scope="col">Document</th>
            <th scope="col">Due</th>
            <th scope="col" className="amount">
              Open, {currency}
            </th>
          </tr>
        </thead>
        <tbody>
          {open.map((item) => (
            <OpenRow
              key={`${item.agreement} ${item.name}`}
              item={item}
              statement={statement}
              figures={figures}
            />
          ))}
        </tbody>
      </table>
    </section>
  );
}

function OpenRow({ item, statement, figures }: TablesProps & { readonly item: OpenItem }) {
  const { name, agreement, issuedOn, dueOn, daysLate, amount, open, held, kind } = item;
  // Told in the direction of what is open: only a document that turned round has a sign here.
  const issued = figures.show(signOf(open) < 0 ? turned(amount) : amount);
  const under = [
    ...(issuedOn === null ? [] : [`issued ${issuedOn} at ${issued}`]),
    ...(statement.agreements.length > 1 ? [`agreement ${agreement}`] : []),
  ];
  return (
    <tr>
      <th scope="row">
        {name}
        {under.length === 0 ? null : <span className="under">{under.join(', ')}</span>}
      </th>
      <td className="day">
        {dueOn ?? ''}
        {daysLate === 0 ? null : (
          <strong className="under late day">
            {daysLate === 1 ? 'one day late' : `${daysLate} days late`}
          </strong>
        )}
      </td>
      <td className="amount">
        {sizeText(open, figures)}
        <span className="under">{(kind === null ? onAccountDirection : directionOf)(open)}</span>
        {signOf(held) === 0 ? null : (
          <span className="under">of which {sizeText(held, figures)} is held, and not due</span>
        )}
      </td>
    </tr>
  );
}
