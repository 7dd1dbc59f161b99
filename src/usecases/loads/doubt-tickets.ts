/**
 * What is asked about before a ticket is recorded: times that are still to come, weights that no truck has, that its scale cannot have shown, or that
 * are unlike the truck's last loads. The agreement must be locked.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { tellUnusualLoad } from '../../domain/deliveries/unusual-load.ts';
import {
  LAST_LOADS,
  type TruckWeights,
  tellUnlikeTruck,
  usualTruck,
} from '../../domain/deliveries/usual-truck.ts';
import { decimal, subtract } from '../../domain/numbers/exact.ts';
import { type ScaleUnit, toPounds } from '../../domain/quantities/units.ts';
import { doubtWeight } from '../../domain/scales/weighing-doubts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readFingerprints } from '../../store/rows/file-rows.ts';
import { readTruckWeighings, type TruckWeighingRow } from '../../store/rows/ticket-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { groupRows } from '../group-rows.ts';
import { badInput } from '../read-input-rows.ts';
import type { Problem } from '../refusal.ts';
import { type FoundScale, findScales } from '../scales/scale-view.ts';
import type { ReadTicket } from './read-tickets.ts';

/** Clocks differ a little. */
const MOST_AHEAD_MS = 5 * 60_000;

/** A ticket, and the load that it corrects. */
export interface TicketToDoubt extends ReadTicket {
  readonly correctedId?: string;
}

/** The doubts, each a sentence. Refuses `bad-input` for a scale that is of neither party, or a photo that is not there. */
export async function doubtTickets(
  tx: Transaction,
  found: FoundAgreement,
  { tickets, now }: { readonly tickets: readonly TicketToDoubt[]; readonly now: number },
): Promise<readonly string[]> {
  const ids = tickets
    .flatMap(({ ticket }) => [ticket.grossScale, ticket.tareScale])
    .filter((id) => id !== null);
  const scales = await scalesOfBoth(tx, found, ids);
  const named = [...new Set(tickets.flatMap(({ ticket }) => ticket.photo ?? []))];
  const photos = named.length === 0 ? new Set() : await readFingerprints(tx, found.row.id, named);
  const problems = tickets.flatMap(({ ticket }, row): Problem[] => [
    ...unknownScale(row, { column: 'gross_scale', id: ticket.grossScale, scales }),
    ...unknownScale(row, { column: 'tare_scale', id: ticket.tareScale, scales }),
    ...(ticket.photo === null || photos.has(ticket.photo)
      ? []
      : [{ row, column: 'photo', message: 'must be a file that is kept here: send the photo first' }]),
  ]);
  if (problems.length > 0) throw badInput(problems);
  const unlike = await unlikeTrucks(tx, found, tickets);
  return tickets.flatMap((read) => [
    ...doubtTime(read, now),
    ...[tellUnusualLoad(read.load)].filter((told) => told !== undefined),
    ...doubtScales(found, read, scales),
    ...(unlike.get(read) ?? []),
  ]);
}

function doubtTime({ load, ticket }: ReadTicket, now: number): string[] {
  if (ticket.deliveredAt <= now + MOST_AHEAD_MS) return [];
  return [`${load.ticket}: its time, on ${load.deliveredOn}, is still to come.`];
}

/** Scales that both parties of the agreement can see: their own. */
export async function scalesOfBoth(
  tx: Transaction,
  { row }: FoundAgreement,
  ids: readonly string[],
): Promise<ReadonlyMap<string, FoundScale>> {
  if (ids.length === 0) return new Map();
  const scales = await findScales(tx, [...new Set(ids)]);
  return new Map([...scales].filter(([, scale]) => [row.sellerId, row.buyerId].includes(scale.row.partyId)));
}

export function unknownScale(
  row: number,
  named: {
    readonly column: string;
    readonly id: string | null;
    readonly scales: ReadonlyMap<string, FoundScale>;
  },
): Problem[] {
  if (named.id === null || named.scales.has(named.id)) return [];
  return [{ row, column: named.column, message: 'must be a scale of one of the two parties' }];
}

function doubtScales(
  { agreement }: FoundAgreement,
  { load, ticket }: ReadTicket,
  scales: ReadonlyMap<string, FoundScale>,
): string[] {
  const { gross, tare, unit, deliveredOn } = load;
  const tareOn =
    ticket.tareAt === null ? deliveredOn : zoneCalendar(agreement.timeZone).dateAt(ticket.tareAt);
  const doubts = (what: 'gross' | 'tare', on: LocalDate) => {
    const scale = scales.get((what === 'gross' ? ticket.grossScale : ticket.tareScale) ?? '');
    const weight = what === 'gross' ? gross : tare;
    return scale ? doubtWeight({ ticket: load.ticket, what, weight, unit, on }, scale) : [];
  };
  return [...doubts('gross', deliveredOn), ...doubts('tare', tareOn)];
}

/** Where a load stands among those of its truck. */
interface Placed extends TruckWeights {
  readonly at: number;
  readonly of: ReadTicket | undefined;
}

/** What is told of each ticket, each held against the truck's loads before it: recorded ones, and those beside it. */
async function unlikeTrucks(
  tx: Transaction,
  found: FoundAgreement,
  tickets: readonly TicketToDoubt[],
): Promise<ReadonlyMap<ReadTicket, readonly string[]>> {
  const told = new Map<ReadTicket, readonly string[]>();
  const byTruck = groupRows(
    tickets.filter(({ ticket }) => ticket.truck !== null),
    ({ ticket }) => ticket.truck ?? '',
  );
  if (byTruck.size === 0) return told;
  const corrected = new Set(tickets.map(({ correctedId }) => correctedId));
  const rows = await readTruckWeighings(tx, found.row.id, {
    last: LAST_LOADS + 1,
    trucks: [...byTruck.keys()],
  });
  const before = groupRows(
    rows.filter(({ loadId }) => !corrected.has(loadId)),
    ({ truck }) => truck,
  );
  for (const [truck, fresh] of byTruck) {
    const placed = [
      ...(before.get(truck) ?? []).map(
        (row): Placed => ({ ...weightsOf(row), at: row.deliveredAt, of: undefined }),
      ),
      ...fresh.map((of): Placed => ({ ...weightsOf(of.ticket), at: of.ticket.deliveredAt, of })),
    ].sort((a, b) => a.at - b.at);
    for (const [index, { of, tare, net }] of placed.entries()) {
      // A ticket that comes late, or first of a file, has the truck's other loads to be held against.
      if (!of) continue;
      const usual =
        usualTruck(placed.slice(Math.max(0, index - LAST_LOADS), index)) ??
        usualTruck(placed.filter((other) => other.of !== of));
      if (!usual) continue;
      const { ticket, unit } = of.load;
      told.set(of, tellUnlikeTruck({ ticket, truck, unit, tare, net }, usual));
    }
  }
  return told;
}

/** A row's weights in pounds. */
export function weightsOf({
  gross,
  tare,
  unit,
}: Pick<TruckWeighingRow, 'gross' | 'tare' | 'unit'>): TruckWeights {
  const pounds = (weight: string) => toPounds(decimal(weight), unit as ScaleUnit);
  return { tare: pounds(tare), net: subtract(pounds(gross), pounds(tare)) };
}
