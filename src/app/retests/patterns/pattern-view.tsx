/**
 * Two that met: what there is to say, the picture, and every meeting with the question that it came from.
 */
import { dayInWords } from '../../../domain/dates/day-words.ts';
import type { MeetingView, PatternTests, PatternView } from '../../../usecases/retests/read-patterns.ts';
import { DifferencesChart } from './differences-chart.tsx';

export interface PatternPartProps {
  readonly pattern: PatternView;
  /** Of its heading. */
  readonly id: string;
  readonly today: string;
  readonly locale: string;
  /** Whether the meetings are of several agreements, so that each names its own. */
  readonly hasSeveral: boolean;
}

export function PatternPart({ pattern, id, today, locale, hasSeveral }: PatternPartProps) {
  const { about, name, unit, one, other, sentences, tests } = pattern;
  const [split, ...rest] = sentences;
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>
        {name}: {one} and {other}
      </h2>
      <p className="pattern-split">{split}</p>
      {rest.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <DifferencesChart pattern={pattern} today={today} locale={locale} />
      <div className="table-box">
        <table className="record-table meetings">
          <caption>{unit === '' ? name : `${name}, ${unit}`}</caption>
          <thead>
            <tr>
              <th scope="col">Question</th>
              <th scope="col">{about === 'weight' ? 'Weighed again' : 'Tested again'}</th>
              <th scope="col" className="count">
                {one}
              </th>
              <th scope="col" className="count">
                {other}
              </th>
            </tr>
          </thead>
          <tbody>
            {pattern.meetings.map((meeting) => (
              <Meeting key={meeting.retestId} meeting={meeting} today={today} hasSeveral={hasSeveral} />
            ))}
          </tbody>
        </table>
      </div>
      {tests ? <Tests tests={tests} /> : null}
    </section>
  );
}

function Meeting(props: {
  readonly meeting: MeetingView;
  readonly today: string;
  readonly hasSeveral: boolean;
}) {
  const { meeting, today, hasSeveral } = props;
  const { retestId, subject, agreement, on, one, other, differs } = meeting;
  return (
    <tr>
      <th scope="row">
        <a href={`/retests/${retestId}`}>{subject}</a>{' '}
        {hasSeveral ? <span className="under">agreement {agreement}</span> : null}
      </th>
      <td className="day">{dayInWords(on, today)}</td>
      <td className="count">{one}</td>
      <td className="count">
        {other} <span className="under">{differs}</span>
      </td>
    </tr>
  );
}

function Tests({ tests: { signTest, tTest } }: { readonly tests: PatternTests }) {
  return (
    <details className="more-fields">
      <summary>The tests behind it</summary>
      <p>
        {signTest === undefined
          ? 'No sign test: all figures agree.'
          : `Sign test, two-sided, ties left out: p ${signTest}. It counts who read higher, not by how much.`}
      </p>
      <p>
        {tTest === undefined
          ? 'No t test: the differences are all the same.'
          : `Paired t test, two-sided: t ${tTest.t} on ${tTest.freedom} degrees of freedom, p ${tTest.p}. It weighs how far apart they are as well, and holds where the differences scatter evenly about their average.`}
      </p>
    </details>
  );
}
