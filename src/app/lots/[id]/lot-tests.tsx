/**
 * A lot's tests beside one another, as laboratories reported them.
 */
import { MEASURE_UNITS, TESTED } from '../../../domain/agreement/measures.ts';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import { SamplingCaution } from '../cautions.tsx';
import { measureTitle } from '../lot-words.ts';

export function LotTests({ view: { summary, tests, files, document } }: { readonly view: LotView }) {
  const measures = TESTED.filter((measure) => tests.some((test) => test[measure] !== undefined));
  const isStored = document['storage'] !== 'standing';
  return (
    <section>
      <h2>Tests</h2>
      {tests.length === 0 ? (
        <p>No test yet. The seller expects {summary.moisture} moisture.</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by the keyboard, too
        <div className="wide-table" tabIndex={0}>
          <table className="grid lot-tests">
            <thead>
              <tr>
                <th scope="col">Tested on</th>
                <th scope="col">Laboratory</th>
                {measures.map((measure) => (
                  <th scope="col" key={measure}>
                    {measureTitle(measure)}
                    <span className="changed">{MEASURE_UNITS[measure]}</span>
                  </th>
                ))}
                <th scope="col">Report</th>
              </tr>
            </thead>
            <tbody>
              {tests.map((test, index) => {
                const report = files.find(({ id }) => id === test.file);
                return (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two tests may be alike, and their order stands
                  <tr key={index}>
                    <th scope="row">{test.on}</th>
                    <td>
                      {test.laboratory}
                      {test.method === undefined ? null : <span className="changed">{test.method}</span>}
                    </td>
                    {measures.map((measure) => (
                      <td key={measure}>{test[measure] ?? '–'}</td>
                    ))}
                    <td>
                      {report ? <a href={`/lots/${summary.id}/files/${report.id}`}>{report.name}</a> : '–'}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      {isStored ? <SamplingCaution /> : null}
    </section>
  );
}
