/**
 * The tables of a sealed season's archive, from a journal written by hand: what stands last is what counts. The archive's
 * bytes are frozen: one that was saved must fit for years.
 */
import { unzipSync } from 'fflate';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { seasonArchive } from '../../../src/documents/season-file/season-archive.ts';
import { type SeasonFile, seasonFileText } from '../../../src/domain/season-close/season-file.ts';
import { canonicalText, sha256 } from '../../../src/journal/fingerprint.ts';

afterEach(() => vi.unstubAllEnvs());

const LOAD = {
  deliveredAt: '2026-09-15T03:40:00.000Z',
  deliveredOn: '2026-09-14',
  gross: '70000',
  tare: '26000',
  unit: 'lb',
  distance: null,
  distanceUnit: null,
  truck: null,
  sample: null,
};
const LINE = { quantity: '22', unit: 'short-ton', rate: '50', amount: '1100.00', how: '22 × 50' };
const SETTLED = { agreementVersion: 'v1', result: null, currency: 'USD', prices: [], quotes: [] };

const FACTS: readonly (readonly [kind: string, subject: string, fact: unknown, postings?: unknown])[] = [
  ['agreement', 'a', { number: 'A-1', seller: 's', buyer: 'b', version: '1', fingerprint: '0' }],
  ['quote', 'q1', { series: 'Milo, Plains', date: '2026-09-14', price: '4.05' }],
  [
    'load',
    'l1',
    { ...LOAD, ticket: '=1+1', sample: 'S1', truck: 'A, "long"', distance: '12.5', distanceUnit: 'mile' },
  ],
  ['load', 'l2', { ...LOAD, ticket: '2', distance: '7', distanceUnit: 'km' }],
  ['load', 'l3', { ...LOAD, ticket: '3' }],
  ['result', 'r1', { sample: 'S1', basis: 'dry-matter', figures: { 'dry-matter': '59.2', starch: '54.0' } }],
  ['election', 'e1', { load: 'l1', series: 'Milo, Plains', date: '2026-09-14' }],
  ['election', 'e3', { load: 'l3', series: 'Milo, Plains', date: '2026-09-14' }],
  ['choice', 'c2', { load: 'l2', choice: 'accept' }],
  [
    'load-version',
    'x2',
    {
      ...LOAD,
      ticket: '2',
      tare: '26500',
      distance: '7',
      distanceUnit: 'km',
      load: 'l2',
      version: '2',
      void: false,
      reason: 'Read',
    },
  ],
  ['load-version', 'x3', { ...LOAD, ticket: '3', load: 'l3', version: '2', void: true, reason: 'Twice' }],
  [
    'result',
    'r2',
    { sample: 'S1', basis: 'dry-matter', figures: { 'dry-matter': '59.2', starch: '52.4' }, version: '2' },
  ],
  [
    'quote',
    'q2',
    { series: 'Milo, Plains', date: '2026-09-14', price: '4.06', version: '2', reason: 'Typed' },
  ],
  [
    'settlement',
    't1',
    {
      ...SETTLED,
      load: 'l1',
      version: '1',
      status: 'settled',
      total: '1100.00',
      lines: [{ ...LINE, label: 'Feed' }],
    },
    [{ account: 'buyer-owes-seller', unit: 'USD', amount: '1100.00' }],
  ],
  [
    'document',
    'd1',
    {
      serial: '7',
      kind: 'invoice',
      issuedOn: '2026-09-20',
      dueOn: '2026-10-04',
      currency: 'USD',
      payable: '1100.00',
      corrects: null,
      fingerprint: 'f1',
    },
  ],
  [
    'document',
    'd2',
    {
      serial: '8',
      kind: 'credit',
      issuedOn: '2026-09-21',
      dueOn: '2026-10-05',
      currency: 'USD',
      payable: '-80.00',
      corrects: 'd1',
      fingerprint: 'f2',
    },
  ],
  [
    'payment',
    'p1',
    {
      payer: 'b',
      party: 'b',
      amount: '1020.00',
      currency: 'USD',
      paidOn: '2026-10-01',
      method: 'check',
      reference: '1047',
    },
  ],
  ['payment-answer', 'p1a', { payment: 'p1', answer: 'confirmed' }],
  ['payment-reversal', 'p1r', { payment: 'p1', reversedOn: '2026-10-03' }],
  ['retest', 'n1', { about: 'starch', sample: 'S1', load: null, first: '54.0', claimed: '52', party: 'b' }],
  ['retest-ending', 'n1e', { retest: 'n1', ending: 'decided', because: 'referee', value: '52.4' }],
];

const STATEMENT = canonicalText({
  format: 'huskledger-closing/1',
  agreement: { id: 'a', number: 'A-1', versions: [sha256('{}')] },
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  currency: 'USD',
  drawnUpOn: '2026-11-28',
  journal: { entries: String(FACTS.length), head: '1'.repeat(64), root: '2'.repeat(64) },
  loads: { settled: '1', refused: '0', void: '1', unsettled: '1' },
  committed: null,
  money: { settled: '1100.00', invoiced: '1020.00', paid: '0.00', balance: '1020.00' },
  questions: { decided: '1', withdrawn: '0', agreed: '0' },
  carried: [{ kind: 'balance', count: '1', words: 'Tarn Hollow Dairy owes 1020.00 USD', amount: '1020.00' }],
});

