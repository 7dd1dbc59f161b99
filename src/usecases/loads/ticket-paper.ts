/**
 * A recorded ticket as its paper reads: every entry in words, each scale as it stood when the ticket was written, and
 * what was put right since.
 */
import { figuresFor } from '../../documents/figures.ts';
import type { TicketCorrection, TicketPaper, TicketScale } from '../../documents/ticket/ticket-paper.ts';
import { FEEDS } from '../../domain/agreement/measures.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { decimal, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { standingByVersions, standingInWords } from '../../domain/scales/test-standing.ts';
import type { LoadRow, LoadVersionRow, TicketRow } from '../../store/rows/load-rows.ts';
import type { ScaleVersionRow } from '../../store/rows/scale-rows.ts';
import type { AgreedTerms } from '../agreements/find-agreement.ts';
import type { FoundScale } from '../scales/scale-view.ts';

/** An entry of the journal. */
export interface TicketEntry {
  readonly sequence: number;
  readonly subjectId: string;
  readonly postedAt: string;
  readonly fingerprint: string;
}

export interface RecordedTicket {
  readonly terms: AgreedTerms;
  readonly row: LoadRow;
  /** As it was first recorded, and every version after that, oldest first. */
  readonly first: TicketRow;
  readonly versions: readonly LoadVersionRow[];
  /** By id, those that any version names. */
  readonly scales: ReadonlyMap<string, FoundScale>;
  /** Of the load and its versions, in order. */
  readonly entries: readonly TicketEntry[];
}

const { show } = figuresFor('en-US');

export function ticketPaper(recorded: RecordedTicket): TicketPaper {
  const { terms, row, versions, scales, entries } = recorded;
  const { agreement } = terms;
  const calendar = zoneCalendar(agreement.timeZone);
  const tareAt = row.tareAt ?? row.deliveredAt;
  const tareOn = calendar.dateAt(tareAt);
  const entry = entries.at(-1);
  if (!entry) throw new Error('A recorded ticket has no entry');
  const writtenAt = entry.postedAt;
  const named = (id: string | null) => describedAt(scales.get(id ?? ''), writtenAt)?.name;
  return {
    ticket: row.ticket,
    agreement: terms.row.number,
    seller: agreement.seller,
    buyer: agreement.buyer,
    feed: FEEDS[agreement.feed],
    date: row.deliveredOn,
    timeZone: agreement.timeZone,
    gross: {
      weight: weightText(row.gross, row.unit),
      at: calendar.wallClockAt(row.deliveredAt),
      scale: named(row.grossScale),
    },
    tare: {
      weight: weightText(row.tare, row.unit),
      at: calendar.wallClockAt(tareAt),
      scale: named(row.tareScale),
    },
    net: weightText(printDecimal(subtract(decimal(row.gross), decimal(row.tare))), row.unit),
    apart: [
      ...apartScales(named(row.grossScale), named(row.tareScale)),
      ...(tareOn === row.deliveredOn
        ? []
        : [`Gross and tare were weighed on different days: ${row.deliveredOn} and ${tareOn}.`]),
    ],
    truck: row.truck ?? undefined,
    plate: row.plate ?? undefined,
    weigher: row.weigher ?? undefined,
    haul: row.distance === null ? undefined : distanceText(row),
    sample: row.sample ?? undefined,
    moisture: row.moistureReading === null ? undefined : `${show(row.moistureReading)} %`,
    scales: scalesOf(recorded, { tareOn, writtenAt }),
    version: String(row.version),
    corrections: versions.map((version, index): TicketCorrection => {
      const before = index === 0 ? recorded.first : versions[index - 1];
      const posted = entries.find(({ subjectId }) => subjectId === version.id)?.postedAt;
      return {
        version: String(version.version),
        at: posted === undefined ? '' : calendar.wallClockAt(Date.parse(posted)),
        reason: version.reason,
        isVoid: version.isVoid,
        changes: before ? changesBetween(before, version, { named, calendar }) : [],
      };
    }),
    voidReason: row.isVoid ? asSentence(versions.at(-1)?.reason ?? '') : undefined,
    entry: { sequence: String(entry.sequence), fingerprint: entry.fingerprint },
  };
}

function apartScales(gross: string | undefined, tare: string | undefined): string[] {
  if (gross === tare) return [];
  if (gross === undefined) return [`The tare was weighed on ${tare}; no scale is named for the gross.`];
  if (tare === undefined) return [`The gross was weighed on ${gross}; no scale is named for the tare.`];
  return [`Gross and tare were weighed on different scales: ${gross} and ${tare}.`];
}

