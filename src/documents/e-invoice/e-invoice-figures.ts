/**
 * The figures of an e-invoice as EN 16931 adds them up: nets of lines, allowances and charges, totals. Signs are turned
 * here, once: on a credit note everything is the other way round.
 */
import { currencyDecimals } from '../../domain/money/currency.ts';
import type {
  AdvanceTaken,
  DeductionLine,
  DocumentLine,
  LineLoad,
  MoneyDocument,
} from '../../domain/money/money-document.ts';
import { documentName } from '../../domain/money/money-document.ts';
import { decimal, type Exact, isNegative, multiply, negate } from '../../domain/numbers/exact.ts';
import { plainDecimal, printUnits } from '../../domain/numbers/printing.ts';
import { roundToUnits } from '../../domain/numbers/rounding.ts';
import { isCredit } from './type-codes.ts';

/** A line as it goes out; `net` in minor units, the price never below zero. */
export interface FiguredLine {
  readonly name: string;
  readonly load: LineLoad | null;
  /** As in the document's lines; null where the line is one of what it names. */
  readonly unit: string | null;
  readonly quantity: string;
  readonly price: string;
  readonly net: bigint;
  readonly note: string | null;
}

/** Taken off (an allowance) or put on (a charge) for the whole document; never below zero. */
export interface FiguredAllowance {
  readonly isCharge: boolean;
  readonly reason: string;
  readonly amount: bigint;
}

export interface EInvoiceFigures {
  readonly credit: boolean;
  /** Decimals of the currency's minor unit, in which all amounts here are counted. */
  readonly decimals: number;
  readonly lines: readonly FiguredLine[];
  readonly allowances: readonly FiguredAllowance[];
  /** BT-106, BT-107, BT-108 and BT-109 = BT-112 = BT-115: there is no tax and nothing is prepaid. */
  readonly lineTotal: bigint;
  readonly allowanceTotal: bigint;
  readonly chargeTotal: bigint;
  readonly payable: bigint;
}

/**
 * The figures of a document. Throws a RangeError where the currency is unknown, where an amount has more decimals than
 * the currency, and where the document's own total is not what its lines come to: those are defects.
 */
export function eInvoiceFigures(document: MoneyDocument): EInvoiceFigures {
  const decimals = currencyDecimals(document.currency);
  if (decimals === undefined) throw new RangeError(`Not a currency: ${document.currency}`);
  const credit = isCredit(document);
  const units = (amount: string) => minorUnits(amount, decimals) * (credit ? -1n : 1n);
  const figured = [
    ...document.lines.map((line) => settledLine(line, units(line.amount), credit)),
    ...document.advances.map((advance) => advanceLine(advance, units(advance.amount), credit)),
  ];
  const lines = figured.length > 0 ? figured : [emptyLine(document)];
  const allowances = document.deductions.map((line) => allowanceOf(line, units(line.amount)));
  const lineTotal = sum(lines.map(({ net }) => net));
  const allowanceTotal = sum(allowances.filter(({ isCharge }) => !isCharge).map(({ amount }) => amount));
  const chargeTotal = sum(allowances.filter(({ isCharge }) => isCharge).map(({ amount }) => amount));
  const payable = lineTotal - allowanceTotal + chargeTotal;
  if (payable !== units(document.totals.payable)) {
    const found = printUnits(payable, decimals);
    throw new RangeError(
      `${documentName(document)} says ${document.totals.payable}, its lines come to ${found}`,
    );
  }
  return { credit, decimals, lines, allowances, lineTotal, allowanceTotal, chargeTotal, payable };
}

/** quantity × rate with the sign on the quantity: EN 16931 has no price below zero (BR-27). */
function settledLine(line: DocumentLine, net: bigint, credit: boolean): FiguredLine {
  const product = multiply(decimal(line.quantity), decimal(line.rate));
  const below = isNegative(credit ? negate(product) : product);
  return {
    ...{ name: line.label, load: line.load, unit: line.unit, net, note: line.how },
    quantity: `${below ? '-' : ''}${withoutSign(line.quantity)}`,
    price: withoutSign(line.rate),
  };
}

/**
 * An advance taken off is a line of −1: the line of the advance invoice, taken back. Not an allowance, which would make
 * the feed cheaper, and not a prepaid amount (BT-113), since the advance is a debt of its own that may not be paid yet.
 * So over all documents each load is charged once.
 */
function advanceLine(
  { load, number, issuedOn, amount }: AdvanceTaken,
  taken: bigint,
  credit: boolean,
): FiguredLine {
  const positive = !isNegative(decimal(amount));
  return {
    name: `Less ${documentName({ kind: 'advance', number })} of ${issuedOn}`,
    ...{ load, unit: null, net: -taken, note: null },
    quantity: positive === credit ? '1' : '-1',
    price: withoutSign(amount),
  };
}

/** An invoice has at least one line (BR-16), also where there are only deductions. */
function emptyLine(document: MoneyDocument): FiguredLine {
  const name = document.reason ?? documentName(document);
  return { name, load: null, unit: null, quantity: '1', price: '0', net: 0n, note: null };
}

function allowanceOf({ label, load, payee, how }: DeductionLine, taken: bigint): FiguredAllowance {
  const parts = [label, load ? inWords(load) : null, payee === null ? null : `paid on to ${payee}`, how];
  const reason = parts.filter((part) => part !== null && part !== '').join('; ');
  return { isCharge: taken < 0n, reason, amount: taken < 0n ? -taken : taken };
}

/** "load T1 of 2026-09-14". */
export function inWords({ ticket, deliveredOn }: LineLoad): string {
  return `load ${ticket} of ${deliveredOn}`;
}

/** "-1815.82" at 2 decimals is −181582. */
function minorUnits(amount: string, decimals: number): bigint {
  const value: Exact = decimal(amount);
  const units = roundToUnits(value, decimals, 'half-up');
  if (units * value.d !== value.n * 10n ** BigInt(decimals)) {
    throw new RangeError(`Not an amount of ${decimals} decimals: ${amount}`);
  }
  return units;
}

function withoutSign(figure: string): string {
  return plainDecimal(figure).replace(/^-/, '');
}

function sum(amounts: readonly bigint[]): bigint {
  return amounts.reduce((total, amount) => total + amount, 0n);
}
