/**
 * Imports a season's folder as somebody of one of its parties, found by their names in the agreement. What only the
 * other side decides is passed over, unless somebody of theirs is named too.
 */
import { openSeason } from '../../files/read-season.ts';
import type { Caller, Tools } from '../context.ts';
import { type Invitation, invitePartner } from '../people/invite.ts';
import { roleOf } from '../people/role-names.ts';
import { Refusal } from '../refusal.ts';
import { type ImportedSeason, nothingImported, recordSeason, type SeasonToImport } from './record-season.ts';

export interface ImportAs extends Pick<SeasonToImport, 'folder' | 'onRecorded' | 'settle'> {
  /** The e-mail address of an owner of the seller's or the buyer's party. */
  readonly email: string;
  /** The e-mail address of an owner of the other party, where they import together. */
  readonly otherEmail?: string;
}

export interface ImportedAs extends ImportedSeason {
  /** The link's secret for the other side, where their party was opened now. */
  readonly invitation: Invitation | undefined;
  readonly partner: string | undefined;
}

/** Refuses `not-found` where nobody has an address, and `not-yours` where the agreement is not of a party of theirs. */
export async function importAs(tools: Tools, asked: ImportAs): Promise<ImportedAs> {
  const { email, otherEmail, ...season } = asked;
  const opened = await openSeason(season.folder);
  if (!opened.season) return { ...nothingImported(opened), invitation: undefined, partner: undefined };
  const { seller, buyer } = opened.season.agreement;
  const { caller, party } = await ownerNamed(tools, { email, parties: [seller, buyer] });
  const partner = party === seller ? buyer : seller;
  const other =
    otherEmail === undefined ? undefined : await ownerNamed(tools, { email: otherEmail, parties: [partner] });
  const known =
    other?.caller.partyId ?? (await findPartner(tools, { name: partner, besides: caller.partyId }));
  const invitation = known ? undefined : await invitePartner({ ...tools, caller }, { party: partner });
  const partnerId = known ?? invitation?.partyId ?? '';
  const isSeller = party === seller;
  const [asSeller, asBuyer] = isSeller ? [caller, other?.caller] : [other?.caller, caller];
  const imported = await recordSeason(tools, opened, {
    ...season,
    caller,
    sellerId: isSeller ? caller.partyId : partnerId,
    buyerId: isSeller ? partnerId : caller.partyId,
    decides: { ...(asSeller ? { seller: asSeller } : {}), ...(asBuyer ? { buyer: asBuyer } : {}) },
  });
  return { ...imported, invitation, partner };
}

/** Somebody as an owner of one of some parties, by its name. Refuses `not-found`, `not-yours`. */
export async function ownerNamed(
  { store }: Tools,
  { email, parties }: { readonly email: string; readonly parties: readonly string[] },
): Promise<{ readonly caller: Caller; readonly party: string }> {
  const person = await store.atDoor((tx) =>
    tx.person.findUnique({
      where: { email: email.trim().toLowerCase() },
      include: { members: { where: { endedAt: null, role: 'owner' }, include: { party: true } } },
    }),
  );
  if (!person) throw new Refusal('not-found', `Nobody here has the e-mail address ${email}.`);
  const member = person.members.find(({ party }) => parties.includes(party.name));
  if (!member) {
    const own = person.members.map(({ party }) => party.name).join(', ') || 'no party';
    throw new Refusal(
      'not-yours',
      `The agreement asks for an owner of ${parties.join(' or ')}; ${email} is an owner of ${own}. The names must be the same, letter by letter.`,
    );
  }
  const caller = { personId: person.id, partyId: member.partyId, role: roleOf(member.role) };
  return { caller, party: member.party.name };
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