/** Each scale of the ticket once, described as when the ticket was written; its test on each day that it weighed. */
function scalesOf(
  { row, scales }: RecordedTicket,
  { tareOn, writtenAt }: { readonly tareOn: LocalDate; readonly writtenAt: string },
): TicketScale[] {
  const weighed = [
    { id: row.grossScale, on: row.deliveredOn as LocalDate },
    { id: row.tareScale, on: tareOn },
  ];
  const ids = new Set(weighed.flatMap(({ id }) => id ?? []));
  return [...ids].flatMap((id) => {
    const scale = scales.get(id);
    const described = describedAt(scale, writtenAt);
    if (!scale || !described) return [];
    const days = [...new Set(weighed.flatMap((of) => (of.id === id ? [of.on] : [])))];
    const tests = days.map((on) => ({ on, standing: standingByVersions(scale.versions, on) }));
    const { standing } = tests.at(-1) ?? {};
    const testedOn = standing && 'testedOn' in standing ? standing.testedOn : undefined;
    return [
      {
        name: described.name,
        owner: described.partyName,
        place: described.place,
        range: `${weightText(described.capacity, described.unit)} by ${weightText(described.division, described.unit)}`,
        accuracyClass: described.accuracyClass,
        isLegalForTrade: described.isLegalForTrade,
        certificate:
          testedOn === undefined
            ? undefined
            : (scale.rows.findLast((version) => version.testedOn === testedOn)?.certificate ?? undefined),
        test: tests.map((test) => `${test.on}: ${standingInWords(test.standing)}`),
        isDoubtful: tests.some((test) => ['overdue', 'never-tested'].includes(test.standing.is)),
      },
    ];
  });
}

/** How a scale was described when a ticket was written. */
function describedAt(scale: FoundScale | undefined, writtenAt: string): ScaleVersionRow | undefined {
  return scale?.rows.findLast(({ recordedAt }) => recordedAt <= writtenAt) ?? scale?.rows[0];
}

interface Setting {
  readonly named: (id: string | null) => string | undefined;
  readonly calendar: ReturnType<typeof zoneCalendar>;
}

/** What a version changed: "Gross 78,220 lb, was 78,320 lb". */
function changesBetween(before: TicketRow, after: TicketRow, { named, calendar }: Setting): string[] {
  const entries: readonly (readonly [label: string, of: (row: TicketRow) => string | undefined])[] = [
    ['Ticket', ({ ticket }) => ticket],
    ['Gross', ({ gross, unit }) => weightText(gross, unit)],
    ['Tare', ({ tare, unit }) => weightText(tare, unit)],
    ['Gross weighed', ({ deliveredAt }) => calendar.wallClockAt(deliveredAt)],
    ['Tare weighed', ({ tareAt, deliveredAt }) => calendar.wallClockAt(tareAt ?? deliveredAt)],
    ['Scale of the gross', ({ grossScale }) => named(grossScale)],
    ['Scale of the tare', ({ tareScale }) => named(tareScale)],
    ['Vehicle', ({ truck }) => truck ?? undefined],
    ['Plate', ({ plate }) => plate ?? undefined],
    ['Weigher', ({ weigher }) => weigher ?? undefined],
    ['Hauled', (row) => (row.distance === null ? undefined : distanceText(row))],
    ['Sample', ({ sample }) => sample ?? undefined],
    [
      'Moisture by hand meter',
      (row) => (row.moistureReading === null ? undefined : `${row.moistureReading} %`),
    ],
  ];
  return entries.flatMap(([label, of]) => {
    const [was, is] = [of(before) ?? 'not entered', of(after) ?? 'not entered'];
    return was === is ? [] : [`${label}: ${is}, was ${was}`];
  });
}

function weightText(weight: string, unit: string): string {
  return `${show(weight)} ${UNIT_NAMES[unit] ?? unit}`;
}

const UNIT_NAMES: Readonly<Record<string, string>> = { 'short-ton': 'short tons', tonne: 'tonnes' };

function distanceText({ distance, distanceUnit }: TicketRow): string {
  return `${show(distance ?? '')} ${distanceUnit === 'km' ? 'km' : 'miles'}`;
}

function asSentence(reason: string): string {
  return /[.!?]$/.test(reason) ? reason : `${reason}.`;
}
