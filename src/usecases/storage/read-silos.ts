/**
 * The buyer's own account of what it stored under an agreement: each silo with what went in, was fed and was left, and the
 * dry matter that is gone, beside what others found.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { type Exact, isNegative } from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import { fromPounds } from '../../domain/quantities/units.ts';
import { testRules, usedFigure } from '../../domain/samples/lab-result.ts';
import { filledLoads } from '../../domain/storage/filled-loads.ts';
import { type PublishedShrink, publishedShrink } from '../../domain/storage/published-shrink.ts';
import {
  type Lack,
  printShrink,
  type ShrinkStanding,
  type StoredLoad,
  shrinkStanding,
  siloAccount,
} from '../../domain/storage/silo-account.ts';
import type { SiloKind } from '../../domain/storage/silo-kind.ts';
import type { SiloEntryKind } from '../../domain/storage/silo-row.ts';
import { readDeliveredLoads } from '../../store/rows/progress-rows.ts';
import { type Context, permit } from '../context.ts';
import { type LoadOutcome, outcomesOf } from '../loads/load-views.ts';
import type { InputRow } from '../read-input-rows.ts';
import { findBoughtAgreement, type SiloEntry, standingEntries } from './silo-frame.ts';

export interface SiloEntryView {
  readonly entryId: string;
  readonly version: number;
  readonly kind: SiloEntryKind;
  /** The texts of its columns, as they were written down. */
  readonly content: InputRow;
  /** Why it was put right last; null where it stands as it was first. */
  readonly reason: string | null;
}

/** Dry matter in `unit`, with two decimals. */
export interface SiloView {
  readonly siloId: string;
  readonly version: number;
  readonly name: string;
  readonly kind: SiloKind;
  readonly unit: 'short-ton' | 'tonne';
  readonly loads: number;
  readonly until: LocalDate | undefined;
  readonly delivered: string;
  readonly fed: string;
  readonly left: string | undefined;
  readonly notAccounted: string;
  /** Percent with one decimal; undefined where something lacks. */
  readonly shrink: string | undefined;
  /** More came out than went in: some figure is wrong. */
  readonly isBelowZero: boolean;
  readonly lacks: readonly Lack[];
  readonly later: { readonly loads: number; readonly fed: number };
  readonly published: readonly (PublishedShrink & { readonly standing: ShrinkStanding | undefined })[];
  /** In the order in which they were first written down; its own name is not among them. */
  readonly entries: readonly SiloEntryView[];
}

export interface SilosView {
  /** In the agreement's time zone. */
  readonly today: LocalDate;
  readonly silos: readonly SiloView[];
  /** Of the loads that have come so far, to begin with; undefined where none has. */
  readonly delivered: { readonly from: string; readonly to: string } | undefined;
}

/** Refuses `not-allowed`, `not-found`, and `not-yours` for all but the buyer. */
export async function readSilos(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<SilosView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findBoughtAgreement(tx, context.caller, agreementId);
    const outcomes = await outcomesOf(tx, found, await readDeliveredLoads(tx, agreementId));
    // A refused load went into nobody's silo.
    const loads = outcomes.filter(({ outcome }) => outcome.status !== 'refused').map(storedLoad);
    const isMetric = outcomes.some(({ row }) => row.unit === 'kg' || row.unit === 'tonne');
    const entries = await standingEntries(tx, agreementId);
    const days = loads.map(({ deliveredOn }) => deliveredOn).sort();
    const [from, to] = [days[0], days.at(-1)];
    return {
      today: zoneCalendar(found.agreement.timeZone).dateAt(context.now()),
      silos: entries.flatMap((of) =>
        of.kind === 'silo' ? [siloView(of, { entries, loads, unit: isMetric ? 'tonne' : 'short-ton' })] : [],
      ),
      delivered: from && to ? { from, to } : undefined,
    };
  });
}

function storedLoad({ terms, outcome, settlements }: LoadOutcome): StoredLoad {
  const { load, result } = outcome;
  return {
    ticket: load.ticket,
    deliveredOn: load.deliveredOn,
    netPounds: load.netPounds,
    dryMatter: result && usedFigure(result, 'dry-matter', testRules(terms.agreement)),
    isSettled: settlements.length > 0 && outcome.status === 'settled',
  };
}

interface Beside {
  readonly entries: readonly SiloEntry[];
  readonly loads: readonly StoredLoad[];
  readonly unit: SiloView['unit'];
}

function siloView(of: SiloEntry & { readonly kind: 'silo' }, { entries, loads, unit }: Beside): SiloView {
  const { row, found } = of;
  const own = entries.filter((entry) => entry.row.siloId === row.siloId && entry.kind !== 'silo');
  const fillings = own.flatMap((entry) => (entry.kind === 'filling' ? [entry.found] : []));
  // A load whose day was put right may lie in two fillings; it counts once.
  const put = [...new Set(fillings.flatMap((filling) => filledLoads(filling, loads)))];
  const account = siloAccount({
    loads: put,
    fed: own.flatMap((entry) => (entry.kind === 'fed' ? [entry.found] : [])),
    left: own.flatMap((entry) => (entry.kind === 'left' ? [entry.found] : [])),
  });
  const { shrink } = account;
  const print = (pounds: Exact) => printFixed(fromPounds(pounds, unit), WEIGHT_PLACES);
  return {
    ...{ siloId: row.siloId, version: row.version, name: found.name, kind: found.kind, unit },
    loads: put.length,
    until: account.until,
    delivered: print(account.delivered),
    fed: print(account.fed),
    left: account.left && print(account.left),
    notAccounted: print(account.notAccounted),
    shrink: shrink && printShrink(shrink),
    isBelowZero: isNegative(account.notAccounted),
    lacks: account.lacks,
    later: account.later,
    published: publishedShrink(found.kind).map((range) => ({
      ...range,
      standing: shrink && shrinkStanding(shrink, range),
    })),
    entries: own.map(({ kind, content, row: { id, version, reason } }) => ({
      ...{ entryId: id, version, kind, content, reason },
    })),
  };
}

const WEIGHT_PLACES = 2;
