/**
 * Ending a question between the two: what was proposed, the answer, and a form to propose.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../../documents/figures.ts';
import type { RecordedProposal, RetestRecord } from '../../../domain/retests/retest-record.ts';
import type { RetestView } from '../../../usecases/retests/read-retest.ts';
import type { Field } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { changeWords } from '../outlook-words.ts';
import { confirmEnd, proposeEnd, refuseEnd, takeEndBack } from '../retest-actions.ts';

export interface RetestProposalsProps {
  readonly view: RetestView;
  readonly figures: Figures;
  readonly mayAct: boolean;
}

export function RetestProposals({ view, figures, mayAct }: RetestProposalsProps) {
  const { record } = view;
  const { proposals, ending } = record;
  const isOpen = proposals.some(({ answer }) => answer === null);
  const mayPropose = mayAct && !ending && !isOpen;
  if (proposals.length === 0 && !mayPropose) return null;
  return (
    <section aria-labelledby="between-us">
      <h2 id="between-us">Ending it between the two of you</h2>
      {proposals.length === 0 ? null : (
        <ul className="corrections">
          {proposals.map((proposal) => (
            <Proposal key={proposal.id} proposal={proposal} view={view} figures={figures} mayAct={mayAct} />
          ))}
        </ul>
      )}
      {mayPropose ? (
        <details>
          <summary>Propose to withdraw it, or a figure to agree on</summary>
          <RecordForm
            action={proposeEnd}
            submit="Propose it"
            requestKey={randomUUID()}
            scope="propose"
            quiet
            fields={proposalFields(record)}
          />
        </details>
      ) : null}
    </section>
  );
}

function proposalFields({ id, unit, first, seller, buyer }: RetestRecord): readonly Field[] {
  return [
    { kind: 'hidden', name: 'retest', value: id },
    {
      kind: 'choice',
      name: 'ending',
      label: 'How it ends',
      options: [
        { value: 'withdraw', label: `It is withdrawn: ${first} stands` },
        { value: 'agree', label: 'We agree on another figure' },
      ],
    },
    {
      kind: 'text',
      name: 'value',
      label: 'The figure that you both take',
      hint: 'Left empty to withdraw it.',
      keys: 'decimal',
      unit,
      optional: true,
    },
    {
      kind: 'choice',
      name: 'bearer',
      label: 'What was paid for tests so far is borne by',
      value: 'split',
      options: [
        { value: 'split', label: 'both, half each' },
        { value: 'seller', label: seller },
        { value: 'buyer', label: buyer },
      ],
    },
    { kind: 'text', name: 'reason', label: 'Why', hint: 'The other side reads this.' },
  ];
}

function Proposal({
  proposal,
  view,
  figures,
  mayAct,
}: RetestProposalsProps & { readonly proposal: RecordedProposal }) {
  const { record, side } = view;
  const { id, by, on, ending, value, bearer, reason, answer, answerReason } = proposal;
  const byOurs = by === side;
  const name = (one: 'seller' | 'buyer') => (one === side ? 'your side' : record[one]);
  const bears = bearer === 'split' ? 'half each' : name(bearer);
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'proposal', value: id },
    { kind: 'hidden', name: 'retest', value: record.id },
  ];
  return (
    <li className="correction">
      <p>
        On {on}, {name(by)} proposed{' '}
        {ending === 'withdraw'
          ? `to withdraw it: ${figures.show(record.first)} stands.`
          : `to agree on ${figures.show(value ?? '')} ${record.unit}.`}{' '}
        What was paid for tests is borne by: {bears}. “{reason}”
      </p>
      {answer === null ? <Meaning id={id} view={view} figures={figures} /> : null}
      {answer === null ? null : <p>{answerWords(answer, answerReason)}</p>}
      {answer === null && mayAct && !byOurs ? (
        <>
          <RecordForm
            action={confirmEnd}
            submit="Confirm: the question ends so"
            requestKey={randomUUID()}
            scope={`confirm-${id}`}
            fields={about}
          />
          <details>
            <summary>Refuse it</summary>
            <RecordForm
              action={refuseEnd}
              submit="Refuse it"
              requestKey={randomUUID()}
              scope={`refuse-${id}`}
              quiet
              fields={[
                ...about,
                { kind: 'text', name: 'reason', label: 'Why', hint: 'The other side reads this.' },
              ]}
            />
          </details>
        </>
      ) : null}
      {answer === null && mayAct && byOurs ? (
        <RecordForm
          action={takeEndBack}
          submit="Take it back"
          requestKey={randomUUID()}
          scope={`back-${id}`}
          quiet
          fields={about}
        />
      ) : null}
    </li>
  );
}

/** What the ending would do, in money. */
function Meaning({
  id,
  view,
  figures,
}: Pick<RetestProposalsProps, 'view' | 'figures'> & { readonly id: string }) {
  const known = view.ifEnded.get(id);
  if (!known) return null;
  const { record, side } = view;
  const { seller, buyer, asker, currency } = record;
  const { changed, obstacle, sellerBears, buyerBears } = known;
  const bears = [
    [seller, sellerBears],
    [buyer, buyerBears],
  ] as const;
  const borne = bears.flatMap(([name, amount]) =>
    /[1-9]/.test(amount) ? [`${name} bears ${figures.show(amount)} ${currency} of the tests`] : [],
  );
  return (
    <p>
      <strong>
        {changed === undefined
          ? `It could not stand: ${obstacle ?? ''}`
          : `${changeWords(changed, { seller, buyer, asker, side, currency }, figures)}${borne.length === 0 ? '' : `, and ${borne.join(', ')}`}.`}
      </strong>
    </p>
  );
}

function answerWords(answer: NonNullable<RecordedProposal['answer']>, reason: string | null): string {
  switch (answer) {
    case 'confirmed':
      return 'The other side confirmed it.';
    case 'refused':
      return `The other side refused it: “${reason ?? ''}”`;
    case 'withdrawn':
      return 'It was taken back.';
  }
}
