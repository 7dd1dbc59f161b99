/**
 * Which invoices a settled season makes: one for each load, each day, or the whole season.
 */
import type { Agreement } from '../../domain/agreement/document.ts';
import { FEEDS } from '../../domain/agreement/measures.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { type Exact, larger, ONE } from '../../domain/numbers/exact.ts';
import { RunningSum } from '../../domain/numbers/running-sum.ts';
import { testRules } from '../../domain/samples/lab-result.ts';
import { type Money, printAmount } from '../../domain/settlement/line.ts';
import type { Outcome, Settled } from '../../domain/settlement/outcome.ts';
import type { Figures } from '../figures.ts';
import { describeLoad, type LoadSetting, printNet } from './describe-load.ts';
import type { InvoiceAbsent, InvoiceData } from './invoice-data.ts';

export type InvoiceKind = InvoiceData['kind'];

export interface InvoiceRequest {
  readonly agreement: Agreement;
  /** The agreement's version in the shared record; a file has none. */
  readonly version?: string;
  /** SHA-256 of the agreement, in hexadecimal. */
  readonly fingerprint: string;
  readonly money: Money;
  readonly outcomes: readonly Outcome[];
  readonly by: InvoiceKind;
  /** What the papers are called; invoices where nothing is said. */
  readonly paper?: 'settlement';
  readonly figures: Figures;
  /** A local date, where the invoices are to carry one. */
  readonly issuedOn: string | undefined;
}

/** The invoices in order of their first load (by day: of the day); none where nothing has settled. */
export function drawUpInvoices(request: InvoiceRequest): InvoiceData[] {
  const { agreement, outcomes, by } = request;
  const settled = outcomes.filter((outcome): outcome is Settled => outcome.status === 'settled');
  const setting: LoadSetting = {
    ...request,
    calendar: zoneCalendar(agreement.timeZone),
    rules: testRules(agreement),
    heaviest: settled.reduce<Exact>((most, { load }) => larger(most, load.netPounds), ONE),
  };
  return groupsOf(settled, by).map(([name, loads]) =>
    drawUp(request, { setting, loads, number: `${agreement.id}/${name}` }),
  );
}

interface Group {
  readonly setting: LoadSetting;
  readonly loads: readonly Settled[];
  readonly number: string;
}

function drawUp(request: InvoiceRequest, { setting, loads, number }: Group): InvoiceData {
  const { agreement, version, fingerprint, money, by, paper, figures, issuedOn } = request;
  const days = loads.map(({ load }) => load.deliveredOn).sort();
  const [first = '', last = ''] = [days.at(0), days.at(-1)];
  const total = loads.reduce((sum, load) => sum + load.total, 0n);
  const pounds = new RunningSum();
  for (const { load } of loads) pounds.add(load.netPounds);
  return {
    kind: by,
    ...(paper === undefined ? {} : { paper }),
    number,
    ...(issuedOn === undefined ? {} : { issuedOn }),
    seller: agreement.seller,
    buyer: agreement.buyer,
    agreement: { id: agreement.id, ...(version === undefined ? {} : { version }), fingerprint },
    feed: FEEDS[agreement.feed],
    currency: agreement.currency,
    decimalMark: figures.decimalMark,
    delivered: first === last ? first : `${first} to ${last}`,
    loads: loads.map((load) => describeLoad(load, setting)),
    weightUnit: readerUnits(agreement).weight,
    net: printNet(pounds.value(), setting),
    absent: by === 'load' ? [] : absentBeside(request, by === 'day' ? first : undefined),
    total: figures.show(printAmount(total, money)),
  };
}

function groupsOf(settled: readonly Settled[], by: InvoiceKind): [string, Settled[]][] {
  switch (by) {
    case 'load':
      return settled.map((outcome) => [outcome.load.ticket, [outcome]]);
    case 'season':
      return settled.length === 0 ? [] : [['season', [...settled]]];
    case 'day': {
      const days = new Map<string, Settled[]>();
      for (const outcome of settled) {
        const day = days.get(outcome.load.deliveredOn);
        if (day) day.push(outcome);
        else days.set(outcome.load.deliveredOn, [outcome]);
      }
      return [...days].sort(([a], [b]) => (a < b ? -1 : 1));
    }
  }
}

/** Loads of the same day or season that are not on the invoice: those that wait, by what for, and those refused. */
function absentBeside({ outcomes }: InvoiceRequest, day: string | undefined): InvoiceAbsent[] {
  const tickets = new Map<string, string[]>();
  for (const outcome of outcomes) {
    if (outcome.status === 'settled' || (day !== undefined && outcome.load.deliveredOn !== day)) continue;
    const why =
      outcome.status === 'waiting' ? `waits: ${outcome.detail}` : `refused: ${outcome.breaches.join('; ')}`;
    const same = tickets.get(why);
    if (same) same.push(outcome.load.ticket);
    else tickets.set(why, [outcome.load.ticket]);
  }
  return [...tickets].map(([why, loads]) => ({ why, loads }));
}
