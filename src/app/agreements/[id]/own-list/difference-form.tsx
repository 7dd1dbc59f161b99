/**
 * A row that nobody puts right: noted to the other side as a difference, with what the money differs by filled in.
 */
import { randomUUID } from 'node:crypto';
import { signOf, unsigned } from '../../../../documents/amount-strings.ts';
import type { Outcome } from '../../../../domain/matching/match-lists.ts';
import { moneyApart } from '../../../../domain/matching/money-apart.ts';
import { currencyDecimals } from '../../../../domain/money/currency.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { putDifference } from '../../../season-notes/note-actions.ts';
import { aboutFields, differenceFields, type NoteParties } from '../../../season-notes/note-fields.ts';
import { sidesOf } from './compared.tsx';

export interface DifferenceFormProps {
  readonly outcome: Outcome & { readonly fingerprint: string };
  readonly parties: NoteParties;
  /** It is noted already, and the other side has not answered. */
  readonly isPut: boolean;
}

export function DifferenceForm({ outcome, parties, isPut }: DifferenceFormProps) {
  const { agreementId, partner, currency } = parties;
  if (isPut) {
    return (
      <p className="hint">
        Noted as a difference to be left standing; {partner} has not answered.{' '}
        <a href={`/agreements/${agreementId}/season-close#differences`}>See it</a>
      </p>
    );
  }
  const { recorded } = sidesOf(outcome);
  const apart = moneyApart(outcome, currencyDecimals(currency) ?? 0);
  const way = { '-1': 'less', '0': 'none', '1': 'more' } as const;
  return (
    <RecordForm
      action={putDifference}
      submit={`Put it to ${partner}`}
      fields={[
        ...aboutFields(parties, 'own-list'),
        ...(recorded ? [{ kind: 'hidden' as const, name: 'load', value: recorded.id }] : []),
        ...differenceFields(parties, {
          way: way[`${signOf(apart)}`],
          ...(signOf(apart) === 0 ? {} : { amount: unsigned(apart) }),
        }),
      ]}
      requestKey={randomUUID()}
      scope={`difference-${outcome.fingerprint}`}
      folded={{ summary: 'Leave it standing, if the other side agrees' }}
      quiet
    />
  );
}
