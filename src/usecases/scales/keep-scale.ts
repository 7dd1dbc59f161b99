/**
 * A party's scales: described once, and anew after each test or repair. Earlier versions stay, since tickets were weighed
 * under them.
 */
import { plainDecimal } from '../../domain/numbers/printing.ts';
import { readScaleRow, SCALE_COLUMNS } from '../../domain/scales/scale-row.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertScale, insertScaleVersion, type ScaleVersionRow } from '../../store/rows/scale-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { findScales, type ScaleView, scaleView } from './scale-view.ts';
import { todayOf } from './today.ts';

type Described = Omit<ScaleVersionRow, 'scaleId' | 'partyId' | 'partyName' | 'version' | 'recordedAt'>;

export interface ScaleToRecord {
  /** With the columns of `SCALE_COLUMNS`. */
  readonly scale: InputRow;
  readonly key?: string;
}

/** Refuses `not-allowed` and `bad-input`, also for the name of another scale of the party. */
export async function recordScale(
  context: Context,
  { scale, key }: ScaleToRecord,
): Promise<{ readonly scaleId: string }> {
  permit(context, 'keep-scale');
  const { partyId, personId } = context.caller;
  return await doOnce(context, { verb: 'record-scale', subject: partyId, key, input: scale }, async (tx) => {
    const described = readScale(scale);
    const scaleId = context.newId();
    await lockAgreement(tx, partyId);
    await refuseSameName(tx, { partyId, scaleId, name: described.name });
    const recorded = { recordedAt: stamp(context), recordedBy: personId };
    await insertScale(tx, { scaleId, partyId }, recorded);
    await insertScaleVersion(tx, { ...described, scaleId, version: 1 }, recorded);
    return { scaleId };
  });
}

export interface ScaleToChange extends ScaleToRecord {
  readonly scaleId: string;
  /** The version that was looked at. */
  readonly baseVersion: number;
}

/**
 * Returns the version that stands now; the same description again is no new one. Refuses `not-allowed`, `bad-input`,
 * `not-found`, `changed-meanwhile`, and `not-yours` for a partner's scale.
 */
export async function changeScale(
  context: Context,
  { scaleId, baseVersion, scale, key }: ScaleToChange,
): Promise<{ readonly version: number }> {
  permit(context, 'keep-scale');
  const { partyId, personId } = context.caller;
  const input = { scale, baseVersion };
  return await doOnce(context, { verb: 'change-scale', subject: scaleId, key, input }, async (tx) => {
    const described = readScale(scale);
    await lockAgreement(tx, partyId);
    const before = isId(scaleId) ? (await findScales(tx, [scaleId])).get(scaleId)?.row : undefined;
    if (!before) throw new Refusal('not-found', 'There is no such scale.');
    if (before.partyId !== partyId) {
      throw new Refusal('not-yours', `${before.name} is ${before.partyName}’s scale; they describe it.`);
    }
    if (before.version !== baseVersion) {
      throw new Refusal(
        'changed-meanwhile',
        `${before.name} was described anew meanwhile. Look at it again.`,
      );
    }
    const { version } = before;
    if (sameText(described) === sameText(before)) return { version };
    await refuseSameName(tx, { partyId, scaleId, name: described.name });
    const recorded = { recordedAt: stamp(context), recordedBy: personId };
    await insertScaleVersion(tx, { ...described, scaleId, version: version + 1 }, recorded);
    return { version: version + 1 };
  });
}

/** The party's own scales, and those of the parties that it has agreements with. Refuses `not-allowed`. */
export async function readScales(context: Context): Promise<readonly ScaleView[]> {
  permit(context, 'read');
  const { partyId } = context.caller;
  const on = todayOf(context);
  return await context.store.forParty(partyId, async (tx) =>
    [...(await findScales(tx)).values()].map((scale) => scaleView(scale, { partyId, on })),
  );
}

function readScale(scale: InputRow): Described {
  const [read] = readInputRows([scale], { shape: SCALE_COLUMNS, read: readScaleRow, key: ['name'] });
  if (!read) throw new Error('A scale that was read is not there');
  const { found, text } = read;
  return {
    name: found.name,
    place: found.place,
    unit: found.unit,
    capacity: plainDecimal(text('capacity')),
    division: plainDecimal(text('division')),
    accuracyClass: found.accuracyClass,
    isLegalForTrade: found.isLegalForTrade,
    testedOn: found.testedOn ?? null,
    testDueOn: found.testDueOn ?? null,
    certificate: found.certificate ?? null,
  };
}

/** Whoever weighs chooses a scale by its name. */
async function refuseSameName(
  tx: Transaction,
  { partyId, scaleId, name }: { readonly partyId: string; readonly scaleId: string; readonly name: string },
): Promise<void> {
  for (const { row } of (await findScales(tx)).values()) {
    if (row.partyId !== partyId || row.scaleId === scaleId) continue;
    if (row.name.toLowerCase() !== name.toLowerCase()) continue;
    throw badInput([
      {
        row: 0,
        column: 'name',
        message: `must be unlike the names of your other scales; one is ${row.name}`,
      },
    ]);
  }
}

function sameText(described: Described): string {
  const { name, place, unit, capacity, division, accuracyClass, isLegalForTrade, testedOn } = described;
  const { testDueOn, certificate } = described;
  return JSON.stringify([
    ...[name, place, unit, capacity, division, accuracyClass, isLegalForTrade, testedOn],
    ...[testDueOn, certificate],
  ]);
}
