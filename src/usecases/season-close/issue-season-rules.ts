/**
 * Issues what the agreed rules for the season as a whole come to, once deliveries are over: a note for each rule, of what is
 * owed by it less what was issued before, so that a load that comes late brings the difference alone.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { dueOn } from '../../domain/money/due-date.ts';
import type { DocumentLine } from '../../domain/money/money-document.ts';
import { withMinus } from '../../domain/numbers/printing.ts';
import { AGREED_RULES, type AgreedRule, RULE_NAMES } from '../../domain/season-close/agreed-rules.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readDeliverySpans } from '../../store/rows/progress-rows.ts';
import { isSealed } from '../../store/rows/season-close-rows.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { refuseOtherIssuer } from '../money/issue-invoices.ts';
import { type MoneyFrame, moneyFrame } from '../money/money-frame.ts';
import { type DocumentDraft, type WrittenDocument, writeDocuments } from '../money/write-documents.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { deliveriesEnd } from './deliveries-end.ts';
import { type SeasonRuleStanding, seasonRules } from './season-rules.ts';

export interface SeasonRulesToIssue {
  readonly agreementId: string;
  /** Some of the rules; all without it. */
  readonly rules?: readonly AgreedRule[];
  /** The issuer says that no more loads come: needed where no last day of delivery is agreed on. */
  readonly noMoreLoads?: boolean;
  readonly key?: string;
}

export interface IssuedRules {
  readonly documents: readonly WrittenDocument[];
  /** Rules that cannot be worked out yet, and why. */
  readonly waiting: readonly { readonly rule: AgreedRule; readonly why: string }[];
}

/**
 * One transaction: a debit or credit note for each rule that owes something else than was issued. Refuses `not-allowed`,
 * `not-found`, `not-yours` for the side that does not issue, `season-closed`, and `not-ready` where no such rule is agreed on,
 * or loads may still come.
 */
export async function issueSeasonRules(
  context: Context,
  { agreementId, rules = AGREED_RULES, noMoreLoads = false, key }: SeasonRulesToIssue,
): Promise<IssuedRules> {
  permit(context, 'issue-invoice');
  const input = { rules, noMoreLoads };
  return await doOnce(
    context,
    { verb: 'issue-season-rules', subject: agreementId, key, input },
    async (tx) => {
      const frame = await moneyFrame(tx, context, agreementId);
      refuseOtherIssuer(frame);
      if (await isSealed(tx, agreementId)) {
        throw new Refusal('season-closed', 'Both sides have signed this season shut.');
      }
      const all = await seasonRules(tx, frame);
      if (all.length === 0) {
        throw new Refusal(
          'not-ready',
          'No rule about the volume or the season’s averages is agreed on. Both sides can amend the agreement to say so.',
        );
      }
      await refuseLoadsToCome(tx, frame, noMoreLoads);
      const wanted = all.filter(({ rule }) => rules.includes(rule));
      const ready = wanted.filter(({ waits, owed, issued }) => waits === undefined && owed !== issued);
      const period = await deliveryPeriod(tx, agreementId);
      const drafts = ready.map((standing) => draftOf(frame, standing, period));
      const documents = await writeDocuments(tx, context, { frame, drafts });
      if (documents.length > 0) await tellPartner(tx, context, { found: frame.found, kind: 'invoice-came' });
      const waiting = wanted.flatMap(({ rule, waits }) =>
        waits === undefined ? [] : [{ rule, why: waits }],
      );
      return { documents, waiting };
    },
  );
}

async function refuseLoadsToCome(tx: Transaction, frame: MoneyFrame, noMoreLoads: boolean): Promise<void> {
  const { lastDay, isPast } = await deliveriesEnd(tx, frame);
  if (lastDay === undefined && !noMoreLoads) {
    throw new Refusal(
      'not-ready',
      'No last day of delivery is agreed on. Say that no more loads come; if one does, the next note brings the difference.',
    );
  }
  if (lastDay !== undefined && !isPast) {
    throw new Refusal(
      'not-ready',
      `Loads are delivered until ${lastDay}. What the season comes to is issued after that day.`,
    );
  }
}

/** From the first delivery to the last; null where nothing came. */
async function deliveryPeriod(tx: Transaction, agreementId: string): Promise<DocumentDraft['period']> {
  const [span] = await readDeliverySpans(tx, [agreementId]);
  return span ? { from: span.first as LocalDate, to: span.last as LocalDate } : null;
}

function draftOf(
  frame: MoneyFrame,
  { rule, owed, issued, lines, told }: SeasonRuleStanding,
  period: DocumentDraft['period'],
): DocumentDraft {
  const payable = owed - issued;
  const isCredit = payable < 0n;
  const words = told((figure) => figure);
  return {
    kind: isCredit ? 'credit-note' : 'debit-note',
    season: { rule },
    dueOn: isCredit ? frame.today : dueOn(frame.conditions.payment ?? {}, { issuedOn: frame.today }),
    period,
    named: [],
    correctsId: null,
    reason: `${RULE_NAMES[rule]}, as agreed. ${words}${issued === 0n ? '' : ' What was issued for it before is taken off.'}`,
    lines: issued === 0n ? lines : [...lines, issuedBefore(frame, { rule, issued })],
    deductions: [],
    advances: [],
    loads: [],
    payable,
  };
}

function issuedBefore(
  { print }: Pick<MoneyFrame, 'print'>,
  { rule, issued }: Pick<SeasonRuleStanding, 'rule' | 'issued'>,
): DocumentLine {
  const amount = print(-issued);
  return {
    load: null,
    label: `${RULE_NAMES[rule]}: issued before`,
    quantity: '1',
    unit: 'note',
    rate: amount,
    amount,
    how: `less ${withMinus(print(issued))} issued before`,
  };
}
