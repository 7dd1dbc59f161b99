/**
 * Signing in by e-mail address and password, or by the provider that this record trusts.
 */
import { redirect } from 'next/navigation';
import { isFirstRun } from '../../usecases/people/create-first-person.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { type Asked, askedText } from '../place/asked.ts';
import { backTo } from '../server/ask.ts';
import { currentSession } from '../server/current-caller.ts';
import { openedRecord } from '../server/record.ts';
import { settings } from '../server/settings.ts';
import { enter } from './enter.ts';

export const metadata = { title: 'Sign in' };

/** Why a provider's word was not enough, by what the address says. */
const REFUSALS: Readonly<Record<string, string>> = {
  unknown: 'Nobody here has the e-mail address that you signed in with there. Ask for an invitation first.',
  unverified:
    'That provider does not vouch for your e-mail address. Verify it there, or use a password here.',
};

export default async function SignInPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  if (await isFirstRun(await openedRecord())) redirect('/welcome');
  const asked = await searchParams;
  const back = backTo(askedText(asked, 'back'));
  if (await currentSession()) redirect(back);
  const { oidc } = settings();
  const reason =
    askedText(asked, 'refused') ?? (askedText(asked, 'error') === undefined ? undefined : 'error');
  return (
    <div className="narrow">
      <h1>Sign in</h1>
      {reason === undefined ? null : (
        <p className="refused" role="alert">
          {REFUSALS[reason] ?? 'The sign-in did not come through. Try again.'}
        </p>
      )}
      <RecordForm
        action={enter}
        submit="Sign in"
        fields={[
          { kind: 'hidden', name: 'back', value: back },
          { kind: 'text', name: 'email', label: 'E-mail address', keys: 'email', autoComplete: 'username' },
          { kind: 'password', name: 'password', label: 'Password', autoComplete: 'current-password' },
        ]}
      />
      {oidc ? (
        <p>
          <a className="act-link" href={`/sign-in/provider?back=${encodeURIComponent(back)}`}>
            Sign in with {oidc.name}
          </a>
        </p>
      ) : null}
      <p className="hint">No way in yet? Ask an owner of your farm or dairy for an invitation.</p>
    </div>
  );
}
