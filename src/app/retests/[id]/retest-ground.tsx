/**
 * What a question rests on: the rule, the first figure, the sample with its seals, and the loads.
 */
import type { Figures } from '../../../documents/figures.ts';
import type { RecordedWeighing, RetestRecord } from '../../../domain/retests/retest-record.ts';

export interface RetestGroundProps {
  readonly record: RetestRecord;
  readonly figures: Figures;
}

export function RetestGround({ record, figures }: RetestGroundProps) {
  const { rule, loads, parts, sample } = record;
  return (
    <>
      <section aria-labelledby="rule">
        <h2 id="rule">How it is decided</h2>
        {rule.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        <p className="hint">A decision is its rule’s, not a person’s. What stood before stays to be read.</p>
      </section>
      <First record={record} figures={figures} />
      {sample === null ? null : (
        <section aria-labelledby="seals">
          <h2 id="seals">Sample {sample} and its seals</h2>
          <p>
            {record.taking
              ? `Taken by ${record.taking.takenBy}: ${record.taking.how}.`
              : 'Nobody recorded how it was taken.'}
          </p>
          <ul>
            {parts.map(({ part, seal, isAirtight, keptWhere, keptUntil, handovers }) => {
              const now = handovers.at(-1);
              const isWhole = handovers.every(({ isSealIntact }) => isSealIntact);
              return (
                <li key={seal}>
                  The {part}’s part, seal {seal}
                  {isAirtight ? ', airtight' : ''}: {now ? `with ${now.toWhom}, ${now.keptWhere}` : keptWhere}
                  {(now ? now.keptUntil : keptUntil) === null
                    ? ''
                    : `, kept until ${now ? now.keptUntil : keptUntil}`}
                  {isWhole ? '' : '. Its seal was found broken'}
                </li>
              );
            })}
          </ul>
        </section>
      )}
      <section aria-labelledby="loads">
        <h2 id="loads">{loads.length === 1 ? 'Its load' : `Its ${loads.length} loads`}</h2>
        <table className="money-change">
          <thead>
            <tr>
              <th scope="col">Load</th>
              <th scope="col">Before, {record.currency}</th>
              <th scope="col">
                {record.ending ? 'After' : 'Now'}, {record.currency}
              </th>
            </tr>
          </thead>
          <tbody>
            {loads.map(({ loadId, ticket, before, now }) => (
              <tr key={loadId}>
                <th scope="row">
                  <a href={`/loads/${loadId}`}>{ticket}</a>
                </th>
                <td className="amount">{before === null ? 'not settled' : figures.show(before)}</td>
                <td className="amount">{now === null ? 'not settled' : figures.show(now)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

function First({ record, figures }: RetestGroundProps) {
  const { firstReport, firstWeighing, first, unit } = record;
  return (
    <section aria-labelledby="first">
      <h2 id="first">The first figure</h2>
      {firstWeighing ? <p>{weighedWords(firstWeighing, figures)}</p> : null}
      {firstReport ? (
        <p>
          {figures.show(first)} {unit}, reported by{' '}
          {firstReport.laboratory ?? 'a laboratory that nobody named'}
          {firstReport.method === null ? '' : ` (${firstReport.method})`}
          {firstReport.reportedOn === null ? '' : `, on ${firstReport.reportedOn}`}.
        </p>
      ) : null}
    </section>
  );
}

function weighedWords({ gross, tare, unit, grossScale }: RecordedWeighing, figures: Figures): string {
  const scale = grossScale
    ? `${grossScale.name} (class ${grossScale.accuracyClass}, ${grossScale.division} ${grossScale.unit})`
    : 'a scale that the ticket does not name: the second scale’s tolerance is taken for both';
  return `Gross ${figures.show(gross)} ${unit}, tare ${figures.show(tare)} ${unit}, by ${scale}.`;
}
