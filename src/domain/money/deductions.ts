/**
 * What is taken off the seller's money for one settled load, beside its price: drying, storage, an assessment that law
 * sets. Each is rounded once, for each load.
 */
import type { Conditions } from '../agreement/conditions.ts';
import { decimal, divide, type Exact, ONE, percent, powerOfTen } from '../numbers/exact.ts';
import { printDecimal, printWritten } from '../numbers/printing.ts';
import { fromPounds } from '../quantities/units.ts';
import { amountOf, type Money, printAmount } from '../settlement/line.ts';

export type DeductionRule = NonNullable<Conditions['deductions']>[number];

/** What a deduction is taken by. */
export interface DeductedLoad {
  readonly netPounds: Exact;
  /** Undefined where no result is known. */
  readonly dryPounds: Exact | undefined;
  /** The settlement's total, in minor units. */
  readonly total: bigint;
}

export interface Deduction {
  readonly label: string;
  readonly payee: string | null;
  readonly quantity: Exact;
  /** As in a settlement's lines; the currency for a percent. */
  readonly unit: string;
  readonly rate: Exact;
  /** Minor units; above zero is taken off. */
  readonly amount: bigint;
  readonly how: string;
}

/** Whether a load's dry matter must be known for a rule. */
export function needsDryMatter({ weight }: DeductionRule): boolean {
  return weight === 'dry-matter';
}

/**
 * One deduction: 0.04 a bushel of 56 lb on 47,120 lb as-fed is 33.66. A percent is of the load's price, and nothing of a
 * price below zero. Throws where dry matter is missing, which `needsDryMatter` tells before.
 */
export function deduction(rule: DeductionRule, load: DeductedLoad, money: Money): Deduction {
  const { label, payee = null, per } = rule;
  const rate = per === 'percent' ? percent(decimal(rule.rate)) : decimal(rule.rate);
  const { quantity, unit, told } = quantityOf(rule, load, money);
  const amount = amountOf(quantity, rate, money);
  const how = `${told} × ${printWritten(rule.rate)}${per === 'percent' ? ' %' : ''} = ${printAmount(amount, money)}`;
  return { label, payee, quantity, unit, rate, amount, how };
}

function quantityOf(rule: DeductionRule, load: DeductedLoad, money: Money) {
  if (rule.per === 'load') return { quantity: ONE, unit: 'load', told: '1 load' };
  if (rule.per === 'percent') {
    const total: Exact = { n: load.total < 0n ? 0n : load.total, d: powerOfTen(money.decimals) };
    return { quantity: total, unit: money.currency, told: printAmount(total.n, money) };
  }
  const isDry = needsDryMatter(rule);
  const pounds = isDry ? load.dryPounds : load.netPounds;
  if (!pounds) throw new Error('A deduction by dry matter was worked out without it');
  const weighed = `${printDecimal(pounds)} lb${isDry ? ' of dry matter' : ''}`;
  if (rule.per === 'bushel') {
    const bushel = decimal(rule.poundsPerBushel ?? '');
    return { quantity: divide(pounds, bushel), unit: 'bushel', told: `${weighed} ÷ ${printDecimal(bushel)}` };
  }
  const quantity = fromPounds(pounds, rule.per);
  return {
    quantity,
    unit: rule.per,
    told: rule.per === 'lb' ? weighed : `${weighed} = ${printDecimal(quantity)} ${rule.per}`,
  };
}
