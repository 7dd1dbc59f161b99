/**
 * A scale's recorded versions, as the domain reads them and as pages show them.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import type { ScaleUnit } from '../../domain/quantities/units.ts';
import { maintenanceTolerance } from '../../domain/scales/divisions.ts';
import { standingByVersions, standingInWords, type TestStanding } from '../../domain/scales/test-standing.ts';
import type { KnownScale } from '../../domain/scales/weighing-doubts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readScaleVersions, type ScaleVersionRow } from '../../store/rows/scale-rows.ts';
import { groupRows } from '../group-rows.ts';

/** A scale with all its versions. */
export interface FoundScale extends KnownScale {
  /** The version that stands now, and all of them, oldest first. */
  readonly row: ScaleVersionRow;
  readonly rows: readonly ScaleVersionRow[];
}

/** The scales that the transaction may see, or those of some ids, by id. */
export async function findScales(
  tx: Transaction,
  ids?: readonly string[],
): Promise<ReadonlyMap<string, FoundScale>> {
  const versions = groupRows(await readScaleVersions(tx, ids), ({ scaleId }) => scaleId);
  return new Map([...versions].map(([id, rows]) => [id, scaleOf(rows)]));
}

function scaleOf(rows: readonly ScaleVersionRow[]): FoundScale {
  const row = rows.at(-1);
  if (!row) throw new Error('A scale has no version');
  return {
    row,
    rows,
    id: row.scaleId,
    name: row.name,
    unit: row.unit as ScaleUnit,
    capacity: decimal(row.capacity),
    division: decimal(row.division),
    versions: rows.map(({ testedOn, testDueOn }) => ({
      testedOn: (testedOn ?? undefined) as LocalDate | undefined,
      testDueOn: (testDueOn ?? undefined) as LocalDate | undefined,
    })),
  };
}

export interface ScaleView extends Omit<ScaleVersionRow, 'scaleId' | 'partyId' | 'partyName' | 'recordedAt'> {
  readonly id: string;
  readonly owner: string;
  /** Of the caller's party, which alone changes it. */
  readonly isOwn: boolean;
  readonly test: TestStanding;
  /** The same in a sentence. */
  readonly testInWords: string;
  /** How far it may be off at its capacity and still pass its test, in its unit; null where no figure is known. */
  readonly mayBeOff: string | null;
}

export function scaleView(
  scale: FoundScale,
  { partyId, on }: { readonly partyId: string; readonly on: LocalDate },
): ScaleView {
  const { scaleId, partyId: ownerId, partyName, recordedAt: _, ...row } = scale.row;
  const test = standingByVersions(scale.versions, on);
  return {
    ...row,
    id: scaleId,
    owner: partyName,
    isOwn: ownerId === partyId,
    test,
    testInWords: standingInWords(test),
    mayBeOff:
      row.accuracyClass === 'III L'
        ? printDecimal(maintenanceTolerance(scale.capacity, scale.division))
        : null,
  };
}
