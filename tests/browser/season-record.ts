/**
 * A record for the browser tests, made through the use cases before the program starts: a grower and a dairy with a demo
 * season, a rival dairy that bids for the same lot, and a neighbour who has no part in any of it. Each of them has a
 * person for every role. A laboratory may enter results of the season.
 */

import { join } from 'node:path';
import { ROLES, type Role } from '../../src/domain/parties/permissions.ts';
import type { Caller, Tools } from '../../src/usecases/context.ts';
import { letLaboratory } from '../../src/usecases/laboratories/let-laboratory.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { markSeen, readNotices } from '../../src/usecases/notices/read-notices.ts';
import { openRecord } from '../../src/usecases/open-record.ts';
import { createFirstPerson } from '../../src/usecases/people/create-first-person.ts';
import { inviteMember, invitePartner } from '../../src/usecases/people/invite.ts';
import { joinParty } from '../../src/usecases/people/join-party.ts';
import { importTogether } from '../store/test-record.ts';
import { fillMarket, type MarketIds } from './market-record.ts';

export const PASSWORD = 'wet corn in the wind';
export const PARTIES = {
  grower: 'Quillback Acres',
  dairy: 'Tarn Hollow Dairy',
  rival: 'Sorrel Bend Dairy',
  neighbour: 'Fernway Orchards',
  laboratory: 'Ridge Crossing Laboratory',
} as const;
export type Side = keyof typeof PARTIES;
/** An owner of each party. */
export type Owners = Readonly<Record<Side, Caller>>;

/** "bookkeeper.dairy@example.org" */
export function emailOf(side: Side, role: Role): string {
  return `${role}.${side}@example.org`;
}

export interface SeasonRecord extends MarketIds {
  readonly agreementId: string;
  /** The invoice of all that has settled. */
  readonly documentId: string;
}

/** Fills a new data folder with people and a season, and lets go of it. */
export async function fillRecord(dataFolder: string, season: string): Promise<SeasonRecord> {
  return await inRecord(dataFolder, async (record) => {
    const owners = await bringPeople(record);
    const { grower, dairy } = owners;
    const folder = join('demo', season);
    const { agreementId } = await importTogether(record, {
      folder,
      seller: grower,
      buyer: dairy,
    });
    if (agreementId === undefined) throw new Error(`demo/${season} could not be imported`);
    const { partyId } = owners.laboratory;
    await letLaboratory({ ...record, caller: grower }, { agreementId, partyId });
    const documentId = await invoiceSeason(record, { agreementId, grower, dairy });
    return { agreementId, documentId, ...(await fillMarket(record, owners)) };
  });
}

/** One invoice of all that has settled, which the buyer has seen, so that it is no news to other tests. */
async function invoiceSeason(
  record: Tools,
  { agreementId, grower, dairy }: { agreementId: string; grower: Caller; dairy: Caller },
): Promise<string> {
  const { documents } = await issueInvoices({ ...record, caller: grower }, { agreementId });
  const buyer = { ...record, caller: dairy };
  const { unseen } = await readNotices(buyer);
  const told = unseen.filter(({ path }) => path.startsWith('/money'));
  await markSeen(buyer, { noticeIds: told.map(({ id }) => id) });
  return documents[0]?.id ?? '';
}

/** Fills a new data folder with people alone, and with what `more` makes of them. */
export async function fillPeople(
  dataFolder: string,
  more: (record: Tools, owners: Owners) => Promise<void> = async () => {},
): Promise<void> {
  await inRecord(dataFolder, async (record) => await more(record, await bringPeople(record)));
}

/** Opens the record of a data folder, does `work`, and lets go of it. */
export async function inRecord<Answer>(
  dataFolder: string,
  work: (record: Tools) => Promise<Answer>,
): Promise<Answer> {
  const record = await openRecord({ dataFolder, databaseUrl: undefined }, process.cwd());
  try {
    return await work(record);
  } finally {
    await record.close();
  }
}

async function bringPeople(record: Tools): Promise<Owners> {
  const grower = await firstOwner(record);
  const dairy = await partnerOwner(record, grower, 'dairy');
  const rival = await partnerOwner(record, grower, 'rival');
  const neighbour = await partnerOwner(record, grower, 'neighbour');
  const laboratory = await partnerOwner(record, grower, 'laboratory');
  const owners = { grower, dairy, rival, neighbour, laboratory };
  for (const [side, owner] of Object.entries(owners)) await inviteOthers(record, owner, side as Side);
  return owners;
}

/** The first person of the record, who owns the grower. */
export async function firstOwner(tools: Tools): Promise<Caller> {
  const made = await createFirstPerson(tools, {
    name: 'Ana of the grower',
    email: emailOf('grower', 'owner'),
    password: PASSWORD,
    party: PARTIES.grower,
  });
  return { ...made, role: 'owner' };
}

/** An owner of another party, invited by one who is here. */
export async function partnerOwner(tools: Tools, caller: Caller, side: Side): Promise<Caller> {
  const { secret } = await invitePartner({ ...tools, caller }, { party: PARTIES[side] });
  return { ...(await comeIn(tools, secret, { side, role: 'owner' })), role: 'owner' };
}

/** A person for every other role of a party. */
export async function inviteOthers(tools: Tools, caller: Caller, side: Side): Promise<void> {
  for (const role of ROLES.filter((name) => name !== 'owner')) {
    const { secret } = await inviteMember({ ...tools, caller }, { role });
    await comeIn(tools, secret, { side, role });
  }
}

async function comeIn(tools: Tools, secret: string, who: { readonly side: Side; readonly role: Role }) {
  const { side, role } = who;
  return await joinParty(tools, {
    secret,
    name: `${role} of the ${side}`,
    email: emailOf(side, role),
    password: PASSWORD,
    address: 'in the test',
  });
}
