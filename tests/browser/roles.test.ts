/**
 * Who may ask for what: every page and route, by every role, by an owner of another party, and by nobody. The addresses
 * are read from the folder of pages: one that has no row here fails.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { beforeAll, describe, expect, inject, test } from 'vitest';
import type { Person } from './browsers.ts';
import { type Ask, askAs, strangerAt } from './http-caller.ts';
import { type Ids, type Row, WHO, type Who } from './role-row.ts';
import { ROWS } from './role-rows.ts';

const address = inject('address');
const agreementId = inject('agreementId');
const APP = join('src', 'app');

const PEOPLE: Readonly<Record<Exclude<Who, 'nobody'>, Person>> = {
  owner: { side: 'dairy', role: 'owner' },
  bookkeeper: { side: 'dairy', role: 'bookkeeper' },
  operator: { side: 'dairy', role: 'scale-operator' },
  viewer: { side: 'dairy', role: 'viewer' },
  stranger: { side: 'neighbour', role: 'owner' },
};

const asks = new Map<string, Ask>();
let ids: Ids;

function askOf(who: string): Ask {
  const ask = asks.get(who);
  if (!ask) throw new Error(`${who} has not signed in`);
  return ask;
}

beforeAll(async () => {
  for (const who of WHO) {
    if (who === 'nobody') asks.set(who, strangerAt(address));
    else {
      asks.set(who, await askAs(PEOPLE[who], address));
      asks.set(`${who} of the seller`, await askAs({ ...PEOPLE[who], side: sellerSide(who) }, address));
    }
  }
  const listed = await askOf('owner')({ path: '/api/v1/loads?status=settled' });
  const { loads } = (await listed.json()) as { loads: { id: string }[] };
  const { lotId, draftId, offerId, endedOfferId, adviceId, adviceDraftId } = inject('market');
  ids = {
    agreement: agreementId,
    load: loads[0]?.id ?? '',
    document: inject('documentId'),
    lot: lotId,
    draft: draftId,
    offer: offerId,
    endedOffer: endedOfferId,
    advice: adviceId,
    adviceDraft: adviceDraftId,
  };
  expect(ids.load).not.toBe('');
});

function sellerSide(who: Who) {
  return who === 'stranger' ? 'neighbour' : 'grower';
}

function routes(): string[] {
  return readdirSync(APP, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /^(page\.tsx|route\.ts)$/.test(entry.name))
    .flatMap((entry) => {
      const path = join(entry.parentPath, entry.name);
      const name = relative(APP, path);
      if (entry.name === 'page.tsx') return [`GET ${name}`];
      const methods = readFileSync(path, 'utf8').matchAll(
        /\b(GET|HEAD|POST|PUT|PATCH|DELETE)\b(?=\(| *[,}=])/g,
      );
      return [...new Set([...methods].map(([method]) => method))].map((method) => `${method} ${name}`);
    })
    .sort();
}

test('every page and route has its row, and no row is left over', () => {
  expect([...new Set(ROWS.map(({ route }) => route))].sort()).toEqual(routes());
});

describe.each(ROWS.map((row) => [row.name ?? row.route, row] as const))('%s', (_, row: Row) => {
  test.each(WHO)('%s', async (who) => {
    const ask = askOf(row.side === 'seller' && who !== 'nobody' ? `${who} of the seller` : who);
    const method = row.route.startsWith('POST') ? 'POST' : 'GET';
    const body = row.body?.(ids);
    const answer = await ask({ method, path: row.path(ids), ...(body === undefined ? {} : { body }) });
    expect(answer.status).toBe(row.expected[who]);
    const text = await answer.text();
    if (who === 'stranger' || who === 'nobody') expect(text).not.toMatch(/Tarn Hollow|Quillback/);
    if (who === 'nobody' && answer.status === 307) {
      expect(answer.headers.get('location')).toMatch(/^\/(sign-in|loads)?/);
    }
  });
});

describe('a rival buyer with an offer on the same lot', () => {
  let rival: Ask;
  beforeAll(async () => {
    rival = await askAs({ side: 'rival', role: 'owner' }, address);
  });

  test.each(ROWS.map((row) => [row.name ?? row.route, row] as const))(
    'sees nothing of the dairy’s: %s',
    async (_, row: Row) => {
      const method = row.route.startsWith('POST') ? 'POST' : 'GET';
      const body = row.body?.(ids);
      const answer = await rival({ method, path: row.path(ids), ...(body === undefined ? {} : { body }) });
      expect(await answer.text()).not.toMatch(/Tarn Hollow|Marigold clause/);
      const hidden = [ids.offer, ids.advice];
      if (hidden.some((id) => row.path(ids).includes(id))) expect(answer.status).toBe(404);
    },
  );
});

describe('what another site sends is not taken', () => {
  const post = async (headers: Readonly<Record<string, string>>) => {
    const path = `/api/v1/agreements/${ids.agreement}/settlements`;
    return await askOf('owner')({ method: 'POST', path, body: {}, headers });
  };

  test.each([
    [{ origin: 'https://elsewhere.example' }],
    [{ origin: 'null' }],
    [{ 'sec-fetch-site': 'cross-site' }],
  ])('%j', async (headers) => {
    const answer = await post(headers);
    expect(answer.status).toBe(403);
    expect(await answer.json()).toMatchObject({ code: 'not-allowed' });
  });

  test('from our own pages it is', async () => {
    expect((await post({ origin: address })).status).toBe(200);
  });

  test('nor is a form in place of JSON', async () => {
    const answer = await post({ 'content-type': 'text/plain' });
    expect(answer.status).toBe(400);
  });
});

describe('an Idempotency-Key', () => {
  const load = {
    ticket: 'R-77',
    delivered_at: '2026-11-06T10:00:00-07:00',
    gross: '70000',
    tare: '30000',
    unit: 'lb',
  };
  const send = async (loads: object, key = 'roles-77') =>
    await askOf('operator')({
      method: 'POST',
      path: `/api/v1/agreements/${ids.agreement}/loads`,
      body: { loads: [loads] },
      headers: { 'idempotency-key': key },
    });

  test('answers the second time as it did the first, and refuses another body', async () => {
    const first = await (await send(load)).json();
    expect(first).toMatchObject([{ ticket: 'R-77', isNew: true }]);
    expect(await (await send(load)).json()).toEqual(first);
    const other = await send({ ...load, gross: '71000' });
    expect(other.status).toBe(409);
    expect(await other.json()).toMatchObject({ code: 'key-reused' });
  });

  test('every fault of a body is named', async () => {
    const answer = await send({ ...load, gross: '1,5', unit: 'stone' }, 'roles-78');
    expect(answer.status).toBe(400);
    const { problems } = (await answer.json()) as { problems: { row: number; column: string }[] };
    expect(problems).toMatchObject([
      { row: 0, column: 'gross' },
      { row: 0, column: 'unit' },
    ]);
  });
});

test('pages carry a policy that lets no other script run', async () => {
  const answer = await askOf('owner')({ path: '/loads' });
  const policy = answer.headers.get('content-security-policy') ?? '';
  const nonce = /'nonce-([^']+)'/.exec(policy)?.[1];
  expect(policy).toContain("frame-ancestors 'none'");
  expect(policy).not.toContain('unsafe');
  expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
  const scripts = [...(await answer.text()).matchAll(/<script\b[^>]*>/g)].map(([tag]) => tag);
  expect(scripts.length).toBeGreaterThan(0);
  expect(scripts.filter((tag) => !tag.includes(`nonce="${nonce}"`))).toEqual([]);
});
