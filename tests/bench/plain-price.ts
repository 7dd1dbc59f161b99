/**
 * The plainest straight-line pricing of the benchmark's agreement with decimal.js, for scale: it checks nothing and
 * explains nothing, and is right only as far as its 40 digits reach.
 */
import { Decimal } from 'decimal.js';

Decimal.set({ precision: 40, rounding: Decimal.ROUND_HALF_UP });

export interface PlainLoad {
  readonly gross: string;
  readonly tare: string;
  readonly dryMatter: string;
  readonly starch: string;
  readonly ndf: string;
  readonly quote: string;
}

/** The four amounts and their sum. */
export function plainPrice(load: PlainLoad): { amounts: Decimal[]; sum: Decimal } {
  const net = new Decimal(load.gross).minus(load.tare);
  const dry = net.times(load.dryMatter).div(100);
  const price = Decimal.max('3.60', Decimal.min('5.40', new Decimal(load.quote).plus('-0.15')));
  const perPound = price.div(new Decimal('56').times('84.5').div(100));
  const grain = Decimal.min(1, new Decimal(load.starch).div('71'));
  const points = Decimal.max(0, new Decimal(load.ndf).minus(26));
  const first = Decimal.min(4, points);
  const perTon = first.times('-0.80').plus(points.minus(first).times('-1.50'));
  const amounts = [
    dry.times(grain).times(perPound),
    dry.times(new Decimal(1).minus(grain)).times(perPound).times('0.60'),
    dry.div(2000).times(perTon),
    net.div(2000).times('-4.25'),
  ].map((amount) => amount.toDecimalPlaces(2));
  return { amounts, sum: amounts.reduce((left, right) => left.plus(right)) };
}
