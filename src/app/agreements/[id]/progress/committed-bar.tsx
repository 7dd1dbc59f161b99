/**
 * What was delivered as a bar, with the range that keeps the promise marked on it.
 */
import type { CommittedView } from '../../../../usecases/agreements/progress-view.ts';
import { committedSentence } from './progress-words.ts';

const ofWhole = (part: number) => `${Number((part * 100).toFixed(3))}%`;

export function CommittedBar({ committed }: { readonly committed: CommittedView }) {
  const { bar, uncounted, tolerancePercent } = committed;
  const hasRange = tolerancePercent !== undefined;
  return (
    <div className="committed">
      <p className="standing">{committedSentence(committed)}</p>
      {uncounted === 0 ? null : (
        <p>
          {uncounted === 1 ? 'One load is' : `${uncounted} loads are`} not tested yet and not counted: the
          promise is in dry tons.
        </p>
      )}
      <svg width="100%" height="30" aria-hidden="true" focusable="false">
        <rect className="committed-room" x="0" y="5" width="100%" height="16" />
        <rect className="committed-done" x="0" y="5" width={ofWhole(bar.delivered)} height="16" />
        <line className="committed-range" x1={ofWhole(bar.least)} x2={ofWhole(bar.most)} y1="26" y2="26" />
        {hasRange ? (
          <line className="committed-range" x1={ofWhole(bar.least)} x2={ofWhole(bar.least)} y1="0" y2="28" />
        ) : null}
        <line className="committed-range" x1={ofWhole(bar.most)} x2={ofWhole(bar.most)} y1="0" y2="28" />
      </svg>
    </div>
  );
}
