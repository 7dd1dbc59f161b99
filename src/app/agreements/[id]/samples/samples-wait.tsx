/**
 * What is missing around the samples of an agreement, in sentences, the oldest first.
 */
import type { SamplesView } from '../../../../usecases/samples/read-samples.ts';

/** As many names as a person will read. */
const MOST_NAMED = 12;

export interface SamplesWaitProps {
  readonly view: Pick<SamplesView, 'plan' | 'unsampled' | 'awaited' | 'goneTooSoon'>;
  readonly mayTake: boolean;
  readonly mayReport: boolean;
  readonly agreementId: string;
}

export function SamplesWait({ view, mayTake, mayReport, agreementId }: SamplesWaitProps) {
  const { plan, unsampled, awaited, goneTooSoon } = view;
  if (unsampled.length + awaited.length + goneTooSoon.length === 0) {
    return <p>Every load has its sample, and every sample its result.</p>;
  }
  return (
    <ul className="waiting">
      {unsampled.length === 0 ? null : (
        <li className={mayTake ? 'yours' : undefined}>
          <p>
            {count(unsampled.length, 'load has', 'loads have')} no sample:{' '}
            {named(unsampled.map(({ ticket }) => ticket))}.
            {plan === 'per-day' ? ' Nor is there a sample of their days.' : ''} The oldest was delivered on{' '}
            {unsampled[0]?.deliveredOn}.
          </p>
        </li>
      )}
      {awaited.length === 0 ? null : (
        <li className={mayReport ? 'yours' : undefined}>
          <p>
            {count(awaited.length, 'sample waits for its result', 'samples wait for their results')}:{' '}
            {named(awaited)}.
          </p>
          {mayReport ? (
            <a className="plain-link" href={`/results/new?agreement=${agreementId}`}>
              Enter a result
            </a>
          ) : null}
        </li>
      )}
      {goneTooSoon.length === 0 ? null : (
        <li className={mayTake ? 'yours' : undefined}>
          <p>
            {count(goneTooSoon.length, 'sealed part is', 'sealed parts are')} kept for too short a time: the
            figures can be questioned for longer. Seals {named(goneTooSoon)}.
          </p>
        </li>
      )}
    </ul>
  );
}

function count(number: number, one: string, many: string): string {
  return number === 1 ? `One ${one}` : `${number} ${many}`;
}

function named(names: readonly string[]): string {
  const rest = names.length - MOST_NAMED;
  const shown = names.slice(0, MOST_NAMED).join(', ');
  return rest > 0 ? `${shown} and ${rest} more` : shown;
}
