/**
 * A question before something unusual is saved.
 */
'use client';

export interface AskedProps {
  readonly doubts: readonly string[];
  readonly onYes: () => void;
  readonly onNo: () => void;
}

export function Asked({ doubts, onYes, onNo }: AskedProps) {
  return (
    <div className="refused" role="alert">
      {doubts.map((doubt) => (
        <p key={doubt}>{doubt}</p>
      ))}
      <p>What is recorded is never changed, only put right by a new version.</p>
      <div className="scale-answers">
        <button type="button" className="act" onClick={onNo}>
          Look again
        </button>
        <button type="button" className="quiet" onClick={onYes}>
          It is right, save it
        </button>
      </div>
    </div>
  );
}
