/**
 * The machine-readable settlement, `huskledger-settlements/1`: a header, one load a line, the grand total.
 * This format is frozen. Zero is never negative; absent figures have no key.
 */
import { printDecimal } from '../domain/numbers/printing.ts';
import type { ReferencePrice } from '../domain/prices/reference-price.ts';
import { type Line, type LineUnit, type Money, printAmount } from '../domain/settlement/line.ts';
import type { Outcome } from '../domain/settlement/outcome.ts';
import { printRate } from '../domain/settlement/print-rate.ts';

export const SETTLEMENTS_FORMAT = 'huskledger-settlements/1';

export function settlementsHead(agreementId: string, money: Money): string {
  const head = [
    `"format": ${JSON.stringify(SETTLEMENTS_FORMAT)}`,
    `"agreement": ${JSON.stringify(agreementId)}`,
    `"currency": ${JSON.stringify(money.currency)}`,
  ];
  return `{ ${head.join(', ')},\n  "loads": [`;
}

/** The end of the document; `total` is the sum over settled loads, in minor units. */
export function settlementsTail(total: bigint, money: Money): string {
  return `\n  ],\n  "total": ${JSON.stringify(printAmount(total, money))} }\n`;
}

/** One load, without the comma and line break around it. */
export function printLoad(outcome: Outcome, money: Money): string {
  return JSON.stringify(loadDocument(outcome, money));
}

/** One load as plain data, every number a string. */
export function loadDocument(outcome: Outcome, money: Money): Record<string, unknown> {
  const { load, dryPounds, status } = outcome;
  const known = {
    deliveredOn: load.deliveredOn,
    net: { pounds: printDecimal(load.netPounds) },
    ...(dryPounds ? { dryMatter: { pounds: printDecimal(dryPounds) } } : {}),
  };
  switch (status) {
    case 'waiting':
      return { ticket: load.ticket, status, reason: outcome.reason, detail: outcome.detail, ...known };
    case 'refused':
      return { ticket: load.ticket, status, ...known };
    case 'settled':
      return {
        ticket: load.ticket,
        status,
        ...known,
        references: Object.fromEntries(
          [...outcome.prices].map(([name, price]) => [name, priceDocument(price)]),
        ),
        lines: outcome.lines.map((line) => lineDocument(line, money)),
        total: printAmount(outcome.total, money),
      };
  }
}

function priceDocument({ price, quote, quotedOn }: ReferencePrice) {
  return { price: printDecimal(price), quote: printDecimal(quote), quotedOn };
}

function lineDocument(line: Line, money: Money) {
  return {
    label: line.label,
    quantity: printDecimal(line.quantity),
    unit: unitName(line.unit),
    rate: printRate(line, money),
    amount: printAmount(line.amount, money),
    how: line.how(),
  };
}

/** A line's unit as it is written: `lb`, `short-ton`, …, or the currency of a percent line. */
export function unitName(unit: LineUnit): string {
  return typeof unit === 'string' ? unit : unit.currency;
}
