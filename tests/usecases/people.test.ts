/**
 * Coming in: the first person, invitations, signing in and out, and what is refused.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import { createFirstPerson, isFirstRun } from '../../src/usecases/people/create-first-person.ts';
import { inviteMember, invitePartner } from '../../src/usecases/people/invite.ts';
import { joinParty, readInvitation } from '../../src/usecases/people/join-party.ts';
import { endMembership, readMembers } from '../../src/usecases/people/members.ts';
import { readSession, signOut, signOutElsewhere } from '../../src/usecases/people/read-session.ts';
import { signIn } from '../../src/usecases/people/sign-in.ts';
import type { RefusalCode } from '../../src/usecases/refusal.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const ORIGIN = { address: '192.0.2.1', agent: 'test' };
const ANA = {
  name: 'Ana',
  email: 'Ana@example.org',
  password: 'wet corn in the wind',
  party: 'Quillback Acres',
};

async function refused(work: Promise<unknown>): Promise<RefusalCode> {
  return await work.then(
    () => {
      throw new Error('was not refused');
    },
    (error: { code: RefusalCode }) => error.code,
  );
}

test('people come, invite, join, sign in and out', async () => {
  const { tools } = record;
  expect(await isFirstRun(tools)).toBe(true);
  expect(await refused(createFirstPerson(tools, { ...ANA, password: 'short' }))).toBe('bad-input');
  expect(await refused(createFirstPerson(tools, { ...ANA, email: 'ana' }))).toBe('bad-input');
  const { personId, partyId } = await createFirstPerson(tools, ANA);
  expect(await isFirstRun(tools)).toBe(false);
  expect(await refused(createFirstPerson(tools, ANA))).toBe('first-run-over');

  const owner = { ...tools, caller: { personId, partyId, role: 'owner' as const } };
  const viewer = { ...tools, caller: { ...owner.caller, role: 'viewer' as const } };
  expect(await refused(inviteMember(viewer, { role: 'owner' }))).toBe('not-allowed');
  const partner = await invitePartner(owner, { party: 'Tarn Hollow Dairy' });
  expect(await readInvitation(tools, partner)).toEqual({ party: 'Tarn Hollow Dairy', role: 'owner' });
  const ben = { name: 'Ben', email: 'ben@example.org', password: 'cows before breakfast', ...ORIGIN };
  const joined = await joinParty(tools, { ...ben, secret: partner.secret });
  expect(joined.partyId).toBe(partner.partyId);
  expect(await refused(joinParty(tools, { ...ben, secret: partner.secret }))).toBe('invitation-void');
  expect(await refused(readInvitation(tools, { secret: 'guessed' }))).toBe('invitation-void');

  // A party is a partner by an agreement; one that is here is not opened a second time.
  const agreement = { ...workedExample.agreement, seller: ANA.party };
  const parties = { sellerId: partyId, buyerId: partner.partyId };
  await recordAgreement(owner, { document: agreement, ...parties });
  expect(await refused(invitePartner(owner, { party: 'Tarn Hollow Dairy' }))).toBe('partner-there');

  // Somebody who is known joins a second party by their own password only.
  const helper = await inviteMember(owner, { role: 'scale-operator' });
  const asBen = { ...ben, secret: helper.secret };
  expect(await refused(joinParty(tools, { ...asBen, password: 'not his' }))).toBe('wrong-sign-in');
  expect(await joinParty(tools, asBen)).toMatchObject({ personId: joined.personId });

  // Who is in, and out again; somebody must stay who can let others in.
  const inside = await readMembers(owner);
  expect(inside.map(({ name, role }) => `${name} ${role}`)).toEqual(['Ana owner', 'Ben scale-operator']);
  const [ana, helping] = inside.map(({ id }) => id);
  expect(await refused(endMembership(owner, { memberId: ana ?? '' }))).toBe('last-owner');
  expect(await refused(endMembership(viewer, { memberId: helping ?? '' }))).toBe('not-allowed');
  const dairy = { ...tools, caller: { ...joined, role: 'owner' as const } };
  expect(await refused(endMembership(dairy, { memberId: helping ?? '' }))).toBe('not-found');
  await endMembership(owner, { memberId: helping ?? '' });
  expect(await readMembers(owner)).toHaveLength(1);
  const back = await inviteMember(owner, { role: 'scale-operator' });
  await joinParty(tools, { ...ben, secret: back.secret });

  const session = await signIn(tools, { email: ' BEN@example.org ', password: ben.password, ...ORIGIN });
  expect(await readSession(tools, session)).toMatchObject({
    name: 'Ben',
    memberships: [
      { party: 'Quillback Acres', role: 'scale-operator' },
      { party: 'Tarn Hollow Dairy', role: 'owner' },
    ],
  });
  const other = await signIn(tools, { email: ben.email, password: ben.password, ...ORIGIN });
  expect(await signOutElsewhere(tools, other)).toBe(1);
  expect(await refused(readSession(tools, session))).toBe('not-signed-in');
  await signOut(tools, other);
  expect(await refused(readSession(tools, other))).toBe('not-signed-in');
});

test('wrong passwords are throttled, for a known account as for an unknown one', async () => {
  const { tools } = record;
  for (const email of [ANA.email, 'nobody@example.org']) {
    const from = { ...ORIGIN, address: `192.0.2.${email.length}` };
    for (let tries = 0; tries < 8; tries++) {
      expect(await refused(signIn(tools, { email, password: 'wrong', ...from }))).toBe('wrong-sign-in');
    }
    expect(await refused(signIn(tools, { email, password: ANA.password, ...from }))).toBe('too-many-tries');
  }
});
