/**
 * A link to hand over, shown this once.
 */
import type { ShareLink } from '../../usecases/sharing/share-link.ts';
import type { FormState } from '../forms/form-state.ts';
import { hereAddress } from '../server/here-address.ts';

export async function shownLink(
  { secret, expiresAt }: ShareLink,
  whom: string,
): Promise<Pick<FormState, 'told' | 'link'>> {
  const until = new Date(expiresAt).toISOString().slice(0, 10);
  return {
    told: `Hand this link to ${whom}. It works once, until ${until}, and is shown only now.`,
    link: `${await hereAddress()}/come/${secret}`,
  };
}
