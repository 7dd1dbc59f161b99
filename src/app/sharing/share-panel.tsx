/**
 * For a seller, on the page of a posted lot: who was invited to it, and the two ways to show it to one more.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { readLotGuests } from '../../usecases/sharing/share-lot.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { ask } from '../server/ask.ts';
import { makeLink, shareWith } from './share-actions.ts';

export async function SharePanel({ lotId }: { readonly lotId: string }) {
  const { guests, partners, role } = await ask(async (context) => ({
    ...(await readLotGuests(context, { lotId })),
    role: context.caller.role,
  }));
  const lot = { kind: 'hidden', name: 'lot', value: lotId } as const;
  return (
    <section id="sharing" aria-labelledby="sharing-heading">
      <h2 id="sharing-heading">Show it to somebody</h2>
      <p>{guests.length === 0 ? 'Nobody was invited yet.' : `Invited: ${guests.join(', ')}.`}</p>
      {partners.length > 0 && mayDo(role, 'keep-lot') ? (
        <RecordForm
          action={shareWith}
          submit="Show it to them"
          quiet
          fields={[
            lot,
            {
              kind: 'list',
              name: 'party',
              label: 'Somebody you deal with already',
              options: [
                { value: '', label: 'Choose…' },
                ...partners.map(({ partyId, name }) => ({ value: partyId, label: name })),
              ],
            },
          ]}
        />
      ) : null}
      {mayDo(role, 'invite') ? (
        <>
          <p className="hint">
            For anybody else, make a link and hand it over: it lets one farm or dairy see this lot and make an
            offer.
          </p>
          <RecordForm action={makeLink} submit="Make a link" quiet fields={[lot]} />
        </>
      ) : (
        <p className="hint">An owner of your party can make a link for somebody else.</p>
      )}
    </section>
  );
}
