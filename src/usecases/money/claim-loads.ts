/**
 * What each load of an agreement brings to its next document: all of its settlement where it was never invoiced, and the
 * difference where it has settled anew, was refused or made void since.
 */
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { deduction, needsDryMatter } from '../../domain/money/deductions.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import type {
  AdvanceTaken,
  DeductionLine,
  DocumentLine,
  LineLoad,
} from '../../domain/money/money-document.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { printRate } from '../../domain/settlement/print-rate.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { type InvoicedLoad, readInvoicedLoads } from '../../store/rows/money/document-rows.ts';
import { type LoadStandingRow, readLoadStandings } from '../../store/rows/money/load-standing-rows.ts';
import { groupRows } from '../group-rows.ts';
import { type LoadOutcome, outcomesOf } from '../loads/load-views.ts';
import type { MoneyFrame } from './money-frame.ts';

/** What one load brings to a document; amounts in minor units. */
export interface LoadClaim {
  readonly load: LoadStandingRow;
  readonly lines: readonly DocumentLine[];
  readonly deductions: readonly DeductionLine[];
  readonly advances: readonly AdvanceTaken[];
  readonly goods: bigint;
  readonly deducted: bigint;
  /** Of its advance, used up or given back. */
  readonly advance: bigint;
  /** The document that it corrects: where it was last invoiced, or where its advance was given. */
  readonly corrects: string | null;
  /** It has been on an invoice before, so that the difference goes on a note. */
  readonly isNote: boolean;
}

export interface Claims {
  readonly claims: readonly LoadClaim[];
  /** Tickets of settled loads whose deductions need a dry matter that nobody has reported. */
  readonly lacking: readonly string[];
}

/** The claims of an agreement's loads, or of some, in the order in which they were delivered. */
export async function claimLoads(
  tx: Transaction,
  frame: MoneyFrame,
  loadIds?: readonly string[],
): Promise<Claims> {
  const wanted = loadIds && new Set(loadIds);
  const invoiced = groupRows(await readInvoicedLoads(tx, frame.agreementId), ({ load }) => load);
  const changed = (await readLoadStandings(tx, frame.agreementId)).filter(
    (load) => (wanted?.has(load.loadId) ?? true) && isChanged(load, invoiced.get(load.loadId) ?? []),
  );
  const settled = changed.filter(({ status, isVoid }) => status === 'settled' && !isVoid);
  const rows = await readLoads(
    tx,
    frame.agreementId,
    settled.map(({ loadId }) => loadId),
  );
  const outcomes = new Map((await outcomesOf(tx, frame.found, rows)).map((known) => [known.row.id, known]));
  const lacking: string[] = [];
  const claims = changed.flatMap((load): LoadClaim[] => {
    const outcome = outcomes.get(load.loadId);
    const taken = outcome ? deductionsOf(outcome, frame) : [];
    if (taken === 'lacks-dry-matter') {
      lacking.push(load.ticket);
      return [];
    }
    return [claimOf(load, { outcome, taken, before: invoiced.get(load.loadId) ?? [], frame })];
  });
  return { claims: claims.filter(isSomething), lacking };
}

function isChanged(load: LoadStandingRow, before: readonly InvoicedLoad[]): boolean {
  if (load.isVoid) return before.length > 0;
  const isBrought = before.some(({ settlement }) => settlement === load.settlementId);
  if (load.status === 'refused') return before.length > 0 && !isBrought;
  return load.status === 'settled' && !isBrought;
}

/** A load that was never invoiced counts even where it comes to nothing; a difference of nothing does not. */
function isSomething({ isNote, corrects, goods, deducted, advance }: LoadClaim): boolean {
  if (!isNote && corrects === null) return true;
  return goods !== 0n || deducted !== 0n || advance !== 0n;
}

interface ClaimGround {
  readonly outcome: LoadOutcome | undefined;
  readonly taken: readonly DeductionLine[];
  readonly before: readonly InvoicedLoad[];
  readonly frame: MoneyFrame;
}

