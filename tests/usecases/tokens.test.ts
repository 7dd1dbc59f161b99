/**
 * Programs that act for a party by a token: shown once, kept as a hash, no wider than its scopes and its maker, and over
 * as soon as it is revoked.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { VERBS } from '../../src/domain/parties/permissions.ts';
import { SCOPES } from '../../src/domain/parties/scopes.ts';
import { readAgreementList } from '../../src/usecases/agreements/read-agreement-list.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import { type Caller, type Context, permit, requireScope } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { inviteMember } from '../../src/usecases/people/invite.ts';
import { joinParty } from '../../src/usecases/people/join-party.ts';
import { endMembership, readMembers } from '../../src/usecases/people/members.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { callerByToken } from '../../src/usecases/tokens/caller-by-token.ts';
import { readTokens, revokeToken } from '../../src/usecases/tokens/keep-tokens.ts';
import { makeToken } from '../../src/usecases/tokens/make-token.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let owner: Context;
let other: Context;
const address = '192.0.2.7';

beforeAll(async () => {
  record = await openTestRecord();
  owner = as(await newParty(record.tools, 'Quillback Acres'));
  other = as(await newParty(record.tools, 'Tarn Hollow Dairy'));
});
afterAll(() => record.close());

function as(caller: Caller): Context {
  return { ...record.tools, caller };
}

async function byToken(secret: string, from = address): Promise<Context> {
  return as(await callerByToken(record.tools, { secret, address: from }));
}

test('a token acts for its party with its scopes alone', async () => {
  const made = await makeToken(owner, { name: ' scale  house ', scopes: ['loads:write', 'loads:read'] });
  expect(made).toMatchObject({ name: 'scale house', scopes: ['loads:read', 'loads:write'] });
  expect(made.secret).toMatch(/^hl_[A-Za-z0-9_-]{43}$/);
  const program = await byToken(made.secret);
  expect(program.caller).toMatchObject({ partyId: owner.caller.partyId, role: 'owner' });

  const { agreementId } = await recordAgreement(owner, {
    document: workedExample.agreement,
    sellerId: owner.caller.partyId,
    buyerId: other.caller.partyId,
  });
  const load = {
    ...{ ticket: 'T1', delivered_at: '2026-09-14T21:40:00-06:00', gross: '78220', tare: '31100' },
    unit: 'lb',
  };
  const [recorded] = await recordLoads(program, { agreementId, loads: [load], key: 'k1' });
  expect(recorded).toMatchObject({ ticket: 'T1', isNew: true });
  expect(await readAgreementList(program, { locale: 'en-US' })).toHaveLength(1);
  expect(await refused(settleLoads(program, { agreementId }))).toBe('not-allowed');
  expect(await refused(makeToken(program, { name: 'more', scopes: ['loads:read'] }))).toBe('not-allowed');
  expect(await refused(readTokens(program))).toBe('not-allowed');
  const audit = await record.superuser();
  const { rows } = await audit.query(`SELECT subject FROM audit WHERE verb = 'record-load'`);
  await audit.end();
  expect(rows).toEqual([{ subject: `${agreementId} by token ${made.id}` }]);
});

test('what binds the party, and who is in it, is in no scope', () => {
  const program = as({ ...owner.caller, token: { id: 'x', scopes: SCOPES } });
  const closed = VERBS.filter((verb) => {
    try {
      permit(program, verb);
      return false;
    } catch {
      return true;
    }
  });
  expect(closed).toEqual(
    expect.arrayContaining(['record-agreement', 'keep-lot', 'make-offer', 'sign', 'invite', 'keep-token']),
  );
  expect(closed).not.toContain('record-load');
});

test('an operation may ask for one scope of several that a verb goes with', () => {
  const program = as({ ...owner.caller, token: { id: 'x', scopes: ['loads:write'] } });
  expect(() => requireScope(program, ['results:write'])).toThrow('lacks results:write');
  expect(() => requireScope(program, [])).toThrow('Only a person');
  expect(() => requireScope(program, ['results:write', 'loads:write'])).not.toThrow();
  expect(() => requireScope(owner, [])).not.toThrow();
});

describe('a token is made', () => {
  test('with a name and known scopes', async () => {
    expect(await refused(makeToken(owner, { name: '', scopes: ['loads:read'] }))).toBe('bad-input');
    expect(await refused(makeToken(owner, { name: 'a', scopes: [] }))).toBe('bad-input');
    expect(await refused(makeToken(owner, { name: 'a', scopes: ['loads:read', 'all'] }))).toBe('bad-input');
  });

  test('by an owner', async () => {
    for (const role of ['bookkeeper', 'scale-operator', 'viewer'] as const) {
      const context = as({ ...owner.caller, role });
      expect(await refused(makeToken(context, { name: 'a', scopes: ['loads:read'] }))).toBe('not-allowed');
      expect(await refused(revokeToken(context, { tokenId: record.tools.newId() }))).toBe('not-allowed');
    }
  });

  test('and its secret is kept nowhere', async () => {
    const { secret } = await makeToken(owner, { name: 'kept', scopes: ['quotes:read'] });
    const client = await record.superuser();
    for (const table of ['api_token', 'audit', 'request', 'sign_in_try']) {
      const { rows } = await client.query(`SELECT row_to_json(t)::text AS row FROM ${table} t`);
      expect(rows.filter(({ row }) => String(row).includes(secret.slice(3)))).toEqual([]);
    }
    await client.end();
  });
});

test('its use is noted once a minute at most', async () => {
  const { id, secret } = await makeToken(owner, { name: 'noted', scopes: ['loads:read'] });
  const usedAt = async () => (await readTokens(owner)).find((token) => token.id === id)?.usedAt;
  expect(await usedAt()).toBeUndefined();
  await byToken(secret);
  const first = await usedAt();
  expect(first).toBeGreaterThan(0);
  await byToken(secret);
  expect(await usedAt()).toBe(first);
  const later = { ...record.tools, now: () => (first ?? 0) + 60_000 };
  await callerByToken(later, { secret, address });
  expect(await usedAt()).toBe((first ?? 0) + 60_000);
});

describe('a token stops', () => {
  test('when it is revoked, by its own party alone', async () => {
    const { id, secret } = await makeToken(owner, { name: 'over', scopes: ['loads:read'] });
    expect(await refused(revokeToken(other, { tokenId: id }))).toBe('not-found');
    expect((await readTokens(other)).map((token) => token.id)).not.toContain(id);
    expect(await refused(revokeToken(owner, { tokenId: 'no id' }))).toBe('not-found');
    await revokeToken(owner, { tokenId: id });
    await revokeToken(owner, { tokenId: id });
    expect(await refused(byToken(secret))).toBe('wrong-sign-in');
    expect((await readTokens(owner)).map((token) => token.id)).not.toContain(id);
  });

  test('when whoever made it leaves the party', async () => {
    const { secret } = await inviteMember(owner, { role: 'owner' });
    const joined = await joinParty(record.tools, {
      ...{ secret, name: 'Ben', email: 'ben@example.org', password: 'cows before breakfast', address },
    });
    const ben = as({ ...joined, role: 'owner' });
    const token = await makeToken(ben, { name: 'his', scopes: ['loads:read'] });
    await byToken(token.secret);
    const member = (await readMembers(owner)).find(({ personId }) => personId === joined.personId);
    await endMembership(owner, { memberId: member?.id ?? '' });
    expect(await refused(byToken(token.secret))).toBe('wrong-sign-in');
  });
});

test('wrong tokens must wait once there were too many, from one address or of one text', async () => {
  const from = '198.51.100.9';
  for (let tries = 0; tries < 8; tries += 1) {
    expect(await refused(byToken('hl_the-same', from))).toBe('wrong-sign-in');
  }
  expect(await refused(byToken('hl_the-same', from))).toBe('too-many-tries');
  const { secret } = await makeToken(owner, { name: 'right', scopes: ['loads:read'] });
  await byToken(secret, from);
  for (let tries = 8; tries < 40; tries += 1) await refused(byToken(`hl_guess-${tries}`, from));
  expect(await refused(byToken(secret, from))).toBe('too-many-tries');
  await byToken(secret);
});
