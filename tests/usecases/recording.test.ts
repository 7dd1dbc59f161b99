/**
 * Recording and settling through the use cases: what each refuses, that a key is answered once, and who may do what.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  VERBS as ALL_VERBS,
  type Verb as AnyVerb,
  ROLES,
  type Role,
} from '../../src/domain/parties/permissions.ts';
import { readAgreementList } from '../../src/usecases/agreements/read-agreement-list.ts';
import { readAgreementWords } from '../../src/usecases/agreements/read-agreement-words.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { readLoad } from '../../src/usecases/loads/read-load.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { readWaiting } from '../../src/usecases/loads/read-waiting.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordSeries } from '../../src/usecases/loads/spend-ticket.ts';
import { inviteMember } from '../../src/usecases/people/invite.ts';
import { endMembership } from '../../src/usecases/people/members.ts';
import { readQuotes } from '../../src/usecases/prices/read-quotes.ts';
import { recordElections } from '../../src/usecases/prices/record-elections.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { Refusal, type RefusalCode } from '../../src/usecases/refusal.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { sealParts } from '../../src/usecases/samples/seal-parts.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { readTokens } from '../../src/usecases/tokens/keep-tokens.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

const LOAD = {
  ticket: 'T1',
  delivered_at: '2026-09-14T21:40:00-06:00',
  gross: '78220',
  tare: '31100',
  unit: 'lb',
  sample: 'S1',
};
const RESULT = { sample: 'S1', basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };
const QUOTE = { series: 'corn-elevator-bid', date: '2026-09-14', price: '4.20' };

let record: TestRecord;
let seller: Context;
let buyer: Context;
let stranger: Context;
let agreementId: string;

function as(caller: Caller, role: Role = caller.role): Context {
  return { ...record.tools, caller: { ...caller, role } };
}

beforeAll(async () => {
  record = await openTestRecord();
  seller = as(await newParty(record.tools, 'Quillback Acres'));
  buyer = as(await newParty(record.tools, 'Tarn Hollow Dairy'));
  stranger = as(await newParty(record.tools, 'Sorrel Bend Dairy'));
  const parties = { sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId };
  ({ agreementId } = await recordAgreement(seller, { document: workedExample.agreement, ...parties }));
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

async function refused(work: Promise<unknown>): Promise<RefusalCode> {
  const error: unknown = await work.then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  if (error instanceof Refusal) return error.code;
  throw error ?? new Error('was not refused');
}

describe('an agreement', () => {
  const parties = () => ({ sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId });

  test('is recorded once, and refused under its number with other terms', async () => {
    const document = workedExample.agreement;
    expect(await recordAgreement(buyer, { document, ...parties() })).toEqual({ agreementId });
    const other = { ...document, rounding: 'half-even' };
    expect(await refused(recordAgreement(buyer, { document: other, ...parties() }))).toBe('agreement-taken');
  });

  test('is refused with all its faults, to strangers, and with nobody', async () => {
    const broken = { ...workedExample.agreement, id: '', currency: 'XXXX' };
    const fault = recordAgreement(seller, { document: broken, ...parties() });
    await expect(fault).rejects.toMatchObject({ code: 'bad-input', problems: [{}, {}] });
    const document = workedExample.agreement;
    expect(await refused(recordAgreement(stranger, { document, ...parties() }))).toBe('not-yours');
    const nobody = '00000000-0000-7000-8000-000000000000';
    expect(await refused(recordAgreement(seller, { document, ...parties(), buyerId: nobody }))).toBe(
      'not-found',
    );
    expect(await refused(recordAgreement(seller, { document, ...parties(), buyerId: 'x' }))).toBe(
      'not-found',
    );
  });
});

describe('loads, results and quotes', () => {
  test('are recorded, the same again passed over, another refused', async () => {
    const [first] = await recordLoads(seller, { agreementId, loads: [LOAD] });
    expect(first).toMatchObject({ ticket: 'T1', isNew: true });
    // The same weights written otherwise are the same; other weights are not.
    const again = { ...LOAD, gross: '078220', delivered_at: '2026-09-15T03:40:00Z' };
    expect(await recordLoads(buyer, { agreementId, loads: [again] })).toEqual([{ ...first, isNew: false }]);
    expect(await refused(recordLoads(buyer, { agreementId, loads: [{ ...LOAD, gross: '78240' }] }))).toBe(
      'ticket-taken',
    );

    expect((await recordQuotes(seller, { agreementId, quotes: [QUOTE] })).recorded).toBe(1);
    expect((await recordQuotes(seller, { agreementId, quotes: [QUOTE] })).recorded).toBe(0);
    const asked = { agreementId, locale: 'de-DE', count: 5 };
    expect(await readQuotes(buyer, asked)).toEqual([
      { series: 'corn-elevator-bid', date: '2026-09-14', price: '4,20' },
    ]);
    expect(await refused(readQuotes(stranger, asked))).toBe('not-found');
    expect(await refused(recordQuotes(seller, { agreementId, quotes: [{ ...QUOTE, price: '4.21' }] }))).toBe(
      'quote-taken',
    );

    await recordResults(buyer, { agreementId, results: [RESULT] });
    expect(await recordResults(buyer, { agreementId, results: [RESULT] })).toMatchObject([{ isNew: false }]);
    expect(await refused(recordResults(buyer, { agreementId, results: [{ ...RESULT, ndf: '31.3' }] }))).toBe(
      'result-taken',
    );
  });

  test('are held to the rules of the files, row by row', async () => {
    const loads = [
      { ...LOAD, ticket: 'T2', tare: '90000' },
      { ...LOAD, ticket: 'T2', colour: 'red' },
      { ticket: '' },
    ];
    const given = recordLoads(seller, { agreementId, loads });
    await expect(given).rejects.toMatchObject({ code: 'bad-input' });
    const { problems } = (await given.catch((error: unknown) => error)) as Refusal;
    expect(problems.map(({ row, column }) => `${row} ${column}`)).toEqual([
      '0 tare',
      '1 colour',
      '1 ticket',
      '2 ticket',
      '2 delivered_at',
      '2 gross',
      '2 tare',
      '2 unit',
    ]);
    expect(
      await refused(
        recordResults(buyer, { agreementId, results: [{ ...RESULT, sample: 'S2', starch: '101' }] }),
      ),
    ).toBe('bad-input');
    expect(
      await refused(recordQuotes(buyer, { agreementId, quotes: [{ ...QUOTE, date: '2026-02-30' }] })),
    ).toBe('bad-input');
  });
});

describe('figures that are hardly right', () => {
  test('are recorded once they are confirmed', async () => {
    const [heavy, thin] = [
      { ...LOAD, ticket: 'U1', gross: '7664000', sample: 'U1' },
      { ...RESULT, sample: 'U1', dry_matter: '6.5' },
    ];
    const far = { ...QUOTE, date: '2026-09-16', price: '430' };
    const other = { ...QUOTE, series: 'another' };
    expect(await refused(recordLoads(seller, { agreementId, loads: [heavy] }))).toBe('unusual');
    expect(await refused(recordResults(seller, { agreementId, results: [thin] }))).toBe('unusual');
    expect(await refused(recordQuotes(seller, { agreementId, quotes: [far] }))).toBe('unusual');
    const both = recordQuotes(seller, {
      agreementId,
      quotes: [other, { ...other, date: '2026-09-15', price: '9' }],
    });
    await expect(both).rejects.toThrow(
      /^Nothing was recorded yet\. another goes from 4\.2 on 2026-09-14 to 9/,
    );
    const light = { ...LOAD, ticket: 'U2', gross: '31499', sample: 'U2' };
    const answers = await recordLoads(seller, { agreementId, loads: [light], confirmed: true });
    expect(answers).toMatchObject([{ isNew: true }]);
    // What is there already is not asked about again.
    expect(await recordLoads(buyer, { agreementId, loads: [light] })).toMatchObject([{ isNew: false }]);
  });
});

describe('settling', () => {
  test('refuses a load that is not ready, and settles one once', async () => {
    const [waiting] = await recordLoads(seller, {
      agreementId,
      loads: [{ ...LOAD, ticket: 'T3', sample: 'S3' }],
    });
    const loadId = waiting?.id ?? '';
    expect(await refused(settleLoads(seller, { agreementId, loadId }))).toBe('not-ready');
    expect(await settleLoads(seller, { agreementId })).toEqual({ settled: 1, refused: 0, waiting: 2 });
    expect(await settleLoads(buyer, { agreementId })).toEqual({ settled: 0, refused: 0, waiting: 2 });
    const { loads } = await readLoadList(buyer, { agreementId, status: 'settled', locale: 'en-US' });
    expect(loads.map(({ ticket, standing }) => [ticket, standing])).toEqual([
      ['T1', { status: 'settled', total: '1,986.85', currency: 'USD' }],
    ]);
    const settled = { agreementId, loadId: loads[0]?.id ?? '' };
    expect(await settleLoads(buyer, settled)).toEqual({ settled: 1, refused: 0, waiting: 0 });
    const view = await readLoad(buyer, { loadId: settled.loadId, locale: 'en-US' });
    expect(view.history.map(({ kind }) => kind)).toEqual(['load', 'result', 'settlement']);
    expect(view.amounts).toEqual(['1815.82', '342.99', '-71.83', '-100.13']);
    expect(await readAgreementList(seller, { locale: 'en-US' })).toMatchObject([
      { loads: 3, waiting: 2, owed: '1,986.85', currency: 'USD' },
    ]);
  });

  test('leaves the choice to the buyer, and dates to the seller', async () => {
    const wet = { ...RESULT, sample: 'S4', dry_matter: '40' };
    await recordLoads(seller, { agreementId, loads: [{ ...LOAD, ticket: 'T4', sample: 'S4' }] });
    await recordResults(seller, { agreementId, results: [wet] });
    const choices = [{ ticket: 'T4', choice: 'refuse' }];
    expect(await refused(recordChoices(seller, { agreementId, choices }))).toBe('not-yours');
    expect(
      await refused(recordChoices(buyer, { agreementId, choices: [{ ticket: 'T9', choice: 'refuse' }] })),
    ).toBe('not-found');
    expect(await readWaiting(buyer)).toContainEqual(
      expect.objectContaining({ what: 'choice-needed', loads: 1, yours: true }),
    );
    expect(await readWaiting(seller)).toContainEqual(
      expect.objectContaining({ what: 'choice-needed', loads: 1, yours: false }),
    );
    expect(await recordChoices(buyer, { agreementId, choices })).toEqual({ recorded: 1 });
    // Until it is settled the buyer may decide otherwise, and the newest decision counts.
    for (const choice of ['accept', 'accept', 'refuse']) {
      await recordChoices(buyer, { agreementId, choices: [{ ticket: 'T4', choice }] });
    }
    expect(await settleLoads(buyer, { agreementId })).toEqual({ settled: 0, refused: 1, waiting: 2 });
    // What a settlement rests on is closed with it.
    const late = [{ ticket: 'T1', choice: 'accept' }];
    expect(await refused(recordChoices(buyer, { agreementId, choices: late }))).toBe('already-settled');
    const lateDate = [{ ticket: 'T1', series: 'corn-elevator-bid', date: '2026-09-14' }];
    expect(await refused(recordElections(seller, { agreementId, elections: lateDate }))).toBe(
      'already-settled',
    );
    const elections = [{ ticket: 'T3', series: 'corn-elevator-bid', date: '2026-09-14' }];
    expect(await refused(recordElections(buyer, { agreementId, elections }))).toBe('not-yours');
    expect(await recordElections(seller, { agreementId, elections })).toEqual({ recorded: 1 });
    expect(
      await refused(
        recordElections(seller, {
          agreementId,
          elections: [{ ...elections[0], date: '2026-09-15' }] as never,
        }),
      ),
    ).toBe('election-taken');
  });
});

describe('a request key', () => {
  test('is answered as the first time, and is for one request only', async () => {
    const request = { agreementId, loads: [{ ...LOAD, ticket: 'K1', sample: 'K1' }], key: 'k-1' };
    const first = await recordLoads(seller, request);
    expect(first).toMatchObject([{ isNew: true }]);
    expect(await recordLoads(seller, request)).toEqual(first);
    expect(await refused(recordLoads(seller, { ...request, loads: [{ ...LOAD, ticket: 'K2' }] }))).toBe(
      'key-reused',
    );
    // Another party's keys are its own.
    expect(await recordLoads(buyer, request)).toMatchObject([{ id: first[0]?.id, isNew: false }]);
  });

  test('that comes twice at once is done once', async () => {
    const request = { agreementId, loads: [{ ...LOAD, ticket: 'K3', sample: 'K3' }], key: 'k-3' };
    const answers = await Promise.all(Array.from({ length: 8 }, () => recordLoads(seller, request)));
    for (const answer of answers) expect(answer).toEqual(answers[0]);
  });
});

const MONEY_VERBS = [
  'issue-invoice',
  'record-payment',
  'question-amount',
  'keep-lien',
  'keep-account',
] as const;

describe('who may', () => {
  /** The verbs of bargaining are tried in offers.test.ts, of putting right in corrections.test.ts, of money in money.test.ts, of questions in retests.test.ts, of silos in silos.test.ts. */
  const BARGAINING = [
    'keep-silo',
    'correct',
    'question',
    'keep-lot',
    'make-offer',
    'sign',
    'advise',
    ...MONEY_VERBS,
  ] as const;
  type Verb = Exclude<AnyVerb, (typeof BARGAINING)[number]>;
  const VERBS = ALL_VERBS.filter((verb): verb is Verb => !BARGAINING.some((other) => other === verb));
  const ASK: Readonly<Record<Verb, (context: Context) => Promise<unknown>>> = {
    read: (context) => readAgreementWords(context, { agreementId }),
    'record-agreement': (context) =>
      recordAgreement(context, {
        document: workedExample.agreement,
        sellerId: seller.caller.partyId,
        buyerId: buyer.caller.partyId,
      }),
    'record-load': (context) => recordLoads(context, { agreementId, loads: [LOAD] }),
    'take-sample': (context) => sealParts(context, { agreementId, parts: [] }),
    'record-result': (context) => recordResults(context, { agreementId, results: [RESULT] }),
    'record-quote': (context) => recordQuotes(context, { agreementId, quotes: [QUOTE] }),
    'record-election': (context) => recordElections(context, { agreementId, elections: [] }),
    'record-choice': (context) => recordChoices(context, { agreementId, choices: [] }),
    settle: (context) => settleLoads(context, { agreementId }),
    'keep-scale': (context) => recordSeries(context, { agreementId, series: { prefix: 'W', first: '1' } }),
    invite: (context) => inviteMember(context, { role: 'viewer' }),
    'keep-token': (context) => readTokens(context),
    'end-membership': async (context) => {
      // Nobody is ended: an owner who may do it is told that there is no such member.
      const none = endMembership(context, { memberId: '' });
      const code = await refused(none);
      if (code === 'not-allowed') await none;
      return code;
    },
  };
  /** Written out here, so that a change of who may do what is a change of two places. */
  const MAY: Readonly<Record<Role, readonly Verb[]>> = {
    owner: VERBS,
    bookkeeper: [
      'read',
      'record-load',
      'take-sample',
      'record-result',
      'record-quote',
      'record-election',
      'record-choice',
      'settle',
      'keep-scale',
    ],
    'scale-operator': ['read', 'record-load', 'take-sample'],
    viewer: ['read'],
  };
  test.each(ROLES.flatMap((role) => VERBS.map((verb) => [role, verb] as const)))(
    '%s: %s',
    async (role, verb) => {
      const asked = ASK[verb](as(seller.caller, role));
      if (MAY[role].includes(verb)) await expect(asked).resolves.toBeDefined();
      else expect(await refused(asked)).toBe('not-allowed');
    },
  );

  test.each(VERBS.filter((verb) => !['invite', 'keep-token', 'end-membership'].includes(verb)))(
    'a stranger finds nothing: %s',
    async (verb) => {
      expect(await refused(ASK[verb](stranger))).toBe(
        verb === 'record-agreement' ? 'not-yours' : 'not-found',
      );
    },
  );

  test('a stranger’s lists are empty, and ids that are none are not found', async () => {
    expect(await readAgreementList(stranger, { locale: 'en-US' })).toEqual([]);
    expect(await readWaiting(stranger)).toEqual([]);
    expect((await readLoadList(stranger, { status: 'all', locale: 'en-US' })).loads).toEqual([]);
    const { loads } = await readLoadList(seller, { status: 'all', locale: 'en-US' });
    const loadId = loads[0]?.id ?? '';
    expect(await refused(readLoad(stranger, { loadId, locale: 'en-US' }))).toBe('not-found');
    for (const odd of ['', 'x', "'; DROP TABLE load; --", '0198'])
      expect(await refused(readLoad(seller, { loadId: odd, locale: 'en-US' }))).toBe('not-found');
  });
});
