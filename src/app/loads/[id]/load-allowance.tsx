/**
 * Money off that the two sides agree on for a load outside its ranges, and what either can do about it.
 */
import { randomUUID } from 'node:crypto';
import type { AllowanceView } from '../../../usecases/loads/agree-allowance.ts';
import type { LoadView } from '../../../usecases/loads/read-load.ts';
import type { Field } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { confirmAllowance, propose, refuseAllowance, withdrawAllowance } from './allowance-actions.ts';

export interface LoadAllowanceProps {
  readonly load: LoadView;
  /** Whether the reader may propose and answer. */
  readonly mayAnswer: boolean;
  /** Of this load, the first proposed first. */
  readonly allowances: readonly AllowanceView[];
}

export function LoadAllowance({ load, mayAnswer, allowances }: LoadAllowanceProps) {
  const open = allowances.find(({ answer }) => answer === null);
  const isAgreed = allowances.some(({ answer }) => answer === 'confirmed');
  const mayPropose = mayAnswer && isUndecided(load) && !open && !isAgreed;
  if (allowances.length === 0 && !mayPropose) return null;
  const partner = load.side === 'seller' ? load.buyer : load.seller;
  return (
    <section aria-labelledby="allowance">
      <h2 id="allowance">Accept it at an allowance</h2>
      {allowances.map((allowance) => (
        <p key={allowance.id}>{inWords(allowance, partner)}</p>
      ))}
      {open && mayAnswer ? <Answers load={load} allowance={open} /> : null}
      {mayPropose ? (
        <details className="more-fields">
          <summary>Propose money off to {partner}</summary>
          <div className="narrow">
            <p>Once {partner} confirms it, the load is accepted, and the money is taken off its price.</p>
            <RecordForm
              action={propose}
              submit="Propose it"
              fields={proposalFields(load, partner)}
              requestKey={randomUUID()}
              scope="allowance"
              quiet
            />
          </div>
        </details>
      ) : null}
    </section>
  );
}

/** Whether the buyer has yet to decide, or refused it and nothing is closed. */
function isUndecided({ standing, history, isVoid }: LoadView): boolean {
  if (isVoid || history.some(({ kind }) => kind === 'settlement')) return false;
  return (
    (standing.status === 'waiting' && standing.reason === 'choice-needed') || standing.status === 'refused'
  );
}

function inWords({ words, reason, isOurs, answer, answerReason }: AllowanceView, partner: string): string {
  const [proposer, other] = isOurs ? ['Your side', partner] : [partner, 'Your side'];
  const proposed = `${proposer} ${answer === null ? 'proposes' : 'proposed'} ${words}: “${reason}”.`;
  switch (answer) {
    case null:
      return `${proposed} ${isOurs ? `${partner} has yet to answer.` : 'It waits for your answer.'}`;
    case 'confirmed':
      return `${proposed} ${other} confirmed it, so the load is accepted at that.`;
    case 'refused':
      return `${proposed} ${other} refused it: “${answerReason ?? ''}”.`;
    case 'withdrawn':
      return `${proposed} ${isOurs ? 'Your side' : partner} withdrew it.`;
  }
}

function Answers({ load, allowance }: { readonly load: LoadView; readonly allowance: AllowanceView }) {
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'load', value: load.id },
    { kind: 'hidden', name: 'proposal', value: allowance.id },
  ];
  if (allowance.isOurs) {
    return (
      <RecordForm
        action={withdrawAllowance}
        submit="Withdraw it"
        fields={about}
        requestKey={randomUUID()}
        quiet
      />
    );
  }
  return (
    <>
      <RecordForm
        action={confirmAllowance}
        submit={`Confirm: ${allowance.words}`}
        fields={about}
        requestKey={randomUUID()}
      />
      <details className="more-fields">
        <summary>Refuse it</summary>
        <RecordForm
          action={refuseAllowance}
          submit="Refuse this allowance"
          fields={[...about, { kind: 'text', name: 'reason', label: 'Why not' }]}
          requestKey={randomUUID()}
          scope="refuse-allowance"
          quiet
        />
      </details>
    </>
  );
}

function proposalFields(load: LoadView, partner: string): readonly Field[] {
  return [
    { kind: 'hidden', name: 'load', value: load.id },
    { kind: 'hidden', name: 'partner', value: partner },
    {
      kind: 'row',
      fields: [
        { kind: 'text', name: 'taken_off', label: 'Money off', keys: 'decimal', unit: load.currency },
        {
          kind: 'list',
          name: 'per',
          label: 'For each',
          value: ['lb', 'short-ton'].includes(load.ticket.gross.unit) ? 'short-ton' : 'tonne',
          options: [
            { value: 'short-ton', label: 'short ton' },
            { value: 'tonne', label: 'tonne' },
            { value: 'cwt', label: 'hundredweight' },
            { value: 'lb', label: 'pound' },
            { value: 'kg', label: 'kilogram' },
            { value: 'load', label: 'load: once' },
          ],
        },
        {
          kind: 'list',
          name: 'weight',
          label: 'Of its weight',
          value: 'as-fed',
          options: [
            { value: 'as-fed', label: 'as-fed' },
            { value: 'dry-matter', label: 'dry matter' },
          ],
        },
      ],
    },
    { kind: 'text', name: 'reason', label: 'Why', hint: 'Both sides read it.' },
  ];
}
