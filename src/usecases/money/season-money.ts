/**
 * How the value of deliveries became money, day by day: delivered and settled, invoiced, paid. For one picture.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLoadStandings } from '../../store/rows/money/load-standing-rows.ts';
import { groupRows } from '../group-rows.ts';
import { countedPayments, signedAmount } from './money-rows.ts';
import type { PartnerMoney } from './partner-money.ts';

/** Sums until and with a day, decimal strings. */
export interface SeasonDay {
  readonly day: LocalDate;
  readonly delivered: string;
  readonly invoiced: string;
  readonly paid: string;
}

export interface SeasonMoney {
  readonly currency: string;
  /** In order; only days on which something changed. */
  readonly days: readonly SeasonDay[];
}

interface DaySums {
  delivered: bigint;
  invoiced: bigint;
  paid: bigint;
}

/** Of some agreements, one for each currency. What is bought and what is sold add up alike: it is a picture of pace. */
export async function seasonMoney(
  tx: Transaction,
  money: readonly PartnerMoney[],
): Promise<readonly SeasonMoney[]> {
  const seasons: SeasonMoney[] = [];
  for (const [currency, group] of groupRows(money, ({ frame }) => frame.money.currency)) {
    const sums = new Map<string, DaySums>();
    const raise = (day: string, part: keyof DaySums, by: bigint) => {
      const sum = sums.get(day) ?? { delivered: 0n, invoiced: 0n, paid: 0n };
      sum[part] += by;
      sums.set(day, sum);
    };
    for (const { frame } of group) {
      for (const load of await readLoadStandings(tx, frame.agreementId)) {
        if (load.status === 'settled' && load.total !== null) {
          raise(load.deliveredOn, 'delivered', minorUnits(load.total, frame.money));
        }
      }
      for (const { fact } of frame.rows.documents) {
        // What a sealed season left over was invoiced there.
        if (fact.seasonRule === 'brought-forward') continue;
        raise(fact.issuedOn, 'invoiced', minorUnits(fact.payable, frame.money));
      }
      for (const { payment } of countedPayments(frame.rows)) {
        raise(payment.fact.paidOn, 'paid', signedAmount(payment, frame));
      }
    }
    const of = group[0]?.frame.money;
    if (!of || sums.size === 0) continue;
    const total: DaySums = { delivered: 0n, invoiced: 0n, paid: 0n };
    const days = [...sums]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([day, sum]): SeasonDay => {
        total.delivered += sum.delivered;
        total.invoiced += sum.invoiced;
        total.paid += sum.paid;
        return {
          day: day as LocalDate,
          delivered: printAmount(total.delivered, of),
          invoiced: printAmount(total.invoiced, of),
          paid: printAmount(total.paid, of),
        };
      });
    seasons.push({ currency, days });
  }
  return seasons;
}
