/**
 * Imports a season's folder as somebody of one of its parties, found by their names in the agreement. Whoever holds the
 * record's data may do so; the other side's decisions in the folder are recorded for that side.
 */
import { openSeason } from '../../files/read-season.ts';
import type { Tools } from '../context.ts';
import { type Invitation, invitePartner } from '../people/invite.ts';
import { roleOf } from '../people/role-names.ts';
import { Refusal } from '../refusal.ts';
import { type ImportedSeason, importSeason, type SeasonToImport } from './import-season.ts';

export interface ImportAs extends Pick<SeasonToImport, 'folder' | 'onRecorded' | 'settle'> {
  /** The e-mail address of an owner of the seller's or the buyer's party. */
  readonly email: string;
}

export interface ImportedAs extends ImportedSeason {
  /** The link's secret for the other side, where their party was opened now. */
  readonly invitation: Invitation | undefined;
  readonly partner: string | undefined;
}

/** Refuses `not-found` where nobody has the address, and `not-yours` where the agreement is not of a party of theirs. */
export async function importAs(tools: Tools, { email, ...season }: ImportAs): Promise<ImportedAs> {
  const opened = await openSeason(season.folder);
  if (!opened.season) {
    const { problems, warnings } = opened;
    return {
      agreementId: undefined,
      settled: undefined,
      problems,
      warnings,
      invitation: undefined,
      partner: undefined,
    };
  }
  const { seller, buyer } = opened.season.agreement;
  const person = await tools.store.atDoor((tx) =>
    tx.person.findUnique({
      where: { email: email.trim().toLowerCase() },
      include: { members: { where: { endedAt: null, role: 'owner' }, include: { party: true } } },
    }),
  );
  if (!person) throw new Refusal('not-found', `Nobody here has the e-mail address ${email}.`);
  const member = person.members.find(({ party }) => party.name === seller || party.name === buyer);
  if (!member) {
    const own = person.members.map(({ party }) => party.name).join(', ') || 'no party';
    throw new Refusal(
      'not-yours',
      `The agreement is between ${seller} and ${buyer}; ${email} is an owner of ${own}. The names must be the same, letter by letter.`,
    );
  }
  const caller = { personId: person.id, partyId: member.partyId, role: roleOf(member.role) };
  const partner = member.party.name === seller ? buyer : seller;
  const known = await findPartner(tools, { name: partner, besides: member.partyId });
  const invitation = known ? undefined : await invitePartner({ ...tools, caller }, { party: partner });
  const partnerId = known ?? invitation?.partyId ?? '';
  const other = { ...caller, partyId: partnerId };
  const [asSeller, asBuyer] = partner === buyer ? [caller, other] : [other, caller];
  const imported = await importSeason(tools, { ...season, seller: asSeller, buyer: asBuyer });
  return { ...imported, invitation, partner };
}

/** The party of that name, if there is one; the oldest of several, since they cannot be told apart here. */
async function findPartner(
  { store }: Tools,
  { name, besides }: { readonly name: string; readonly besides: string },
): Promise<string | undefined> {
  const party = await store.atDoor((tx) =>
    tx.party.findFirst({ where: { name, id: { not: besides } }, orderBy: { id: 'asc' } }),
  );
  return party?.id;
}
