/**
 * One scale: where it stands, what it can show, and how its test stands.
 */
import type { ScaleView } from '../../usecases/scales/scale-view.ts';

export interface ScaleItemProps {
  readonly scale: ScaleView;
  readonly mayChange: boolean;
  /** A figure as the reader writes it. */
  readonly show: (decimal: string) => string;
}

export function ScaleItem({ scale, mayChange, show }: ScaleItemProps) {
  const { id, name, place, owner, isOwn, capacity, division, test, version, certificate } = scale;
  const unit = scale.unit.replace('-', ' ');
  const isLate = test.is === 'overdue' || test.is === 'never-tested';
  const facts: readonly (readonly [string, string])[] = [
    ['Capacity', `${show(capacity)} ${unit}`],
    ['Division', `${show(division)} ${unit}`],
    ['Class', scale.accuracyClass],
    ['Legal for trade', scale.isLegalForTrade ? 'Yes' : 'No'],
    ...(certificate === null ? [] : [['Certificate', certificate] as const]),
    ...(scale.mayBeOff === null
      ? []
      : [['May be off when full, and still pass its test', `${show(scale.mayBeOff)} ${unit}`] as const]),
  ];
  return (
    <li className="scale-item">
      <h3>
        {name}, {place}
      </h3>
      {isOwn ? null : <p className="quiet-word">A scale of {owner}; they describe it.</p>}
      <p className={isLate ? 'fault' : undefined}>{scale.testInWords}</p>
      <dl className="facts narrow">
        {facts.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {version > 1 ? (
        <p className="hint">Version {version}. Tickets keep the version that they were weighed under.</p>
      ) : null}
      {isOwn && mayChange ? (
        <p>
          <a className="plain-link" href={`/scales/${id}`}>
            A new test, or a change
          </a>
        </p>
      ) : null}
    </li>
  );
}
