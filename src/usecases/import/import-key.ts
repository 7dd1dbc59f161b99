/**
 * What makes an import one and the same request, and how its rows are recorded: through the use cases of the forms.
 */
import { columnMatchShape } from '../../domain/tables/column-match.ts';
import type { ImportKind } from '../../domain/tables/wanted-columns.ts';
import { plainText } from '../../files/read-csv-bytes.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { Context } from '../context.ts';
import { recordLoads } from '../loads/record-loads.ts';
import { recordQuotes } from '../prices/record-quotes.ts';
import type { InputRow } from '../read-input-rows.ts';
import { recordResults } from '../results/record-results.ts';
import type { FileToImport } from './open-import.ts';

/** The fingerprint of a file, its match and where it goes. The file must be text, and the match of its shape. */
export function importKey({ agreementId, bytes, match }: FileToImport): string {
  const { kind, ...how } = columnMatchShape.parse(match);
  const text = sha256(plainText(bytes));
  return `import ${sha256(canonicalText({ agreementId, kind, how, text }))}`;
}

/** Whether a request of that key was done. */
export async function takenBefore(tx: Transaction, { caller }: Context, key: string): Promise<boolean> {
  const where = { partyId_key: { partyId: caller.partyId, key } };
  return (await tx.request.findUnique({ where })) !== null;
}

export interface RowsToRecord {
  readonly agreementId: string;
  readonly kind: ImportKind;
  readonly rows: readonly InputRow[];
  readonly key?: string;
  readonly confirmed?: boolean;
}

/** Records rows in one transaction. Refuses as the use case of their kind does. */
export async function recordRows(
  context: Context,
  { agreementId, kind, rows, key, confirmed = false }: RowsToRecord,
): Promise<void> {
  const asked = { agreementId, confirmed, ...(key === undefined ? {} : { key }) };
  switch (kind) {
    case 'tickets':
      await recordLoads(context, { ...asked, loads: rows });
      return;
    case 'results':
      await recordResults(context, { ...asked, results: rows });
      return;
    case 'quotes':
      await recordQuotes(context, { ...asked, quotes: rows });
  }
}
