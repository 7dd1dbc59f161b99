/**
 * Taking a posted lot back, which ends the open offers on it: asked about first.
 */
import { randomUUID } from 'node:crypto';
import type { OfferOnLot } from '../../../usecases/lots/read-lot-view.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { withdraw } from '../lot-actions.ts';

export interface WithdrawPartProps {
  readonly lotId: string;
  readonly offers: readonly OfferOnLot[];
}

export function WithdrawPart({ lotId, offers }: WithdrawPartProps) {
  const open = offers.filter(({ state }) => state === 'open' || state === 'lapsed').length;
  return (
    <section>
      <h2>Take it back</h2>
      <RecordForm
        action={withdraw}
        submit="Withdraw this lot"
        requestKey={randomUUID()}
        quiet
        fields={[
          { kind: 'hidden', name: 'lot', value: lotId },
          {
            kind: 'checks',
            name: 'sure',
            label: 'Withdraw it?',
            hint: 'Nobody can make an offer on it then.',
            ticked: [],
            options: [{ value: 'yes', label: withdrawWords(open) }],
          },
        ]}
      />
    </section>
  );
}

function withdrawWords(offers: number): string {
  if (offers === 0) return 'Withdraw it; it may be posted again';
  return `Withdraw it, and end ${offers === 1 ? 'the open offer' : `all ${offers} open offers`} on it`;
}
