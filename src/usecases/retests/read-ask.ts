/**
 * Asking, as the page shows it: what can be questioned and until when; and for what the reader has typed, whether the doubt
 * is larger than the scatter of the test, what would be held, and what each outcome would mean in money.
 */
import { type Figures, figuresFor } from '../../documents/figures.ts';
import { MEASURE_UNITS, type Tested } from '../../domain/agreement/measures.ts';
import { QUESTIONED, type Questioned, retestRulesOf } from '../../domain/agreement/retest-rules.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import type { Side } from '../../domain/retests/costs.ts';
import { doubtOf } from '../../domain/retests/doubt.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { type FoundAgreement, findOwnAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { wrongClaim } from './ask-retest.ts';
import { type DoubtView, doubtView, weightDoubtView } from './doubt-view.ts';
import { outlookOf, type Possible } from './outlook.ts';
import { type Questionable, readQuestionable } from './questionable.ts';

export interface ClaimView {
  readonly id: string;
  readonly name: string;
  readonly claimed: string;
  /** What is wrong with it; then there is nothing else. */
  readonly wrong: string | undefined;
  readonly doubt: DoubtView | undefined;
  readonly outlook: readonly Possible[];
}

export interface AskView {
  readonly about: Questioned;
  readonly side: Side;
  readonly seller: string;
  readonly buyer: string;
  readonly currency: string;
  /** What the agreement has a rule for. */
  readonly askable: readonly Questioned[];
  readonly items: readonly Questionable[];
  readonly claims: readonly ClaimView[];
}

export interface ToAskAbout {
  readonly agreementId: string;
  /** A measure, or `weight`; what has no rule shows nothing. */
  readonly about: string | undefined;
  /** What was typed so far, by id. */
  readonly claims: Readonly<Record<string, string>>;
  readonly locale: string;
}

/** Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readAsk(
  context: Context,
  { agreementId, about, claims, locale }: ToAskAbout,
): Promise<AskView> {
  permit(context, 'question');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    await lockAgreement(tx, agreementId);
    const askable = askableUnder(found);
    const chosen = askable.find((name) => name === about) ?? askable[0] ?? 'starch';
    const items = await readQuestionable(tx, context, { found, about: chosen });
    const side = sideOf(found.row, context.caller) === 'seller' ? 'seller' : 'buyer';
    const views: ClaimView[] = [];
    for (const item of items) {
      const claimed = (claims[item.id] ?? '').trim();
      if (claimed !== '')
        views.push(await viewOf(tx, context, { found, about: chosen, side, item, claimed, locale }));
    }
    return {
      about: chosen,
      side,
      seller: found.row.sellerName,
      buyer: found.row.buyerName,
      currency: found.agreement.currency,
      askable,
      items,
      claims: views,
    };
  });
}

/** What any version of an agreement has a rule for. */
export function askableUnder({ versions }: Pick<FoundAgreement, 'versions'>): readonly Questioned[] {
  const rules = versions.map(({ agreement }) => retestRulesOf(agreement));
  return QUESTIONED.filter((name) => rules.some((one) => one?.measures[name] !== undefined));
}

interface ToView {
  readonly found: FoundAgreement;
  readonly about: Questioned;
  readonly side: Side;
  readonly item: Questionable;
  readonly claimed: string;
  readonly locale: string;
}

async function viewOf(
  tx: Transaction,
  context: Context,
  { found, about, side, item, claimed, locale }: ToView,
): Promise<ClaimView> {
  const { id, name, first, rule, isPercent } = item;
  const wrong = item.obstacle?.message ?? wrongClaim(claimed, item);
  if (wrong !== undefined) return { id, name, claimed, wrong, doubt: undefined, outlook: [] };
  const question =
    about === 'weight'
      ? { sample: null, fact: { about, load: id } }
      : { sample: name, fact: { about, load: null } };
  const figures = figuresFor(locale);
  const outlook = await outlookOf(tx, context, {
    found,
    question,
    rule,
    asker: side,
    first,
    claimed,
    isPercent,
  });
  return {
    id,
    name,
    claimed,
    wrong,
    doubt: doubtAbout(item, { about, claimed, figures }),
    outlook,
  };
}

function doubtAbout(
  { rule: { method }, first, weighed }: Questionable,
  of: { readonly about: Questioned; readonly claimed: string; readonly figures: Figures },
): DoubtView | undefined {
  const { about, claimed, figures } = of;
  if (about !== 'weight') {
    const doubt = doubtOf(method, { measure: about, first: decimal(first), claimed: decimal(claimed) });
    return doubtView(doubt, figures);
  }
  if (method.method !== 'second-scale' || !weighed) return undefined;
  return weightDoubtView(method, { weighed, claimed }, figures);
}

/** Whether a figure of a measure is a percentage. */
export function isPercentage(about: Questioned): boolean {
  return about !== 'weight' && MEASURE_UNITS[about satisfies Tested].startsWith('%');
}
