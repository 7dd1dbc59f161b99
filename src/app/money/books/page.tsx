/**
 * For the bookkeeper: the money entries as a file, what it holds, and the accounts that it names.
 */
import { readAgreementList } from '../../../usecases/agreements/read-agreement-list.ts';
import { readChart } from '../../../usecases/money/export-journal.ts';
import { withPartner } from '../../place/partner-words.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';

export const metadata = { title: 'Books' };

export default async function BooksPage() {
  const locale = await readerLocale();
  const { agreements, chart } = await ask(async (context) => ({
    agreements: (await readAgreementList(context, { locale })).filter(({ side }) => side !== 'adviser'),
    chart: readChart(context),
  }));
  return (
    <>
      <h1>Books</h1>
      <p className="quiet-word">
        <a href="/money">Money</a>
      </p>
      <div className="narrow">
        <p>
          One file with every entry about money, for any accounting program: loads as they settled, invoices,
          notes, payments that were confirmed, discounts, interest and fees. What was put right later is there
          as an entry of its own; nothing is left out or changed.
        </p>
        <form method="get" action="/money/journal.csv" className="record-form">
          <div className="fields">
            {agreements.length < 2 ? null : (
              <div className="field">
                <label htmlFor="books-agreement">Agreement</label>
                <select id="books-agreement" name="agreement" defaultValue="">
                  <option value="">all of them</option>
                  {agreements.map((agreement) => (
                    <option key={agreement.id} value={agreement.id}>
                      {withPartner(agreement)}
                    </option>
                  ))}
                </select>
              </div>
            )}
            <div className="field-row">
              <div className="field">
                <label htmlFor="books-from">From</label>
                <input id="books-from" name="from" type="date" aria-describedby="books-days" />
              </div>
              <div className="field">
                <label htmlFor="books-to">To</label>
                <input id="books-to" name="to" type="date" aria-describedby="books-days" />
              </div>
            </div>
            <p className="hint" id="books-days">
              Both days are included. Leave them empty for everything. A day is the one on which an entry was
              recorded, in the agreement’s time zone.
            </p>
          </div>
          <button type="submit" className="act">
            Download the entries (CSV)
          </button>
        </form>
        <p className="hint">
          Each row is one account of one entry: day, number of the entry, document, account, what it is about,
          and a debit or a credit. The rows of an entry balance. Compare the file with your own books before
          you rely on it; a licensed accountant decides how it is booked and taxed.
        </p>
      </div>
      <section aria-labelledby="accounts">
        <h2 id="accounts">The accounts in it</h2>
        <p>The numbers are ours. Map each to an account of your own books, once.</p>
        <div className="beside">
          <Chart title="Where you sell" accounts={chart.seller} />
          <Chart title="Where you buy" accounts={chart.buyer} />
        </div>
      </section>
    </>
  );
}

function Chart({
  title,
  accounts,
}: {
  readonly title: string;
  readonly accounts: readonly { readonly code: string; readonly name: string }[];
}) {
  return (
    <table className="account-list">
      <caption>{title}</caption>
      <thead>
        <tr>
          <th scope="col">Account</th>
          <th scope="col">Name</th>
        </tr>
      </thead>
      <tbody>
        {accounts.map(({ code, name }) => (
          <tr key={code}>
            <td>{code}</td>
            <th scope="row">{name}</th>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
