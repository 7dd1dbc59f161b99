/**
 * What a question may come to, a row for each outcome, before anybody pays for a test.
 */
import type { Figures } from '../../documents/figures.ts';
import type { Possible } from '../../usecases/retests/outlook.ts';
import { bearerWords, changeWords, type OutlookNames, possibleWords } from './outlook-words.ts';

export interface OutlookTableProps {
  readonly outlook: readonly Possible[];
  readonly names: OutlookNames & { readonly method: string };
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
          </tr>
        </thead>
        <tbody>
          {outlook.map((possible) => (
            <tr key={possible.kind}>
              <th scope="row">
                {possibleWords(possible.kind, `${figures.show(possible.value)} ${unit}`.trim(), names)}
              </th>
              <td>
                {possible.changed === undefined
                  ? `It could not stand: ${possible.obstacle ?? ''}`
                  : changeWords(possible.changed, names, figures)}
                <span className="under">Tests paid by: {bearerWords(possible.bearer, names)}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
