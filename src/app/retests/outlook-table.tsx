/**
 * What a question may come to, a row for each outcome, before anybody pays for a test.
 */
import type { Figures } from '../../documents/figures.ts';
import type { Possible } from '../../usecases/retests/outlook.ts';
import { bearerWords, changeWords, type OutlookNames, possibleWords } from './outlook-words.ts';

export interface OutlookTableProps {
  readonly outlook: readonly Possible[];
  readonly names: OutlookNames;
  readonly unit: string;
  readonly figures: Figures;
  /** What it is about, for whoever hears the table. */
  readonly caption: string;
}

export function OutlookTable({ outlook, names, unit, figures, caption }: OutlookTableProps) {
  return (
    <div className="wide-table">
      <table className="money-table outlook">
        <caption className="visually-hidden">{caption}</caption>
        <thead>
          <tr>
            <th scope="col">If</th>
            <th scope="col">Then</th>
            <th scope="col">The tests are paid by</th>
          </tr>
        </thead>
        <tbody>
          {outlook.map((possible) => (
            <tr key={possible.kind}>
              <th scope="row">
                {possibleWords(possible.kind, names)}:{' '}
                <strong className="amount">
                  {figures.show(possible.value)} {unit}
                </strong>
              </th>
              <td>
                {possible.changed === undefined
                  ? `It could not stand: ${possible.obstacle ?? ''}`
                  : changeWords(possible.changed, names, figures)}
              </td>
              <td>{bearerWords(possible.bearer, names)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
