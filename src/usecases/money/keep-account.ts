/**
 * Where the caller's party wants its money. Partners see it when they pay; each change is a new version that they are told
 * of, since a changed account is how money is stolen.
 */
import { ACCOUNT_COLUMNS, readAccountRow } from '../../domain/money/account-row.ts';
import type { PayeeAccount } from '../../domain/money/payment-instruction.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { insertAccount, type PayeeAccountRow, readAccounts } from '../../store/rows/money/account-rows.ts';
import { sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';

export interface AccountToKeep {
  /** `holder`, `kind` (iban, other), `number`, and `bank_kind` (bic, aba) with `bank`. */
  readonly account: InputRow;
  readonly key?: string;
}

/** Returns the version. Refuses `not-allowed`, `bad-input`. */
export async function keepAccount(
  context: Context,
  { account, key }: AccountToKeep,
): Promise<{ readonly version: number }> {
  permit(context, 'keep-account');
  const { partyId, personId } = context.caller;
  return await doOnce(
    context,
    { verb: 'keep-account', subject: partyId, key, input: account },
    async (tx) => {
      const [read] = readInputRows([account], {
        shape: ACCOUNT_COLUMNS,
        read: readAccountRow,
        key: ['number'],
      });
      if (!read) throw new Error('An account that was read is not there');
      await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`account ${partyId}`}, 0))::text`;
      const version = ((await readAccounts(tx, [partyId])).at(-1)?.version ?? 0) + 1;
      const recordedAt = stamp(context);
      await insertAccount(tx, { ...read.found, partyId, version, recordedAt, recordedBy: personId });
      await tellPartners(tx, context);
      return { version };
    },
  );
}

async function tellPartners(tx: Transaction, context: Context): Promise<void> {
  const { partyId } = context.caller;
  const own = (await readAgreements(tx)).filter((row) => sideOf(row, context.caller) !== 'adviser');
  const partners = new Map(
    own.map((row) => [row.sellerId === partyId ? row.buyerId : row.sellerId, row.id] as const),
  );
  await tell(
    tx,
    context,
    [...partners].map(([partner, subjectId]) => ({
      partyId: partner,
      kind: 'account-changed' as const,
      subjectId,
    })),
  );
}

/** An account with the moment it was given. */
export interface KnownAccount extends PayeeAccount {
  readonly version: number;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

/** A party's newest account, null where it gave none or the transaction may not see it. */
export async function newestAccount(tx: Transaction, partyId: string): Promise<KnownAccount | null> {
  const row: PayeeAccountRow | undefined = (await readAccounts(tx, [partyId])).at(-1);
  if (!row) return null;
  const { holder, kind, number, bankKind, bank, version, recordedAt } = row;
  return { holder, kind, number, bankKind, bank, version, recordedAt };
}
