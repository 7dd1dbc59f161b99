/**
 * Signing: the whole of exactly one version in words, its fingerprint, what to think of first, and the form, which only
 * an owner sees.
 */
import { randomUUID } from 'node:crypto';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { readOfferPage } from '../../../../usecases/offers/read-offer-page.ts';
import { readMembers } from '../../../../usecases/people/members.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { ask } from '../../../server/ask.ts';
import { DocumentWords } from '../../document-words.tsx';
import { sign } from '../../offer-actions.ts';
import { offerTitle } from '../../offer-title.ts';
import { signersWords } from '../answer-part.tsx';

export const metadata = { title: 'Sign' };

export default async function SigningPage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const { id } = await params;
  const { page, role, members } = await ask(async (context) => ({
    page: await readOfferPage(context, { offerId: id }),
    role: context.caller.role,
    members: await readMembers(context),
  }));
  const { offer, standing } = page;
  const { newest, side, purpose } = offer;
  const isSigned = newest.signatures.some((signature) => signature.side === side);
  const isSignable = offer.state === 'open' && side !== 'adviser' && !isSigned;
  const owners = members.filter((member) => member.role === 'owner').map(({ name }) => name);
  return (
    <article>
      <p className="hint">
        <a href={`/offers/${id}`}>{offerTitle(page)}</a>
      </p>
      <h1>
        {purpose === 'closing' ? 'Sign the early end, version' : 'Sign version'} {newest.version}
      </h1>
      <p className="standing">{standing}</p>
      <DocumentWords version={newest} />
      <section>
        <h2>Fingerprint</h2>
        <p>
          These 64 signs stand for exactly the words above. They are kept with your signature, and stand on
          the paper: if a word or figure were changed, they would be others.
        </p>
        <p>
          <code className="fingerprint">{newest.fingerprint}</code>
        </p>
        {purpose === 'closing' ? null : (
          <p>
            <a href={`/offers/${id}/paper?version=${newest.version}`}>
              The same as PDF, to read on paper first
            </a>
          </p>
        )}
      </section>
      <section>
        <h2>Your signature</h2>
        {isSigned ? <p>Your party has signed this version already.</p> : null}
        {side === 'adviser' ? <p>An adviser reads it; its two parties sign.</p> : null}
        {isSignable && !mayDo(role, 'sign') ? (
          <p>Only an owner signs. For your party that is {signersWords(owners)}.</p>
        ) : null}
        {isSignable && mayDo(role, 'sign') ? (
          <div className="narrow">
            <p>
              Your name and password bind your party to the words above
              {newest.signatures.length > 0
                ? '. The other side has signed: with yours it stands.'
                : ' as soon as the other side has signed this version, too.'}
            </p>
            <RecordForm
              action={sign}
              submit={`Sign version ${newest.version}`}
              requestKey={randomUUID()}
              fields={[
                { kind: 'hidden', name: 'offer', value: id },
                { kind: 'hidden', name: 'version', value: String(newest.version) },
                { kind: 'hidden', name: 'fingerprint', value: newest.fingerprint },
                {
                  kind: 'text',
                  name: 'name',
                  label: 'Your name',
                  hint: 'As it stands under “People and sign-ins”.',
                  autoComplete: 'name',
                },
                {
                  kind: 'password',
                  name: 'password',
                  label: 'Your password, again',
                  autoComplete: 'current-password',
                },
              ]}
            />
          </div>
        ) : null}
      </section>
    </article>
  );
}
