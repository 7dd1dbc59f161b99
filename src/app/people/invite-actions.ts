/**
 * Makes invitations. The link is shown this once; the record keeps only what proves it.
 */
'use server';

import { ROLE_NAMES } from '../../domain/parties/permissions.ts';
import { type Invitation, inviteMember, invitePartner } from '../../usecases/people/invite.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';
import { hereAddress } from '../server/here-address.ts';

export async function invite(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const invitation = await inviteMember(await currentContext(), { role: textOf(sent, 'role') });
    return await told(invitation, `one ${ROLE_NAMES[invitation.role]}`);
  });
}

export async function inviteOther(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const party = textOf(sent, 'party');
    const invitation = await invitePartner(await currentContext(), { party });
    const shown = await told(invitation, `the first owner of ${party}`);
    return {
      ...shown,
      next: { label: `Record the agreement with ${party}`, to: `/agreements/new?with=${invitation.partyId}` },
    };
  });
}

async function told({ secret, expiresAt }: Invitation, whom: string) {
  const until = new Date(expiresAt).toISOString().slice(0, 10);
  return {
    told: `Hand this link to ${whom}. It works once, until ${until}, and is shown only now.`,
    link: `${await hereAddress()}/join/${secret}`,
  };
}
