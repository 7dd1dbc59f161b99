/**
 * What the agreed rules for the season as a whole come to by all that is recorded: tons short of the volume or beyond it, and
 * all loads priced again by the season's averages. Amounts are in minor units; above zero the buyer owes.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { DocumentLine } from '../../domain/money/money-document.ts';
import { printDecimal, withMinus } from '../../domain/numbers/printing.ts';
import { type CountedLoad, deliveredOf } from '../../domain/progress/progress.ts';
import { AGREED_RULES, type AgreedRule, RULE_NAMES } from '../../domain/season-close/agreed-rules.ts';
import type { TrueUpOutcome } from '../../domain/season-close/true-up.ts';
import {
  type SeasonVolume,
  shortfallOf,
  surplusOf,
  type VolumeOutcome,
  type VolumeTerms,
} from '../../domain/season-close/volume-rule.ts';
import { printRate } from '../../domain/settlement/print-rate.ts';
import {
  figuresInWords,
  NO_AVERAGE,
  type RuleSetting,
  trueUpOutcomeInWords,
  volumeOutcomeInWords,
} from '../../domain/words/season-rule-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readDeliveredLoads } from '../../store/rows/progress-rows.ts';
import { countedLoad } from '../agreements/read-progress.ts';
import { type LoadOutcome, outcomesOf } from '../loads/load-views.ts';
import type { MoneyFrame } from '../money/money-frame.ts';
import { priceAgain, type SettledLoad } from './price-again.ts';

/** What rules are worked out from. */
export type RuleFrame = Pick<MoneyFrame, 'found' | 'conditions' | 'money' | 'print'> & {
  readonly rows: Pick<MoneyFrame['rows'], 'documents'>;
};

/** One rule, and how it stands. */
export interface SeasonRuleStanding {
  readonly rule: AgreedRule;
  readonly owed: bigint;
  /** What notes for it come to so far. */
  readonly issued: bigint;
  /** They come to what is owed; none where that is nothing. */
  readonly lines: readonly DocumentLine[];
  /** Why it cannot be worked out yet; then nothing is owed by it for now. */
  readonly waits: string | undefined;
  /** What it comes to or why it waits, in sentences; figures as `show` writes them. */
  readonly told: (show: RuleSetting['show']) => string;
}

/** Rules that are agreed on, or that notes were issued for before an amendment took them out. */
export async function seasonRules(tx: Transaction, frame: RuleFrame): Promise<readonly SeasonRuleStanding[]> {
  const issued = new Map(AGREED_RULES.map((rule) => [rule, issuedFor(frame, rule)]));
  const agreed = agreedRules(frame);
  const wanted = AGREED_RULES.filter((rule) => agreed.includes(rule) || issued.get(rule) !== 0n);
  if (wanted.length === 0) return [];
  const { found } = frame;
  const outcomes =
    agreed.length === 0 ? [] : await outcomesOf(tx, found, await readDeliveredLoads(tx, found.row.id));
  // A refused load is no delivery, whatever it weighed.
  const kept = outcomes.filter(({ outcome }) => outcome.status !== 'refused');
  const standings: SeasonRuleStanding[] = [];
  for (const rule of wanted) {
    const worked = agreed.includes(rule) ? await workedOut(tx, frame, { rule, kept }) : DROPPED;
    standings.push({ rule, issued: issued.get(rule) ?? 0n, ...worked });
  }
  return standings;
}

/** The rules of the newest version. */
export function agreedRules({ conditions }: Pick<MoneyFrame, 'conditions'>): readonly AgreedRule[] {
  const { volume, trueUp } = conditions;
  const isAgreed = { shortfall: volume?.shortfall, surplus: volume?.surplus, 'true-up': trueUp };
  return AGREED_RULES.filter((rule) => isAgreed[rule] !== undefined);
}

function issuedFor({ rows, money }: Pick<RuleFrame, 'rows' | 'money'>, rule: AgreedRule): bigint {
  return rows.documents
    .filter(({ fact }) => fact.seasonRule === rule)
    .reduce((sum, { fact }) => sum + minorUnits(fact.payable, money), 0n);
}

