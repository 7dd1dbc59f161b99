/**
 * Which laboratories an agreement lets in; and for a laboratory, the samples that wait for it.
 */
import {
  type LaboratoryAccessRow,
  readLaboratoryAccess,
  readLaboratoryAgreements,
  readSamplesAtLaboratory,
  type SampleAtLaboratory,
} from '../../store/rows/laboratory-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { groupRows } from '../group-rows.ts';

export interface LaboratoryView extends Omit<LaboratoryAccessRow, 'agreementId' | 'label'> {
  readonly name: string;
  /** Whether somebody has come by its link. */
  readonly hasPeople: boolean;
}

/** First let first. Refuses `not-allowed`, `not-found`. */
export async function readLaboratories(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<readonly LaboratoryView[]> {
  permit(context, 'read');
  const rows = await context.store.forParty(context.caller.partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    return await readLaboratoryAccess(tx, agreementId);
  });
  const ids = rows.map(({ partyId }) => partyId);
  // A laboratory is no partner, so its name is read at the door: of those alone that were let in.
  const parties = await context.store.atDoor((tx) =>
    tx.party.findMany({
      where: { id: { in: ids } },
      select: { id: true, name: true, members: { where: { endedAt: null }, select: { id: true } } },
    }),
  );
  const byId = new Map(parties.map((party) => [party.id, party]));
  return rows.map(({ id, partyId, since, isEnded }) => {
    const party = byId.get(partyId);
    return {
      id,
      partyId,
      since,
      isEnded,
      name: party?.name ?? '',
      hasPeople: (party?.members.length ?? 0) > 0,
    };
  });
}

export interface LaboratoryWork {
  readonly agreementId: string;
  /** The agreement's number and its parties. */
  readonly label: string;
  /** Those without a result first. */
  readonly samples: readonly Omit<SampleAtLaboratory, 'agreementId'>[];
}

/** What the caller's laboratory may enter, agreement by agreement; empty for who is none. Refuses `not-allowed`. */
export async function readLaboratoryWork(context: Context): Promise<readonly LaboratoryWork[]> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const open = await readLaboratoryAgreements(tx, partyId);
    const agreementIds = open.map(({ agreementId }) => agreementId);
    const samples = groupRows(
      await readSamplesAtLaboratory(tx, { agreementIds, partyId }),
      ({ agreementId }) => agreementId,
    );
    return open.map(({ agreementId, label }) => ({
      agreementId,
      label,
      samples: (samples.get(agreementId) ?? []).map(({ agreementId: _, ...sample }) => sample),
    }));
  });
}
