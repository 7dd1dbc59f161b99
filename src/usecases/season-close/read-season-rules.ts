/**
 * How the agreed rules for the season as a whole stand, for the page on which the season is closed.
 */
import type { AgreedRule } from '../../domain/season-close/agreed-rules.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { frameOf } from '../money/money-frame.ts';
import { deliveriesEnd } from './deliveries-end.ts';
import { seasonRules } from './season-rules.ts';

export interface SeasonRulesView {
  readonly rules: readonly {
    readonly rule: AgreedRule;
    /** In sentences, with figures as the reader writes them. */
    readonly told: string;
    /** In figures, load by load; none where nothing is owed. */
    readonly how: readonly { readonly ticket: string | undefined; readonly how: string }[];
    /** Decimal strings, above zero where the buyer owes; `left` is what a note would bring now. */
    readonly issued: string;
    readonly left: string;
    readonly waits: boolean;
    /** The notes that were issued for it. */
    readonly notes: readonly { readonly id: string; readonly number: string; readonly kind: string }[];
  }[];
  readonly currency: string;
  readonly lastDay: string | undefined;
  readonly isPast: boolean;
  readonly isIssuer: boolean;
  /** Who issues by the agreement, by name. */
  readonly issuer: string;
}

/** Refuses `not-allowed`, `not-found`, `not-yours`. No rules where none is agreed on. */
export async function readSeasonRules(
  context: Context,
  { agreementId, show }: { readonly agreementId: string; readonly show: (figure: string) => string },
): Promise<SeasonRulesView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const frame = await frameOf(tx, context, found);
    const { print, money, issuer, side, rows } = frame;
    const standings = await seasonRules(tx, frame);
    return {
      rules: standings.map(({ rule, owed, issued, lines, waits, told }) => ({
        rule,
        told: told(show),
        how: lines.map(({ load, how }) => ({ ticket: load?.ticket, how })),
        issued: print(issued),
        left: print(waits === undefined ? owed - issued : 0n),
        waits: waits !== undefined,
        notes: rows.documents
          .filter(({ fact }) => fact.seasonRule === rule)
          .map(({ id, fact }) => ({ id, number: fact.serial, kind: fact.kind })),
      })),
      currency: money.currency,
      ...(await deliveriesEnd(tx, frame)),
      isIssuer: side === issuer,
      issuer: issuer === 'seller' ? found.row.sellerName : found.row.buyerName,
    };
  });
}
