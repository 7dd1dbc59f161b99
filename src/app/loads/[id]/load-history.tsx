/**
 * Everything that was recorded of a load, in the journal's order.
 */
import type { HistoryView } from '../../../usecases/loads/read-load.ts';

const KINDS: Readonly<Record<string, string>> = {
  load: 'Ticket recorded',
  result: 'Result recorded',
  election: 'Pricing date named',
  accept: 'Accepted',
  refuse: 'Refused',
  settlement: 'Settled',
  'load-version': 'Ticket put right',
  'result-answer': 'Result confirmed or contested',
  correction: 'Correction proposed',
  'correction-answer': 'Correction answered',
  allowance: 'Allowance proposed',
  'allowance-answer': 'Allowance answered',
};

export interface LoadHistoryProps {
  readonly history: readonly HistoryView[];
  readonly timeZone: string;
  readonly isRefused: boolean;
  /** The other party, whose people are not named here. */
  readonly partner: string;
}

export function LoadHistory({ history, timeZone, isRefused, partner }: LoadHistoryProps) {
  return (
    <section aria-labelledby="history">
      <h2 id="history">History</h2>
      <p className="hint">
        Times in {timeZone}. Each entry of the journal has a number, and a fingerprint that holds the one
        before it.
      </p>
      <ol className="history">
        {history.map(({ at, kind, person, sequence, fingerprint }) => (
          <li key={sequence}>
            <span className="sequence">{sequence}</span>
            <span>
              {kind === 'settlement' && isRefused ? 'Closed as refused' : (KINDS[kind] ?? kind)}
              {` by ${person ?? partner}`}
            </span>
            <span className="history-when">{at}</span>
            <code title={fingerprint}>{fingerprint.slice(0, 12)}…</code>
          </li>
        ))}
      </ol>
    </section>
  );
}
