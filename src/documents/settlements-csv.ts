/**
 * Settled loads as CSV, a row a load with a column for each line of the agreement: plain decimals for other programs,
 * and no cell that a spreadsheet would run as a formula.
 */
import type { Agreement } from '../domain/agreement/document.ts';
import { printDecimal } from '../domain/numbers/printing.ts';
import { type Money, printAmount } from '../domain/settlement/line.ts';
import type { Outcome } from '../domain/settlement/outcome.ts';
import { csvRow } from './csv.ts';

const FIXED_COLUMNS = [
  'ticket',
  'status',
  'reason',
  'detail',
  'delivered_on',
  'gross',
  'tare',
  'net',
  'unit',
  'net_pounds',
  'sample',
  'truck',
  'dry_matter_pounds',
  'dry_matter_percent',
  'currency',
  'total',
];

/** The header row; each line of the agreement has its label, numbered where two are the same. */
export function csvHead({ price }: Agreement): string {
  const labels = price.map(({ label }, index) => {
    const same = price.filter((other) => other.label === label).length;
    return safeText(same > 1 ? `${label} (${index + 1})` : label);
  });
  return csvRow([...FIXED_COLUMNS, ...labels]);
}

/** One load; amounts have the currency's decimals, weights at most six. */
export function csvLoad(outcome: Outcome, money: Money, { price }: Agreement): string {
  const { load, figures, dryPounds } = outcome;
  const settled = outcome.status === 'settled' ? outcome : undefined;
  return csvRow([
    safeText(load.ticket),
    outcome.status,
    outcome.status === 'waiting' ? outcome.reason : '',
    safeText(detailOf(outcome)),
    load.deliveredOn,
    printDecimal(load.gross),
    printDecimal(load.tare),
    printDecimal(load.net),
    load.unit,
    printDecimal(load.netPounds),
    safeText(outcome.result?.sample ?? load.sample ?? ''),
    safeText(load.truck ?? ''),
    dryPounds ? printDecimal(dryPounds) : '',
    figures['dry-matter'] ? printDecimal(figures['dry-matter']) : '',
    money.currency,
    settled ? printAmount(settled.total, money) : '',
    ...price.map((_, index) => {
      const line = settled?.lines[index];
      return line ? printAmount(line.amount, money) : '';
    }),
  ]);
}

function detailOf(outcome: Outcome): string {
  switch (outcome.status) {
    case 'settled':
      return '';
    case 'refused':
      return outcome.breaches.join('; ');
    case 'waiting':
      return outcome.detail;
  }
}

/** As `safeCell`, but a ticket "-5" gets an apostrophe, too: so the first files had it, and this format stays. */
function safeText(text: string): string {
  return /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}
