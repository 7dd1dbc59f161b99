/**
 * How one load came to its amount, in words and figures that a pocket calculator repeats.
 */

import { MEASURE_NAMES, MEASURE_UNITS } from '../domain/agreement/measures.ts';
import { zoneCalendar } from '../domain/dates/instant.ts';
import { printDecimal, withMinus } from '../domain/numbers/printing.ts';
import { reportedFigure } from '../domain/samples/lab-result.ts';
import { tell, tellAdjustments } from '../domain/settlement/derivation.ts';
import { type LineUnit, type Money, printAmount } from '../domain/settlement/line.ts';
import type { Outcome, Settled } from '../domain/settlement/outcome.ts';
import { printRate } from '../domain/settlement/print-rate.ts';
import type { SettledSeason } from '../usecases/settle-folder.ts';

/** The whole derivation of a load; for one that did not settle, why not. */
export function explain(outcome: Outcome, { season, money }: SettledSeason): string {
  const { agreement } = season;
  return [
    `Load ${outcome.load.ticket}, agreement ${agreement.id}: ${agreement.seller} to ${agreement.buyer}`,
    ...tellTicket(outcome, agreement.timeZone),
    ...tellResult(outcome),
    ...(outcome.status === 'settled' ? tellSettlement(outcome, { season, money }) : [tellUnsettled(outcome)]),
  ].join('\n');
}

const UNIT_NAMES: Partial<Record<string, string>> = {
  'short-ton': 'short tons',
  tonne: 'tonnes',
  bushel: 'bushels',
  load: 'load',
  mile: 'miles',
};

/** "short tons", "lb", or the currency of a percent line. */
function nameUnit(unit: LineUnit): string {
  return typeof unit === 'string' ? (UNIT_NAMES[unit] ?? unit) : unit.currency;
}

function tellTicket({ load }: Outcome, timeZone: string): string[] {
  const when = zoneCalendar(timeZone).wallClockAt(load.deliveredAt);
  const pounds = load.unit === 'lb' ? '' : ` (${printDecimal(load.netPounds)} lb)`;
  return [
    `Delivered ${when} in ${timeZone}, so on ${load.deliveredOn}${load.truck === undefined ? '' : `, by ${load.truck}`}`,
    `Scale: gross ${tell(load.gross)} − tare ${tell(load.tare)} = net ${tell(load.net)} ${load.unit}${pounds}`,
    ...(load.distance ? [`Hauled ${tell(load.distance.length)} ${nameUnit(load.distance.unit)}`] : []),
  ];
}

function tellResult({ result, figures }: Outcome): string[] {
  if (!result) return ['No laboratory result'];
  const reported = ['dry-matter' as const, ...result.reported].flatMap((measure) => {
    const figure = reportedFigure(result, measure);
    return figure ? [`${MEASURE_NAMES[measure]} ${tell(figure)}`] : [];
  });
  const used = Object.entries(figures).map(([measure, figure]) => {
    const name = measure as keyof typeof MEASURE_NAMES & keyof typeof MEASURE_UNITS;
    return `${MEASURE_NAMES[name]} ${tell(figure)} ${MEASURE_UNITS[name]}`.trimEnd();
  });
  return [
    `Sample ${result.sample}, reported on ${result.basis === 'as-fed' ? 'as-fed weight' : 'dry matter'}: ${reported.join(', ')}`,
    `As the agreement uses it: ${used.join(', ')}`,
  ];
}

function tellSettlement(
  outcome: Settled,
  { season, money }: Pick<SettledSeason, 'season' | 'money'>,
): string[] {
  const prices = [...outcome.prices].map(([name, { price, quote, quotedOn }]) => {
    const reference = season.agreement.references[name];
    const source = quotedOn.length === 0 ? 'fixed' : `${reference?.series ?? ''} of ${quotedOn.join(', ')}`;
    const adjusted = reference
      ? tellAdjustments(reference, price)
          .map((words) => `, ${words}`)
          .join('')
      : '';
    return `Price ${name}: ${tell(quote)} (${source})${adjusted}, so ${tell(price)} ${money.currency} per ${reference?.unit ?? 'unit'}`;
  });
  const lines = outcome.lines.flatMap((line) => [
    '',
    `${line.label}: ${withMinus(printAmount(line.amount, money))} ${money.currency}`,
    `  ${printDecimal(line.quantity)} ${nameUnit(line.unit)} × ${withMinus(printRate(line, money))}`,
    `  ${line.how()}`,
  ]);
  return [...prices, ...lines, '', tellSum(outcome, money)];
}

/** "1815.82 + 342.99 − 71.83 − 100.13 = 1986.85 USD" */
function tellSum({ lines, total }: Settled, money: Money): string {
  const sum = lines.reduce((told, { amount }, index) => {
    const figure = printAmount(amount < 0n ? -amount : amount, money);
    if (index === 0) return `${amount < 0n ? '−' : ''}${figure}`;
    return `${told} ${amount < 0n ? '−' : '+'} ${figure}`;
  }, '');
  return `Total: ${sum} = ${withMinus(printAmount(total, money))} ${money.currency}`;
}

function tellUnsettled(outcome: Exclude<Outcome, Settled>): string {
  return outcome.status === 'refused'
    ? `Refused by the buyer (${outcome.breaches.join('; ')}): nothing is owed for it`
    : `Waits (${outcome.reason}): ${outcome.detail}`;
}
