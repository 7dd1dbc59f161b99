/**
 * This season beside the one before.
 */
import { dayInWords } from '../../../../domain/dates/day-words.ts';
import type { SeasonPage } from '../../../../usecases/season/read-season-page.ts';

export function SeasonCompared({ page }: { readonly page: SeasonPage }) {
  const { last, seller, buyer, number, today, side } = page;
  return (
    <section aria-labelledby="before">
      <h2 id="before">Against the season before</h2>
      {last === undefined ? (
        <p>
          There is none to compare with: {side === 'adviser' ? 'you see' : 'this record holds'} no earlier
          agreement of {seller} and {buyer} for the same feed whose deliveries were over before these began.
        </p>
      ) : (
        <>
          <p>
            The one before, of the same parties and the same feed, is agreement{' '}
            <a href={`/agreements/${last.agreementId}/season`}>{last.number}</a>, delivered from{' '}
            {dayInWords(last.first, today)} to {dayInWords(last.last, today)}. All of it stands beside what
            has come under {number} so far.
          </p>
          <table className="money-table season-compared">
            <thead>
              <tr>
                <th scope="col">Figure</th>
                <th scope="col" className="amount">
                  This season <span className="under">{number}</span>
                </th>
                <th scope="col" className="amount">
                  The one before <span className="under">{last.number}</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {last.compared.map(({ name, unit, now, before, differs }) => (
                <tr key={name}>
                  <th scope="row">
                    {name} <span className="under">{unit}</span>
                  </th>
                  <td className="amount">
                    {now ?? 'none yet'} <span className="under">{differs}</span>
                  </td>
                  <td className="amount">{before ?? 'none'}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="hint">
            Days are counted to when something was done in this record. A season that was brought in from
            files afterwards had its prices on that day.
          </p>
        </>
      )}
    </section>
  );
}
