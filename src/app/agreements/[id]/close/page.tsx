/**
 * Proposing to close an agreement early, by its last day of delivery.
 */
import { randomUUID } from 'node:crypto';
import { RecordForm } from '../../../forms/record-form.tsx';
import { sendingFields } from '../../../offers/terms-in.ts';
import { close } from '../../proposal-actions.ts';
import { openForProposals } from '../open-for-proposals.ts';

export const metadata = { title: 'Propose to close it early' };

export default async function ClosePage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const { id } = await params;
  const { page, other } = await openForProposals(id, async () => undefined);
  return (
    <div className="narrow">
      <p className="hint">
        <a href={`/agreements/${id}`}>{page.name}</a>
      </p>
      <h1>Propose to {other} to close it early</h1>
      <p>
        When both sides have signed, loads delivered after the last day are no part of the agreement. Loads
        delivered until then are settled and paid as agreed.
      </p>
      {page.delivered === undefined ? null : <p className="owed">{page.delivered}</p>}
      <RecordForm
        action={close}
        submit={`Propose it to ${other}`}
        requestKey={randomUUID()}
        fields={[
          { kind: 'hidden', name: 'agreement', value: id },
          {
            kind: 'date',
            name: 'lastDelivery',
            label: 'Last day of delivery',
            hint: 'Not before the last load that was delivered.',
          },
          {
            kind: 'text',
            name: 'reason',
            label: 'Reason',
            hint: 'Both sides sign it, too; or leave it empty.',
          },
          ...sendingFields(other),
        ]}
      />
    </div>
  );
}
