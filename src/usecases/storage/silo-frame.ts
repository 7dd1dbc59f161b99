/**
 * A buyer's silos under one agreement: who may keep them, what stands of them now, and the rules that a new entry is held to.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { bothClaim, filledLoads, missingTickets } from '../../domain/storage/filled-loads.ts';
import {
  SILO_ENTRY_READERS,
  SILO_ENTRY_SHAPES,
  type SiloEntryKind,
  type SiloEntryOf,
  unusualInEntry,
} from '../../domain/storage/silo-row.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readDeliveredLoads } from '../../store/rows/progress-rows.ts';
import { readSiloEntries, type SiloEntryRow } from '../../store/rows/silo-rows.ts';
import { type FoundAgreement, findAgreement, sideOf } from '../agreements/find-agreement.ts';
import type { Caller, Context } from '../context.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';

/** An entry of some kind as it was read. */
export type ReadSiloEntry = {
  readonly [Kind in SiloEntryKind]: { readonly kind: Kind; readonly found: SiloEntryOf[Kind] };
}[SiloEntryKind];

/** An entry as it stands now. */
export type SiloEntry = ReadSiloEntry & {
  readonly row: SiloEntryRow;
  /** The texts of its columns. */
  readonly content: InputRow;
};

/** An agreement that the caller's party buys under. Refuses `not-found`, and `not-yours` for the other side and advisers. */
export async function findBoughtAgreement(
  tx: Transaction,
  caller: Caller,
  agreementId: string,
): Promise<FoundAgreement> {
  const found = await findAgreement(tx, agreementId);
  if (sideOf(found.row, caller) === 'buyer') return found;
  throw new Refusal('not-yours', 'What was stored is the buyer’s own account; only the buyer sees it.');
}

/** Has those who write down what was stored under an agreement wait for each other. */
export async function lockSilos(tx: Transaction, agreementId: string): Promise<void> {
  await lockAgreement(tx, `silos ${agreementId}`);
}

/** The newest version of each entry, those that were withdrawn left out, and those of a silo that was. */
export async function standingEntries(tx: Transaction, agreementId: string): Promise<readonly SiloEntry[]> {
  const newest = new Map<string, SiloEntryRow>();
  for (const row of await readSiloEntries(tx, agreementId)) newest.set(row.id, row);
  const isKept = (id: string) => typeof newest.get(id)?.content === 'string';
  return [...newest.values()].flatMap((row): SiloEntry[] => {
    if (row.content === null || !isKept(row.siloId)) return [];
    const content = JSON.parse(row.content) as InputRow;
    return [{ ...readEntry(row.kind as SiloEntryKind, content), row, content }];
  });
}

/** Refuses `bad-input` with every fault of the row. */
export function readEntry<Kind extends SiloEntryKind>(kind: Kind, row: InputRow): ReadSiloEntry {
  const [read] = readInputRows([row], {
    shape: SILO_ENTRY_SHAPES[kind],
    read: SILO_ENTRY_READERS[kind],
    key: [],
  });
  if (!read) throw new Error('An entry that was read is not there');
  return { kind, found: read.found } as ReadSiloEntry;
}

/** The texts of a row that hold something, trimmed, as they are kept. */
export function keptTexts(row: InputRow): InputRow {
  return Object.fromEntries(
    Object.entries(row)
      .map(([column, text]) => [column, text.trim()] as const)
      .filter(([, text]) => text !== ''),
  );
}

export interface EntryToHold {
  readonly entry: ReadSiloEntry;
  readonly siloId: string;
  /** Of the entry that it puts right, which is not held against itself. */
  readonly entryId: string | undefined;
  readonly confirmed: boolean | undefined;
}

/** Refuses `bad-input` what cannot be, beside what stands already, and `unusual` what hardly is. */
export async function holdToRules(
  tx: Transaction,
  { now, found }: Pick<Context, 'now'> & { readonly found: FoundAgreement },
  { entry, siloId, entryId, confirmed }: EntryToHold,
): Promise<void> {
  const standing = await standingEntries(tx, found.row.id);
  const others = standing.filter(({ row }) => row.id !== entryId);
  const today = zoneCalendar(found.agreement.timeZone).dateAt(now());
  const faults = (problems: readonly Problem[]) => {
    if (problems.length > 0) throw badInput(problems);
  };
  switch (entry.kind) {
    case 'silo': {
      const { name } = entry.found;
      const isTaken = others.some(
        (one) => one.kind === 'silo' && one.found.name.toLowerCase() === name.toLowerCase(),
      );
      const message = 'must be unlike the names of your other silos under this agreement';
      faults(isTaken ? [{ column: 'name', message }] : []);
      return;
    }
    case 'filling':
      faults(await fillingFaults(tx, entry.found, { others, agreementId: found.row.id }));
      return;
    case 'fed': {
      faults(inTheFuture('to', entry.found.to, today));
      const of = others.filter(({ row }) => row.siloId === siloId);
      const twice = of.find(
        (one) => one.kind === 'fed' && one.found.from <= entry.found.to && entry.found.from <= one.found.to,
      );
      const first = of.flatMap((one) => (one.kind === 'filling' ? [one.found.from] : [])).sort()[0];
      refuseUnusual(
        [
          ...unusualInEntry(entry.found),
          twice?.kind === 'fed'
            ? `Feed of ${twice.found.from} to ${twice.found.to} is written down already; this would be fed beside it.`
            : undefined,
          first !== undefined && entry.found.from < first
            ? `Nothing had gone in by ${entry.found.from}: the first loads are of ${first} or later.`
            : undefined,
        ],
        confirmed,
      );
      return;
    }
    case 'left':
      faults(inTheFuture('on', entry.found.on, today));
      refuseUnusual(unusualInEntry(entry.found), confirmed);
      return;
  }
}

function inTheFuture(column: string, day: LocalDate, today: LocalDate): readonly Problem[] {
  return day > today ? [{ column, message: `must not be after today, ${today}; found ${day}` }] : [];
}

async function fillingFaults(
  tx: Transaction,
  filling: SiloEntryOf['filling'],
  { others, agreementId }: { readonly others: readonly SiloEntry[]; readonly agreementId: string },
): Promise<readonly Problem[]> {
  const loads = await readDeliveredLoads(tx, agreementId);
  const [missing] = missingTickets(filling, loads);
  if (missing !== undefined) {
    const message = `must be of loads delivered from ${filling.from} to ${filling.to}; ${missing} is none of them`;
    return [{ column: 'tickets', message }];
  }
  const names = new Map(
    others.flatMap((one) => (one.kind === 'silo' ? [[one.row.siloId, one.found.name]] : [])),
  );
  for (const other of others) {
    if (other.kind !== 'filling') continue;
    const both = bothClaim(filling, other.found, loads);
    if (!both) continue;
    const name = names.get(other.row.siloId) ?? 'this silo';
    const { from, to } = other.found;
    const [ticket] = both.tickets;
    const message =
      ticket === undefined
        ? `must share no day with ${from} to ${to}, whose loads all went into ${name}; name the tickets of both instead`
        : `must take no load that is elsewhere; ${ticket} went into ${name} (${from} to ${to}): name the tickets, or put that right first`;
    return [{ column: filling.tickets.length > 0 ? 'tickets' : 'from', message }];
  }
  if (filledLoads(filling, loads).length === 0) {
    return [
      {
        column: 'from',
        message: `must have loads; none was delivered from ${filling.from} to ${filling.to}`,
      },
    ];
  }
  return [];
}
