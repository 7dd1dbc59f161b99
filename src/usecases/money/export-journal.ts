/**
 * The money entries of the caller's agreements as CSV, for any accounting program: each account that an entry touches, by
 * the caller's side of the books.
 */
import { type JournalExportRow, journalCsv } from '../../documents/journal-csv.ts';
import { parseLocalDate } from '../../domain/dates/local-date.ts';
import { type ChartAccount, chartAccount, chartOf, isDebit } from '../../journal/chart.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type MoneyPostingRow, readMoneyPostings } from '../../store/rows/journal-rows.ts';
import { readLoadStandings } from '../../store/rows/money/load-standing-rows.ts';
import { type Context, permit } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import type { MoneyFrame } from './money-frame.ts';
import { readPartnerMoney } from './partner-money.ts';
import { paymentName } from './payment-name.ts';
import { compareText, nameOf } from './statement-entries.ts';

export interface JournalWanted {
  /** One agreement; without it, all. */
  readonly agreementId?: string | undefined;
  /** `YYYY-MM-DD`, both days included; without them, all. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
}

/** The accounts that the file may name, by the side of an agreement that the caller's party is on. Refuses `not-allowed`. */
export function readChart(context: Context): Readonly<Record<'seller' | 'buyer', readonly ChartAccount[]>> {
  permit(context, 'read');
  return { seller: chartOf('seller'), buyer: chartOf('buyer') };
}

/** The file's text. Refuses `not-allowed`, `not-found`, `bad-input`. */
export async function exportJournal(context: Context, wanted: JournalWanted): Promise<string> {
  permit(context, 'read');
  for (const [column, day] of [['from', wanted.from] as const, ['to', wanted.to] as const]) {
    if (day && !parseLocalDate(day)) {
      throw badInput([{ column, message: 'must be a date on the calendar, like 2026-09-14' }]);
    }
  }
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const rows: JournalExportRow[] = [];
    for (const { frame } of await readPartnerMoney(tx, context, { agreementId: wanted.agreementId })) {
      rows.push(...(await agreementRows(tx, frame, wanted)));
    }
    return journalCsv(rows.sort((a, b) => compareText(a.date, b.date)));
  });
}

async function agreementRows(
  tx: Transaction,
  frame: MoneyFrame,
  { from, to }: JournalWanted,
): Promise<readonly JournalExportRow[]> {
  const { agreementId, money, side, found } = frame;
  const postings = await readMoneyPostings(tx, [agreementId], money.currency);
  const loads = await readLoadStandings(tx, agreementId);
  const tickets = new Map(loads.map(({ loadId, ticket }) => [loadId, ticket]));
  return postings.flatMap((posting): JournalExportRow[] => {
    const date = frame.dayOf(posting.postedAt);
    const account = chartAccount(posting.account, side);
    if (!account || !/[1-9]/.test(posting.amount)) return [];
    if ((from && date < from) || (to && date > to)) return [];
    const amount = posting.amount.replace('-', '');
    const debit = isDebit(posting.amount, side);
    return [
      {
        date,
        entryNumber: `${found.row.number}/${posting.sequence}`,
        ...told(posting, { frame, tickets }),
        accountCode: account.code,
        accountName: account.name,
        debit: debit ? amount : '',
        credit: debit ? '' : amount,
        currency: money.currency,
      },
    ];
  });
}

/** The document that made an entry, and the entry in words. */
function told(
  { kind, fact }: MoneyPostingRow,
  { frame: { rows }, tickets }: { readonly frame: MoneyFrame; readonly tickets: ReadonlyMap<string, string> },
): Pick<JournalExportRow, 'document' | 'memo'> {
  const text = (key: string) => String(fact[key] ?? '');
  const documentNamed = (id: string) => {
    const row = rows.documents.find((document) => document.id === id);
    return row ? nameOf(row.fact) : '';
  };
  const payment = rows.payments.find(({ id }) => id === text('payment'));
  const paid = payment ? paymentName(payment.fact) : '';
  switch (kind) {
    case 'settlement':
      return { document: '', memo: `Load ${tickets.get(text('load')) ?? ''} ${text('status')}` };
    case 'document': {
      const name = nameOf({ kind: text('kind'), serial: text('serial') });
      return { document: name, memo: name };
    }
    case 'payment-answer':
      return { document: '', memo: `${paid}, paid ${payment?.fact.paidOn ?? ''}` };
    case 'payment-reversal':
      return { document: '', memo: `${paid} given back by the bank: ${text('reason')}` };
    case 'hold':
      return { document: documentNamed(text('document')), memo: `Questioned: ${text('reason')}` };
    case 'hold-end': {
      const hold = rows.holds.find(({ id }) => id === text('hold'));
      return { document: documentNamed(hold?.fact.document ?? ''), memo: 'No longer questioned' };
    }
    case 'set-off-answer':
      return { document: '', memo: 'Money on account used for invoices' };
    default:
      return { document: '', memo: kind };
  }
}
