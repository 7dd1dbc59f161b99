/**
 * The machine-readable settlement, `huskledger-settlements/1`: a header, one load a line, the grand total.
 * This format is frozen. Zero is never negative; absent figures have no key.
 */
import { printDecimal } from '../domain/numbers/printing.ts';
import type { ReferencePrice } from '../domain/prices/reference-price.ts';
import { type Line, type Money, printAmount, unitName } from '../domain/settlement/line.ts';
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

/** One load, without the comma and line break around it. Written piece by piece: there may be a million. */
export function printLoad(outcome: Outcome, money: Money): string {
  const { load, dryPounds, status } = outcome;
  const dryMatter = dryPounds ? `,"dryMatter":{"pounds":"${printDecimal(dryPounds)}"}` : '';
  const ticket = `{"ticket":${JSON.stringify(load.ticket)},"status":"${status}"`;
  const known = `"deliveredOn":"${load.deliveredOn}","net":{"pounds":"${printDecimal(load.netPounds)}"}${dryMatter}`;
  switch (status) {
    case 'waiting':
      return `${ticket},"reason":"${outcome.reason}","detail":${JSON.stringify(outcome.detail)},${known}}`;
    case 'refused':
      return `${ticket},${known}}`;
    case 'settled': {
      const references = [...outcome.prices].map(
        ([name, price]) => `${JSON.stringify(name)}:${printPrice(price)}`,
      );
      const lines = outcome.lines.map((line) => printLine(line, money));
      return `${ticket},${known},"references":{${references.join()}},"lines":[${lines.join()}],"total":"${printAmount(outcome.total, money)}"}`;
    }
  }
}

function printPrice({ price, quote, quotedOn }: ReferencePrice): string {
  return `{"price":"${printDecimal(price)}","quote":"${printDecimal(quote)}","quotedOn":${JSON.stringify(quotedOn)}}`;
}

function printLine(line: Line, money: Money): string {
  const { label, quantity, unit, amount, how } = line;
  const figures = `"quantity":"${printDecimal(quantity)}","unit":"${unitName(unit)}","rate":"${printRate(line, money)}"`;
  return `{"label":${JSON.stringify(label)},${figures},"amount":"${printAmount(amount, money)}","how":${JSON.stringify(how())}}`;
}
