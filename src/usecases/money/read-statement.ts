/**
 * Statements: what the caller's party and another one owe each other over a period, for one agreement or all between them.
 * Entries count by the day on which they were recorded, so a statement of a past period never changes.
 */
import { type LocalDate, parseLocalDate } from '../../domain/dates/local-date.ts';
import { type AgedSums, ageing, daysLate } from '../../domain/money/ageing.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { documentName } from '../../domain/money/money-document.ts';
import type { HeldAmount, NotInvoiced, OpenItem, Statement } from '../../domain/money/statement.ts';
import { type Money, printAmount } from '../../domain/settlement/line.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { type Context, permit } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { partyName } from '../people/party-name.ts';
import { badInput } from '../read-input-rows.ts';
import { liensOf } from './liens-named.ts';
import type { MoneyFrame } from './money-frame.ts';
import { liveHolds, someRows, standingBy } from './money-rows.ts';
import { notInvoiced, readPending } from './not-invoiced.ts';
import { type Partner, readerSign, readPartnerMoney } from './partner-money.ts';
import { compareText, moneyEvents, nameOf } from './statement-entries.ts';

export interface StatementWanted {
  /** The other party; without it, that of the agreement. */
  readonly partnerId?: string | undefined;
  /** One agreement; without it, all between the two. */
  readonly agreementId?: string | undefined;
  /** `YYYY-MM-DD`; without it, from the first entry on. */
  readonly from?: string | undefined;
  /** `YYYY-MM-DD`; without it, until today. */
  readonly to?: string | undefined;
}

/** One statement for each currency. Refuses `not-allowed`, `not-found`, `bad-input` for days that are none or where no partner is named. */
export async function readStatements(
  context: Context,
  wanted: StatementWanted,
): Promise<readonly Statement[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { partnerId, agreementId } = wanted;
    if (partnerId === undefined && agreementId === undefined) {
      throw badInput([{ column: 'partner', message: 'must be named: a statement is with one other party' }]);
    }
    const money = await readPartnerMoney(tx, context, { partnerId, agreementId });
    const days = readDays(
      wanted,
      money.map(({ frame }) => frame),
    );
    const of = await partyName(tx, context.caller.partyId);
    const byCurrency = groupRows(money, ({ frame }) => frame.money.currency);
    const statements: Statement[] = [];
    for (const group of byCurrency.values()) {
      const [first] = group;
      if (!first) continue;
      const frames = group.map(({ frame }) => frame);
      statements.push(await statementOf(tx, { of, partner: first.partner, frames, days }));
    }
    return statements;
  });
}

interface Days {
  readonly from: LocalDate | undefined;
  readonly to: LocalDate;
}

function readDays({ from, to }: StatementWanted, frames: readonly MoneyFrame[]): Days {
  const today = frames
    .map((frame) => frame.today)
    .toSorted()
    .at(-1);
  const read = (column: string, text: string | undefined): LocalDate | undefined => {
    if (text === undefined || text.trim() === '') return undefined;
    const day = parseLocalDate(text.trim());
    if (!day) throw badInput([{ column, message: 'must be a date on the calendar, like 2026-09-14' }]);
    return day;
  };
  const [first, last] = [read('from', from), read('to', to) ?? today];
  if (!last) throw new Error('A statement is of no agreement');
  if (first && first > last) {
    throw badInput([{ column: 'from', message: `must not be after the last day, ${last}` }]);
  }
  return { from: first, to: last };
}

interface StatementGround {
  readonly of: string;
  readonly partner: Partner;
  /** The agreements, all in one currency. */
  readonly frames: readonly MoneyFrame[];
  readonly days: Days;
}

async function statementOf(tx: Transaction, ground: StatementGround): Promise<Statement> {
  const { of, partner, days } = ground;
  const frames = ground.frames.map((frame) => asOf(frame, days.to));
  const money = frames[0]?.money;
  if (!money) throw new Error('A statement is of no agreement');
  const print = (amount: bigint) => printAmount(amount, money);
  const events = eventsOf(frames);
  const earlier = events.filter(({ on }) => days.from !== undefined && on < days.from);
  const opening = earlier.reduce((sum, { change }) => sum + change, 0n);
  let balance = opening;
  const entries = events.slice(earlier.length).map(({ on, agreement, name, detail, change }) => {
    balance += change;
    return { on, agreement, name, detail, amount: print(change), balance: print(balance) };
  });
  const liens = frames.flatMap(liensOf);
  const held: HeldAmount[] = [];
  const undelivered: NotInvoiced[] = [];
  for (const frame of frames) {
    held.push(...(await heldOf(tx, frame, print)));
    // What is on no invoice is known of today alone: of a past day it would change with every invoice since.
    if (days.to >= frame.today) undelivered.push(...(await notInvoicedOf(tx, frame, print)));
  }
  return {
    of,
    with: partner.name,
    agreements: frames.map(({ found }) => found.row.number),
    currency: money.currency,
    from: days.from ?? entries[0]?.on ?? days.to,
    to: days.to,
    opening: print(opening),
    entries,
    closing: print(balance),
    ageing: printedAgeing(frames, { to: days.to, money }),
    open: frames.flatMap((frame) => openOf(frame, { to: days.to, print })),
    held,
    notInvoiced: undelivered,
    liens,
  };
}

