/**
 * What the reader can do about an offer now: sign it, answer it with a version of their own, end it. Ending asks first.
 */
import { randomUUID } from 'node:crypto';
import { mayDo, type Role } from '../../../domain/parties/permissions.ts';
import type { OfferView } from '../../../usecases/offers/read-offer.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { end } from '../offer-actions.ts';

export interface AnswerPartProps {
  readonly offer: OfferView;
  readonly role: Role;
  /** Who may sign for the reader's party. */
  readonly owners: readonly string[];
}

export function AnswerPart({ offer, role, owners }: AnswerPartProps) {
  const { id, side, state, newest, purpose } = offer;
  if (side === 'adviser' || (state !== 'open' && state !== 'lapsed')) return null;
  const isSigned = newest.signatures.some((signature) => signature.side === side);
  const isSignable = state === 'open' && !isSigned;
  const isOwn = newest.by === side;
  if (!mayDo(role, 'make-offer')) {
    return (
      <p className="hint">
        Owners and bookkeepers of your party answer it; {signersWords(owners)} may sign it.
      </p>
    );
  }
  return (
    <>
      <ul className="pick">
        {isSignable && mayDo(role, 'sign') ? (
          <li>
            <a className={isOwn ? 'plain-link' : 'act-link'} href={`/offers/${id}/sign`}>
              Read it all and sign version {newest.version}
            </a>
          </li>
        ) : null}
        <li>
          <a className="plain-link" href={`/offers/${id}/counter`}>
            {isOwn ? 'Send a new version' : 'Answer with other terms'}
          </a>
        </li>
      </ul>
      {isSignable && !mayDo(role, 'sign') ? (
        <p className="hint">For your party {signersWords(owners)} may sign it.</p>
      ) : null}
      <details className="more-fields">
        <summary>{isOwn ? 'Withdraw it' : 'Decline it'}</summary>
        <RecordForm
          action={end}
          submit={isOwn ? 'Withdraw it for good' : 'Decline it for good'}
          requestKey={randomUUID()}
          quiet
          fields={[
            { kind: 'hidden', name: 'offer', value: id },
            {
              kind: 'checks',
              name: 'sure',
              label: 'Are you sure?',
              hint: `It ends for both sides, and the other side is told.${purpose === 'agreement' ? ' You may make another offer later.' : ''}`,
              options: [{ value: 'yes', label: isOwn ? 'Yes, withdraw it' : 'Yes, decline it' }],
              ticked: [],
            },
          ]}
        />
      </details>
    </>
  );
}

/** "Ana Reed or Leif Holm", "an owner of it". */
export function signersWords(owners: readonly string[]): string {
  if (owners.length === 0) return 'an owner of it';
  return owners.length === 1 ? (owners[0] ?? '') : `${owners.slice(0, -1).join(', ')} or ${owners.at(-1)}`;
}
