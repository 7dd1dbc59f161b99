/**
 * Matches that are remembered: the next file with the same header is read as the last one was.
 */
import { type ColumnMatch, columnMatchShape } from '../../domain/tables/column-match.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { keepMatch, readKeptMatch } from '../../store/rows/own-list-rows.ts';
import { type Context, stamp } from '../context.ts';

function headerHash(header: readonly string[]): string {
  return sha256(canonicalText(header));
}

/** How the caller's party read such a file last; undefined where it never did. */
export async function rememberedMatch(
  tx: Transaction,
  { kind, header }: { readonly kind: ColumnMatch['kind']; readonly header: readonly string[] },
): Promise<ColumnMatch | undefined> {
  const kept = await readKeptMatch(tx, { kind, header: headerHash(header) });
  const read = kept === undefined ? undefined : columnMatchShape.safeParse(JSON.parse(kept));
  return read?.success ? read.data : undefined;
}

/** Remembers a match that was used. */
export async function rememberMatch(
  tx: Transaction,
  context: Context,
  { match, header }: { readonly match: ColumnMatch; readonly header: readonly string[] },
): Promise<void> {
  await keepMatch(tx, {
    kind: match.kind,
    header: headerHash(header),
    match: canonicalText(match),
    partyId: context.caller.partyId,
    keptAt: stamp(context),
  });
}
