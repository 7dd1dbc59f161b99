/**
 * What a link invites to, for whoever opens it: by whom, for what, and the number of what it leads to; nothing else.
 */
import type { SharePurpose } from '../../store/rows/share-rows.ts';
import type { Tools } from '../context.ts';
import { findLinked } from './accept-share.ts';

export interface ShareView {
  /** Who gave the link. */
  readonly party: string;
  readonly purpose: SharePurpose;
  /** "lot 3", "the offer on lot 3", "agreement L3-A7F2". */
  readonly words: string;
}

/** Refuses `invitation-void` for a link that is unknown, used or too old, `lot-closed` for a lot that is sold. */
export async function readShare(tools: Tools, { secret }: { readonly secret: string }): Promise<ShareView> {
  const { link, shared } = await findLinked(tools, secret);
  return { party: link.partyName, purpose: link.purpose, words: shared.words };
}
