/**
 * Words of the season's page.
 */
import { dayInWords } from '../../../../domain/dates/day-words.ts';
import type { SeasonPage, SeasonQuestions } from '../../../../usecases/season/read-season-page.ts';
import type {
  MoneyWaitView,
  PriceView,
  SeasonView,
  WaitView,
  WeekView,
} from '../../../../usecases/season/season-view.ts';

export const TONS = { 'short-ton': 'short tons', tonne: 'tonnes' } as const;
export const TON = { 'short-ton': 'short ton', tonne: 'tonne' } as const;
const WEIGHT = { lb: 'pound', kg: 'kilogram' } as const;

type Units = Pick<SeasonPage, 'currency' | 'ton' | 'weight' | 'today'>;

export function loadsInWords(loads: number): string {
  return loads === 1 ? 'one load' : `${loads} loads`;
}

/** "19 of 22 loads have settled, for 56,219.65 USD together; three wait for their price." */
export function valueSentence({ sums }: SeasonView, { currency }: Units): string {
  const settled = sums.loads - sums.unsettledLoads;
  if (settled === 0) return `${opened(loadsInWords(sums.loads))} came; none has settled yet.`;
  const all = `for ${sums.value} ${currency}${settled === 1 ? '' : ' together'}`;
  if (sums.unsettledLoads === 0) {
    return sums.loads === 1
      ? `One load came and has settled, ${all}.`
      : `All ${sums.loads} loads have settled, ${all}.`;
  }
  return `${settled} of ${sums.loads} loads ${settled === 1 ? 'has' : 'have'} settled, ${all}. The other ${
    sums.unsettledLoads === 1 ? 'one is' : `${sums.unsettledLoads} are`
  } not in that sum.`;
}

/** "161.54 USD a short ton of dry matter: 55,000.00 USD for the 340.47 short tons in 19 settled loads." */
export function dryMatterSentence(price: PriceView, { currency, ton }: Units): string {
  return `${price.perTon} ${currency} a ${TON[ton]} of dry matter: ${price.value} ${currency} for the ${price.tons} ${TONS[ton]} ${inSettled(price)}.`;
}

/** "0.1131 USD a pound of starch, or 226.20 USD a short ton: …" */
export function starchSentence(price: PriceView, { currency, ton, weight }: Units): string {
  return `${price.perWeight} ${currency} a ${WEIGHT[weight]} of starch, or ${price.perTon} ${currency} a ${TON[ton]}: ${price.value} ${currency} for the ${price.tons} ${TONS[ton]} ${inSettled(price)}, as if starch were all that was bought.`;
}

function inSettled({ loads }: PriceView): string {
  return loads === 1 ? 'in one settled load' : `in ${loads} settled loads`;
}

/** Which settled loads the price leaves out; undefined where none. */
export function leftOutSentence({ leftOut }: PriceView, what: string): string | undefined {
  if (leftOut === 0) return undefined;
  const [many, are] = leftOut === 1 ? ['One settled load', 'is'] : [`${leftOut} settled loads`, 'are'];
  return `${many} ${are} left out: no figure for ${what} was reported.`;
}

/** "7 to 13 September". */
export function weekInWords({ monday, sunday }: Pick<WeekView, 'monday' | 'sunday'>, today: string): string {
  const end = dayInWords(sunday, today);
  return monday.slice(0, 7) === sunday.slice(0, 7)
    ? `${Number(monday.slice(8))} to ${end}`
    : `${dayInWords(monday, today)} to ${end}`;
}

/** For whoever does not see the bars. */
export function weeksAlternative(weeks: readonly WeekView[], { currency, today }: Units): string {
  const most = weeks.reduce<WeekView | undefined>(
    (best, week) => (best === undefined || Number(week.amount) > Number(best.amount) ? week : best),
    undefined,
  );
  const [first, last] = [weeks[0], weeks.at(-1)];
  if (!most || !first || !last) return '';
  return `Settled value by week, from ${weekInWords(first, today)} until ${weekInWords(last, today)}. Most came in the week of ${weekInWords(most, today)}: ${most.value} ${currency}. The table below holds every week.`;
}

function daysInWords(days: string | number): string {
  return String(days) === '1' ? 'one day' : `${days} days`;
}

/** "Half of the 19 settled loads had their price within 4 days; ticket 707 took longest, 6 days." */
export function waitSentence(
  { loads, median, longest, longestTicket }: WaitView,
  { one, many }: { readonly one: string; readonly many: string },
): string {
  if (loads === 1) return `The one load ${one} after ${daysInWords(longest)}.`;
  return `Half of ${loads} loads ${many} within ${daysInWords(median)}; ticket ${longestTicket} took longest, ${daysInWords(longest)}.`;
}

export function paidSentence({ paid, median, longest }: MoneyWaitView, { currency }: Units): string {
  if (median === undefined || longest === undefined) return 'Nothing has been paid for it yet.';
  return `Of ${paid} ${currency} paid so far, half was there within ${daysInWords(median)} of delivery; the last of it took ${daysInWords(longest)}.`;
}

/** What is unpaid, apart from the days. */
export function unpaidSentence({ unpaid }: MoneyWaitView, { currency }: Units): string {
  if (unpaid.documents === 0) return 'No invoice for feed is open.';
  const on = unpaid.documents === 1 ? 'one document' : `${unpaid.documents} documents`;
  const held =
    unpaid.held === undefined ? '' : ` ${unpaid.held} ${currency} of it is held, since it is questioned.`;
  return `${unpaid.open} ${currency} on ${on} is not paid yet and counts in none of these days.${held}`;
}

/** "Nine questions: seven decided by the agreed rule, one agreed on …" */
export function questionsSentence({ asked, open, decided, agreed, withdrawn }: SeasonQuestions): string {
  if (asked === 0) return 'No figure was questioned.';
  const parts = [
    ...(decided > 0 ? [`${decided} decided by the agreed rule`] : []),
    ...(agreed > 0 ? [`${agreed} agreed on by both`] : []),
    ...(withdrawn > 0 ? [`${withdrawn} withdrawn`] : []),
    ...(open > 0 ? [`${open} still open`] : []),
  ];
  return `${asked === 1 ? 'One question' : `${asked} questions`}: ${parts.join(', ')}.`;
}

/** What the endings moved, each way for itself. */
export function movedSentence(
  { toSeller, toBuyer, asked, open }: SeasonQuestions,
  { currency, seller, buyer }: Pick<SeasonPage, 'currency' | 'seller' | 'buyer'>,
): string | undefined {
  if (asked === open) return undefined;
  if (toSeller === undefined && toBuyer === undefined) return 'None of them moved any money.';
  const parts = [
    ...(toSeller === undefined ? [] : [`${toSeller} ${currency} more for ${seller}`]),
    ...(toBuyer === undefined ? [] : [`${toBuyer} ${currency} less to pay for ${buyer}`]),
  ];
  return `What they changed in the loads’ value: ${parts.join(', and ')}.`;
}

export function costsSentence(
  { costs }: SeasonQuestions,
  { currency, seller, buyer }: Pick<SeasonPage, 'currency' | 'seller' | 'buyer'>,
): string | undefined {
  return (
    costs &&
    `The tests for them cost ${seller} ${costs.seller} ${currency} and ${buyer} ${costs.buyer} ${currency}.`
  );
}

/** "Dry matter"; "pH" keeps its letters. */
export function opened(words: string): string {
  return words === 'pH' ? words : `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
