/**
 * One correction: what it changes, in figures and in money, and what the reader can do about it.
 */
import { randomUUID } from 'node:crypto';
import type { CorrectionView } from '../../usecases/corrections/read-correction-list.ts';
import type { Field } from '../forms/field.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { opening } from '../place/sentence.ts';
import { confirmCorrection, refuseCorrection, withdrawCorrection } from './correction-actions.ts';

export interface CorrectionItemProps {
  readonly correction: CorrectionView;
  readonly mayAnswer: boolean;
}

export function CorrectionItem({ correction, mayAnswer }: CorrectionItemProps) {
  const { what, partner, isOurs, reason, changes, answer, obstacle } = correction;
  return (
    <li className="correction">
      <h3>
        {opening(what)}, agreement {correction.agreementNumber}
      </h3>
      <p>
        {isOurs ? 'Your side' : partner} proposes to put it right: “{reason}”
      </p>
      {answer === null ? null : <p>{ended(correction)}</p>}
      {changes.length === 0 ? null : (
        <dl className="facts">
          {changes.map(({ name, before, after }) => (
            <div key={name}>
              <dt>{opening(name)}</dt>
              <dd>
                {before ?? 'nothing'} <span aria-hidden="true">→</span>
                <span className="visually-hidden"> becomes </span> <strong>{after ?? 'nothing'}</strong>
              </dd>
            </div>
          ))}
        </dl>
      )}
      {answer === null ? <Money correction={correction} /> : null}
      {obstacle === undefined ? null : <p className="fault">It cannot be confirmed now. {obstacle}</p>}
      {answer === null && mayAnswer ? <Answers correction={correction} /> : null}
    </li>
  );
}

function ended({ answer, answerReason, partner, isOurs }: CorrectionView): string {
  const other = isOurs ? partner : 'Your side';
  switch (answer) {
    case 'confirmed':
      return `${other} confirmed it.`;
    case 'refused':
      return `${other} refused it: “${answerReason ?? ''}”`;
    case 'withdrawn':
      return `${isOurs ? 'Your side' : partner} withdrew it.`;
    case null:
      return '';
  }
}

function Money({ correction: { loads, currency } }: Pick<CorrectionItemProps, 'correction'>) {
  if (loads.length === 0) return null;
  return (
    <>
      <p>
        {loads.length === 1 ? 'One load is' : `${loads.length} loads are`} settled anew once both sides agree:
      </p>
      <table className="money-change">
        <thead>
          <tr>
            <th scope="col">Load</th>
            <th scope="col">Now, {currency}</th>
            <th scope="col">Then, {currency}</th>
          </tr>
        </thead>
        <tbody>
          {loads.map(({ loadId, ticket, before, after }) => (
            <tr key={loadId}>
              <th scope="row">
                <a href={`/loads/${loadId}`}>{ticket}</a>
              </th>
              <td className="amount">{before}</td>
              <td className="amount">{after}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function Answers({ correction: { id, isOurs, obstacle } }: Pick<CorrectionItemProps, 'correction'>) {
  const about: readonly Field[] = [{ kind: 'hidden', name: 'correction', value: id }];
  if (isOurs) {
    return (
      <RecordForm
        action={withdrawCorrection}
        submit="Withdraw it"
        fields={about}
        requestKey={randomUUID()}
        quiet
      />
    );
  }
  return (
    <>
      {obstacle === undefined ? (
        <RecordForm
          action={confirmCorrection}
          submit="Confirm, and settle anew"
          fields={about}
          requestKey={randomUUID()}
        />
      ) : null}
      <details className="more-fields">
        <summary>Refuse it</summary>
        <RecordForm
          action={refuseCorrection}
          submit="Refuse it"
          fields={[...about, { kind: 'text', name: 'reason', label: 'Why what stands is right' }]}
          requestKey={randomUUID()}
          quiet
        />
      </details>
    </>
  );
}
