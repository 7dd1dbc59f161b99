/**
 * Where parties want their money, as a page shows it: the caller's own account, and the newest of each partner. Whoever
 * does not pay sees the end of a number alone.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { scopesLet } from '../../domain/parties/scopes.ts';
import { type Context, permit } from '../context.ts';
import { type KnownAccount, newestAccount } from './keep-account.ts';
import { readPartnerMoney } from './partner-money.ts';

export interface AccountView extends KnownAccount {
  /** Whether `number` is the end of it alone. */
  readonly isMasked: boolean;
}

export interface PartnerAccount {
  readonly partnerId: string;
  readonly partner: string;
  /** Whether the caller's party buys from them under some agreement. */
  readonly isPaidByUs: boolean;
  /** Null where they gave none. */
  readonly account: AccountView | null;
}

/** The caller's own account, null where none is given. Refuses `not-allowed`. */
export async function readOwnAccount(context: Context): Promise<AccountView | null> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) =>
    shownTo(context, await newestAccount(tx, partyId)),
  );
}

/** Of all parties that the caller's has an agreement with, by name. Refuses `not-allowed`. */
export async function readPartnerAccounts(context: Context): Promise<readonly PartnerAccount[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const partners = new Map<string, PartnerAccount>();
    for (const { partner, frame } of await readPartnerMoney(tx, context)) {
      const known = partners.get(partner.id);
      partners.set(partner.id, {
        partnerId: partner.id,
        partner: partner.name,
        isPaidByUs: known?.isPaidByUs === true || frame.side === 'buyer',
        account: known ? known.account : shownTo(context, await newestAccount(tx, partner.id)),
      });
    }
    return [...partners.values()].sort((a, b) => a.partner.localeCompare(b.partner, 'en'));
  });
}

const SHOWN_DIGITS = 4;

/** Whole for whoever may record payments, whether a person or a program. */
function shownTo({ caller }: Context, account: KnownAccount | null): AccountView | null {
  if (!account) return null;
  const mayPay =
    mayDo(caller.role, 'record-payment') &&
    (!caller.token || scopesLet(caller.token.scopes, 'record-payment'));
  if (mayPay) return { ...account, isMasked: false };
  // The end of a short number would be all of it.
  const end = account.number.length > SHOWN_DIGITS * 2 ? account.number.slice(-SHOWN_DIGITS) : '';
  return { ...account, number: `…${end}`, isMasked: true };
}