/** An agreement's money as it stood at the end of a day. */
function asOf(frame: MoneyFrame, day: LocalDate): MoneyFrame {
  if (day >= frame.today) return frame;
  const rows = someRows(frame.rows, ({ recordedAt }) => frame.dayOf(recordedAt) <= day);
  return { ...frame, rows, standing: standingBy(rows, frame) };
}

/** What happened under all the agreements, by day and moment, as the reader counts it. */
function eventsOf(frames: readonly MoneyFrame[]) {
  return frames
    .flatMap((frame) => {
      const sign = readerSign(frame);
      return moneyEvents(frame.rows, frame).map(({ recordedAt, id, name, detail, change }) => ({
        order: `${recordedAt} ${id}`,
        on: frame.dayOf(recordedAt),
        agreement: frame.found.row.number,
        name,
        detail,
        change: sign * change,
      }));
    })
    .sort((a, b) => (a.on === b.on ? compareText(a.order, b.order) : compareText(a.on, b.on)));
}

function printedAgeing(
  frames: readonly MoneyFrame[],
  { to, money }: { readonly to: LocalDate; readonly money: Money },
): Statement['ageing'] {
  const aged = frames.map((frame) => ({ sign: readerSign(frame), sums: ageing(frame.standing, to) }));
  const print = (pick: (sums: AgedSums) => bigint) =>
    printAmount(
      aged.reduce((total, { sign, sums }) => total + sign * pick(sums), 0n),
      money,
    );
  return {
    notDue: print((sums) => sums.notDue),
    days1to30: print((sums) => sums.days1to30),
    days31to60: print((sums) => sums.days31to60),
    days61to90: print((sums) => sums.days61to90),
    over90: print((sums) => sums.over90),
    held: print((sums) => sums.held),
    onAccount: print((sums) => sums.onAccount),
    total: print((sums) => sums.total),
  };
}

/** The open documents of an agreement, and what is on account, as the reader counts them. */
function openOf(
  frame: MoneyFrame,
  { to, print }: { readonly to: LocalDate; readonly print: (amount: bigint) => string },
): readonly OpenItem[] {
  const sign = readerSign(frame);
  const agreement = frame.found.row.number;
  const { documents, onAccount } = frame.standing;
  const items = documents
    .filter(({ open }) => open !== 0n)
    .map((document): OpenItem => {
      const { kind, serial, issuedOn, dueOn, payable, open, held } = document;
      return {
        agreement,
        kind,
        name: documentName({ kind, number: String(serial) }),
        issuedOn,
        dueOn,
        amount: print(sign * payable),
        open: print(sign * open),
        held: print(sign * held),
        daysLate: daysLate(document, to),
      };
    });
  if (onAccount === 0n) return items;
  const amount = print(-sign * onAccount);
  return [
    ...items,
    {
      agreement,
      kind: null,
      name: onAccount > 0n ? 'Paid or credited, not used yet' : 'Used on account and not there any more',
      issuedOn: null,
      dueOn: null,
      amount,
      open: amount,
      held: print(0n),
      daysLate: 0,
    },
  ];
}

/** What is held of an agreement's documents. */
async function heldOf(
  tx: Transaction,
  frame: MoneyFrame,
  print: (amount: bigint) => string,
): Promise<readonly HeldAmount[]> {
  const holds = liveHolds(frame.rows);
  const loadIds = holds.flatMap(({ fact }) => fact.load ?? []);
  const loads = loadIds.length === 0 ? [] : await readLoads(tx, frame.agreementId, loadIds);
  const tickets = new Map(loads.map(({ id, ticket }) => [id, ticket]));
  const { row } = frame.found;
  return holds.map(({ fact, recordedAt }) => {
    const document = frame.rows.documents.find(({ id }) => id === fact.document);
    return {
      agreement: row.number,
      document: document ? nameOf(document.fact) : '',
      ticket: fact.load === null ? null : (tickets.get(fact.load) ?? null),
      amount: print(readerSign(frame) * minorUnits(fact.amount, frame.money)),
      since: frame.dayOf(recordedAt),
      by: fact.party === row.sellerId ? row.sellerName : row.buyerName,
      reason: fact.reason,
    };
  });
}

async function notInvoicedOf(
  tx: Transaction,
  frame: MoneyFrame,
  print: (amount: bigint) => string,
): Promise<readonly NotInvoiced[]> {
  const sums = notInvoiced(await readPending(tx, frame), frame);
  if (sums.settledLoads + sums.unpricedLoads === 0 && sums.advances === 0n) return [];
  const sign = readerSign(frame);
  return [
    {
      agreement: frame.found.row.number,
      settledLoads: sums.settledLoads,
      settled: print(sign * sums.settled),
      unpricedLoads: sums.unpricedLoads,
      valuedLoads: sums.valuedLoads,
      provisional: print(sign * sums.provisional),
      advances: print(sign * sums.advances),
    },
  ];
}