type Worked = Omit<SeasonRuleStanding, 'rule' | 'issued'>;

const DROPPED: Worked = {
  owed: 0n,
  lines: [],
  waits: undefined,
  told: () => 'It is not agreed on any more, so nothing is owed by it.',
};

function waiting(why: string): Worked {
  return { owed: 0n, lines: [], waits: why, told: () => `It cannot be worked out yet: ${why}.` };
}

async function workedOut(
  tx: Transaction,
  frame: RuleFrame,
  { rule, kept }: { readonly rule: AgreedRule; readonly kept: readonly LoadOutcome[] },
): Promise<Worked> {
  const { volume, trueUp } = frame.conditions;
  if (rule === 'true-up') {
    if (!trueUp) throw new Error('A rule is worked out that is not agreed on');
    const outcome = await priceAgain(tx, frame.found, { rule: trueUp, loads: kept.filter(hasSettled) });
    return 'waits' in outcome ? waiting(outcome.waits) : trueUpWorked(outcome, frame);
  }
  if (!volume) throw new Error('A rule is worked out that is not agreed on');
  const season = seasonVolume(volume, kept, frame);
  const outcome = (rule === 'shortfall' ? shortfallOf : surplusOf)(volume, season, frame.money);
  if (outcome === 'no-average') return waiting(NO_AVERAGE);
  return volumeWorked(rule, { outcome, terms: volume, uncounted: season.uncounted }, frame);
}

function hasSettled(load: LoadOutcome): load is SettledLoad {
  return load.settlements.length > 0 && load.outcome.status === 'settled';
}

/** Loads that have not settled count by their weight; an average is of the settled ones. */
function seasonVolume(
  { weight }: VolumeTerms,
  kept: readonly LoadOutcome[],
  { found }: RuleFrame,
): SeasonVolume {
  const { wallClockAt } = zoneCalendar(found.agreement.timeZone);
  const counted = kept.map((load) => countedLoad(load, wallClockAt));
  const isDry = weight === 'dry-matter';
  const all = deliveredOf(counted);
  const hasPrice = ({ value, result }: CountedLoad) =>
    value !== undefined && (!isDry || result !== undefined);
  const settled = deliveredOf(counted.filter(hasPrice));
  return {
    pounds: isDry ? all.dry : all.wet,
    uncounted: isDry ? all.untestedLoads : 0,
    settled: { pounds: isDry ? settled.dry : settled.wet, value: settled.value },
  };
}

function settingOf({ found, money }: RuleFrame, show: RuleSetting['show']): RuleSetting {
  return { seller: found.row.sellerName, buyer: found.row.buyerName, money, show };
}

function volumeWorked(
  rule: Exclude<AgreedRule, 'true-up'>,
  about: { readonly outcome: VolumeOutcome; readonly terms: VolumeTerms; readonly uncounted: number },
  frame: RuleFrame,
): Worked {
  const { quantity, rate, owed, how } = about.outcome;
  const line: DocumentLine = {
    load: null,
    label: RULE_NAMES[rule],
    quantity: printDecimal(quantity),
    unit: about.terms.unit,
    rate: printRate({ quantity, rate, amount: owed }, frame.money),
    amount: frame.print(owed),
    how,
  };
  return {
    owed,
    lines: owed === 0n ? [] : [line],
    waits: undefined,
    told: (show) => volumeOutcomeInWords(rule, about, settingOf(frame, show)),
  };
}

function trueUpWorked(outcome: TrueUpOutcome, frame: RuleFrame): Worked {
  const { print } = frame;
  const by = figuresInWords(outcome.figures);
  const lines = outcome.changed.map(({ ticket, deliveredOn, settled, again }): DocumentLine => {
    const amount = print(again - settled);
    return {
      load: { ticket, deliveredOn },
      label: RULE_NAMES['true-up'],
      quantity: '1',
      unit: 'load',
      rate: amount,
      amount,
      how: `${print(again)} again − ${print(settled)} settled = ${withMinus(amount)}; by ${by}`,
    };
  });
  return {
    owed: outcome.owed,
    lines,
    waits: undefined,
    told: (show) => trueUpOutcomeInWords(outcome, settingOf(frame, show)),
  };
}
