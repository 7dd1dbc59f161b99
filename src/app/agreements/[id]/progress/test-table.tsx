/**
 * Mean and spread of each test, in figures and as a box from the least to the greatest.
 */
import type { TestView } from '../../../../usecases/agreements/progress-view.ts';

const ofWhole = (part: number) => `${Number((part * 100).toFixed(2))}%`;

export function TestTable({ tests }: { readonly tests: readonly TestView[] }) {
  return (
    <>
      <p>
        Means are weighted by the dry matter of the loads, those marked “as fed” by their weight as delivered.
        A composite counts for every load that it covers. The spread is of the results, each once.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by the keyboard, too */}
      <div className="wide-table" tabIndex={0}>
        <table className="grid table-figures">
          <thead>
            <tr>
              <th scope="col">Test</th>
              <th scope="col">Mean</th>
              <th scope="col">Least</th>
              <th scope="col">Quarter below</th>
              <th scope="col">Half below</th>
              <th scope="col">Three quarters below</th>
              <th scope="col">Greatest</th>
              <th scope="col">Spread</th>
              <th scope="col">Results, loads</th>
            </tr>
          </thead>
          <tbody>
            {tests.map((test) => (
              <tr key={test.name}>
                <th scope="row">
                  {test.name}
                  <span className="quiet-word">
                    {' '}
                    {test.unit}
                    {test.weightedBy === 'as-fed' && !test.unit.includes('as-fed') ? ', as fed' : ''}
                  </span>
                </th>
                <td>
                  <strong>{test.mean}</strong>
                </td>
                <td>{test.least}</td>
                <td>{test.lowerQuartile}</td>
                <td>{test.median}</td>
                <td>{test.upperQuartile}</td>
                <td>{test.greatest}</td>
                <td className="spread">{test.box ? <Box box={test.box} /> : 'all the same'}</td>
                <td>
                  {test.results}, {test.loads}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Box({ box }: { readonly box: NonNullable<TestView['box']> }) {
  return (
    <svg width="120" height="18" aria-hidden="true" focusable="false">
      <line className="spread-line" x1="0" x2="100%" y1="9" y2="9" />
      <rect
        className="spread-box"
        x={ofWhole(box.lower)}
        width={ofWhole(box.upper - box.lower)}
        y="2"
        height="14"
      />
      <line className="spread-median" x1={ofWhole(box.median)} x2={ofWhole(box.median)} y1="2" y2="16" />
      <circle className="spread-mean" cx={ofWhole(box.mean)} cy="9" r="3" />
    </svg>
  );
}