const FILE: SeasonFile = {
  format: 'huskledger-season/1',
  statement: STATEMENT,
  signatures: [
    {
      party: 'Quillback Acres',
      name: 'Wren Alder',
      signedAt: '2026-11-28T18:00:00.000Z',
      fingerprint: sha256(STATEMENT),
    },
    {
      party: 'Tarn Hollow Dairy',
      name: 'Juniper Marsh',
      signedAt: '2026-11-28T19:00:00.000Z',
      fingerprint: sha256(STATEMENT),
    },
  ],
  seal: {
    root: '2'.repeat(64),
    entries: String(FACTS.length),
    sealedAt: '2026-11-28T19:00:00.000Z',
    mark: '3'.repeat(64),
  },
  agreements: ['{}'],
  entries: FACTS.map(([kind, subject, fact, postings = []], index) =>
    canonicalText({
      agreement: 'a',
      sequence: String(index + 1),
      kind,
      subject,
      postedAt: '2026-11-28T18:00:00.000Z',
      postedBy: 'u',
      fact,
      postings,
    }),
  ),
};

const archive = seasonArchive(seasonFileText(FILE));
const files = unzipSync(archive);
const rows = (name: string) => new TextDecoder().decode(files[name]).split('\r\n').slice(0, -1);

describe('the tables of a sealed season', () => {
  test('hold the loads that stand, as they were put right last, in one unit of distance', () => {
    expect(rows('season/loads.csv')).toEqual([
      'ticket,delivered_at,gross,tare,unit,sample,truck,km',
      `'=1+1,2026-09-15T03:40:00.000Z,70000,26000,lb,S1,"A, ""long""",20.1168`,
      '2,2026-09-15T03:40:00.000Z,70000,26500,lb,,,7',
    ]);
  });

  test('hold each figure that was reported or decided last', () => {
    expect(rows('season/samples.csv')).toEqual(['sample,basis,dry_matter,starch', 'S1,dry-matter,59.2,52.4']);
    expect(rows('season/prices.csv')).toEqual(['series,date,price', '"Milo, Plains",2026-09-14,4.06']);
    expect(rows('season/elections.csv')).toEqual(['ticket,series,date', `'=1+1,"Milo, Plains",2026-09-14`]);
    expect(rows('season/choices.csv')).toEqual(['ticket,choice', '2,accept']);
  });

  test('hold settlements, documents, payments, questions and postings', () => {
    expect(rows('accounts/settlements.csv').slice(1)).toEqual([
      `'=1+1,1,settled,Feed,22,short-ton,50,1100.00,USD,22 × 50`,
      `'=1+1,1,settled,total,,,,1100.00,USD,`,
    ]);
    expect(rows('accounts/documents.csv').slice(1)).toEqual([
      '7,invoice,2026-09-20,2026-10-04,,1100.00,USD,f1',
      '8,credit,2026-09-21,2026-10-05,7,-80.00,USD,f2',
    ]);
    expect(rows('accounts/payments.csv').slice(1)).toEqual([
      '2026-10-01,Tarn Hollow Dairy,1020.00,USD,check,1047,confirmed,2026-10-03',
    ]);
    expect(rows('accounts/questions.csv').slice(1)).toEqual([
      'starch,S1,,54.0,52,Tarn Hollow Dairy,decided,referee,52.4',
    ]);
    expect(rows('accounts/postings.csv').slice(1)).toEqual([
      '14,2026-11-28T18:00:00.000Z,settlement,buyer-owes-seller,1100.00,USD',
    ]);
  });

  test('are the same bytes wherever they are written, now and later', () => {
    const offsets = new Set<number>();
    for (const zone of ['Pacific/Kiritimati', 'America/Boise', 'Asia/Kolkata']) {
      vi.stubEnv('TZ', zone);
      offsets.add(new Date('2026-11-28T12:00:00Z').getTimezoneOffset());
      expect(Buffer.from(seasonArchive(seasonFileText(FILE))).equals(Buffer.from(archive)), zone).toBe(true);
    }
    expect([...offsets]).toEqual([-840, 420, -330]);
    // If this must change, check-seal must go on taking the archives that were written before.
    expect(sha256(Buffer.from(archive).toString('hex'))).toBe(
      '56a9de9d589d08608b2475ff531557dba42226904d7d8372847478fba100fd8f',
    );
  });

  test('are described beside them', () => {
    const about = new TextDecoder().decode(files['about.txt']);
    for (const name of new Set(Object.keys(files).map((path) => path.replace(/\/.*/, '/')))) {
      if (name !== 'about.txt') expect(about).toContain(`  ${name}`);
    }
    expect(about).toContain(`Root ${'2'.repeat(64)}\nMark ${'3'.repeat(64)}\n`);
    expect(about).toContain('Juniper Marsh for Tarn Hollow Dairy, 2026-11-28T19:00:00.000Z');
  });
});