function claimOf(load: LoadStandingRow, { outcome, taken, before, frame }: ClaimGround): LoadClaim {
  const { money, print } = frame;
  const sum = (pick: (row: InvoicedLoad) => string) =>
    before.reduce((total, row) => total + minorUnits(pick(row), money), 0n);
  const named: LineLoad = { ticket: load.ticket, deliveredOn: load.deliveredOn };
  const isNote = before.some(({ settlement }) => settlement !== null);
  const invoiced = { goods: sum(({ goods }) => goods), deductions: sum(({ deductions }) => deductions) };
  const advance = -sum((row) => row.advance);
  const now = outcome?.settlements.at(-1);
  const lines: DocumentLine[] = (now?.lines ?? []).map((line) => ({ load: named, ...line }));
  const back = (amount: bigint, label: string): DocumentLine => ({
    load: named,
    label,
    quantity: '1',
    unit: 'load',
    rate: print(-amount),
    amount: print(-amount),
    how: `as invoiced before: ${print(amount)}`,
  });
  const goods = now ? minorUnits(now.total, money) : 0n;
  const deducted = taken.reduce((total, { amount }) => total + minorUnits(amount, money), 0n);
  const given = before.find((row) => minorUnits(row.advance, money) < 0n)?.documentId ?? null;
  return {
    load,
    lines: isNote ? [back(invoiced.goods, 'Invoiced before, taken back'), ...lines] : lines,
    deductions:
      isNote && invoiced.deductions !== 0n
        ? [{ ...back(invoiced.deductions, 'Taken off before, given back'), payee: null }, ...taken]
        : taken,
    advances: advance === 0n ? [] : advancesTaken(named, { advance, documentId: given, frame }),
    goods: goods - invoiced.goods,
    deducted: deducted - invoiced.deductions,
    advance,
    corrects: isNote ? lastInvoice(before, frame) : now ? null : given,
    isNote,
  };
}

/** The last document that brought the load to an invoice; a credit note only where nothing else did. */
function lastInvoice(before: readonly InvoicedLoad[], { rows }: MoneyFrame): string | null {
  const credits = new Set(
    rows.documents.filter(({ fact }) => fact.kind === 'credit-note').map(({ id }) => id),
  );
  const brought = before.filter(({ settlement }) => settlement !== null);
  const invoice = brought.findLast(({ documentId }) => !credits.has(documentId)) ?? brought.at(-1);
  return invoice?.documentId ?? null;
}

function advancesTaken(
  load: LineLoad,
  of: { readonly advance: bigint; readonly documentId: string | null; readonly frame: MoneyFrame },
): AdvanceTaken[] {
  const document = of.frame.rows.documents.find(({ id }) => id === of.documentId);
  if (!document) throw new Error('An advance stands on a document that is not there');
  const { serial, issuedOn } = document.fact;
  return [{ load, number: serial, issuedOn, amount: of.frame.print(of.advance) }];
}

/** The deductions of a settled load by the version that it was delivered under. */
function deductionsOf(
  { row, terms, outcome }: LoadOutcome,
  { money, print }: MoneyFrame,
): readonly DeductionLine[] | 'lacks-dry-matter' {
  const rules = conditionsOf(terms.agreement)?.deductions ?? [];
  if (outcome.status !== 'settled') return [];
  if (!outcome.dryPounds && rules.some(needsDryMatter)) return 'lacks-dry-matter';
  const { netPounds } = outcome.load;
  return rules.map((rule) => {
    const { label, payee, quantity, unit, rate, amount, how } = deduction(
      rule,
      { netPounds, dryPounds: outcome.dryPounds, total: outcome.total },
      money,
    );
    return {
      load: { ticket: row.ticket, deliveredOn: row.deliveredOn },
      label,
      payee,
      quantity: printDecimal(quantity),
      unit,
      rate: printRate({ quantity, rate, amount }, money),
      amount: print(amount),
      how,
    };
  });
}

/** The last day of something among claims; undefined where none has it. */
export function lastDay(days: readonly (string | undefined)[]): LocalDate | undefined {
  return days
    .filter((day) => day !== undefined)
    .toSorted()
    .at(-1) as LocalDate | undefined;
}
