/**
 * What somebody decides for themself, on the page of people: e-mail, and the password, which signing asks for.
 */
import { mayDo, type Role } from '../../domain/parties/permissions.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { changeOwnPassword, choose } from './own-actions.ts';

export interface MailSectionProps {
  readonly party: string;
  readonly role: Role;
  readonly wanted: boolean;
}

/** For whoever answers offers; others are told of none. */
export function MailSection({ party, role, wanted }: MailSectionProps) {
  if (!mayDo(role, 'make-offer')) return null;
  return (
    <section>
      <h2>By e-mail</h2>
      <RecordForm
        action={choose}
        submit="Keep this"
        quiet
        fields={[
          {
            kind: 'choice',
            name: 'mail',
            label: `Tell me by e-mail what waits for ${party}`,
            hint: 'An e-mail names the other party and holds a link: no figure, no terms, no message.',
            value: wanted ? 'yes' : 'no',
            options: [
              { value: 'yes', label: 'Yes' },
              { value: 'no', label: 'No' },
            ],
          },
        ]}
      />
    </section>
  );
}

export function PasswordSection({ hasOne }: { readonly hasOne: boolean }) {
  return (
    <section>
      <h2>{hasOne ? 'Your password' : 'Set a password'}</h2>
      <p>
        {hasOne
          ? 'Signing an agreement asks for it again. When you change it, every other sign-in of yours ends.'
          : 'You sign in by another service. Signing an agreement asks for a password of your own here.'}
      </p>
      <RecordForm
        action={changeOwnPassword}
        submit={hasOne ? 'Change it' : 'Set it'}
        quiet
        fields={[
          ...(hasOne
            ? ([
                {
                  kind: 'password',
                  name: 'present',
                  label: 'Password now',
                  autoComplete: 'current-password',
                },
              ] as const)
            : []),
          {
            kind: 'password',
            name: 'password',
            label: 'New password',
            hint: '10 characters or more. A few words that only you would put together are good.',
            autoComplete: 'new-password',
          },
        ]}
      />
    </section>
  );
}
