/**
 * The sealed parts of a sample: where each is and until when, and through whose hands it went.
 */
import type { PartView } from '../../../../usecases/samples/read-samples.ts';
import { opening } from '../../../place/sentence.ts';

export interface PartsTableProps {
  readonly parts: readonly PartView[];
  readonly sample: string;
  readonly clock: (instant: string) => string;
  /** Where a part is handed over; undefined for who may not. */
  readonly handOver: ((partId: string) => string) | undefined;
}

export function PartsTable({ parts, sample, clock, handOver }: PartsTableProps) {
  const moves = parts.flatMap((part) => part.handovers.map((move) => ({ ...move, seal: part.seal })));
  return (
    <>
      <section className="table-box" aria-label={`Sealed parts of sample ${sample}`} tabIndex={-1}>
        <table className="record-table">
          <thead>
            <tr>
              <th scope="col">For</th>
              <th scope="col">Seal</th>
              <th scope="col">Airtight</th>
              <th scope="col">Held by</th>
              <th scope="col">Kept where</th>
              <th scope="col">Until</th>
              {handOver ? <td /> : null}
            </tr>
          </thead>
          <tbody>
            {parts.map((part) => (
              <tr key={part.id}>
                <th scope="row">{opening(part.part)}</th>
                <td>
                  {part.seal}
                  {part.isSealIntact ? '' : ' (found broken)'}
                </td>
                <td>{part.isAirtight ? 'Yes' : 'No'}</td>
                <td>{opening(part.holder)}</td>
                <td>{part.keptWhere}</td>
                <td>
                  {part.keptUntil ?? 'No day named'}
                  {part.goneBefore === null ? null : (
                    <span className="fault"> too soon: questions until {part.goneBefore}</span>
                  )}
                </td>
                {handOver ? (
                  <td>
                    <a href={handOver(part.id)}>
                      Hand over<span className="visually-hidden"> seal {part.seal}</span>
                    </a>
                  </td>
                ) : null}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {moves.length === 0 ? null : (
        <ul className="moves">
          {moves.map(({ id, seal, handedAt, toWhom, keptWhere, keptUntil, isSealIntact }) => (
            <li key={id}>
              {clock(handedAt)}: seal {seal} to {toWhom}, {isSealIntact ? 'whole' : 'found broken'}; kept in{' '}
              {keptWhere}
              {keptUntil === null ? '' : ` until ${keptUntil}`}.
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
