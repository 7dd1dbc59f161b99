/**
 * Random sequences of every verb about money, by both parties: the record stays what a small model of it in memory says,
 * to the cent and after every verb, and refuses what the model refuses. A failing seed is in the message.
 * More of it: `HUSKLEDGER_TEST_VERBS=3000 npx vitest run tests/usecases/random-money.test.ts`, and from another seed on
 * with `HUSKLEDGER_TEST_SEED`.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readAgreementBalances } from '../../src/store/rows/journal-rows.ts';
import type { Context } from '../../src/usecases/context.ts';
import { moneyFrame } from '../../src/usecases/money/money-frame.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { type Chance, chanceFrom } from '../oracle/random.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type ModelTerms, MoneyModel, type Side } from './money-model.ts';
import { drawVerb, VERB_NAMES } from './money-verbs.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';

const IN_ONE = 80;
const VERBS = Number(process.env['HUSKLEDGER_TEST_VERBS'] ?? 240);
const FIRST_SEED = Number(process.env['HUSKLEDGER_TEST_SEED'] ?? 9);
const SEEDS = Array.from({ length: Math.ceil(VERBS / IN_ONE) }, (_, index) => FIRST_SEED + index);
const FIRST_DAY = '2026-11-25';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

/** How often each verb was done, and refused with which code. */
const met = new Map<string, number>();
const meet = (what: string) => met.set(what, (met.get(what) ?? 0) + 1);

test.each(SEEDS)(
  'seed %i',
  async (seed) => {
    const chance = chanceFrom(seed);
    const terms = drawTerms(chance);
    const world = await moneyWorld(record, agreed(terms));
    const model = new MoneyModel(terms, FIRST_DAY);
    const drawing = { chance, model, agreementId: world.agreementId, goTo: world.on };
    for (let place = 1; place <= IN_ONE; place++) {
      const verb = drawVerb(drawing, place);
      const { side } = verb;
      const context = world[side];
      const where = `seed ${seed}, verb ${place}: ${verb.name} by the ${side}`;
      const answer = await told(verb.run(context, `${seed}-${place}`));
      const expected = verb.expect(side);
      expect(answer.refused, where).toBe(expected);
      meet(answer.refused === undefined ? verb.name : `${verb.name} ${answer.refused}`);
      if (answer.refused === undefined) {
        verb.keep?.(answer.done as never);
        // The same request again is answered alike and changes nothing.
        if (chance.happens(0.15)) {
          expect(await told(verb.run(context, `${seed}-${place}`)), where).toEqual(answer);
        }
      }
      await compare(world, model, where);
    }
    expect((await verifyRecord(record.tools)).faults, `seed ${seed}`).toEqual([]);
  },
  300_000,
);

test('the sequences do every verb, and have many refused', () => {
  const counts = [...met].map(([what, count]) => `${what}: ${count}`).sort();
  if (VERBS > 240) process.stdout.write(`${counts.join('\n')}\n`);
  expect(VERB_NAMES.filter((name) => !met.has(name))).toEqual([]);
  const refusals = [...met.keys()].filter((what) => what.includes(' '));
  expect(refusals.length).toBeGreaterThan(15);
});

async function told(work: Promise<unknown>): Promise<{ done?: unknown; refused?: string }> {
  try {
    return { done: await work };
  } catch (error) {
    if (error instanceof Refusal) return { refused: error.code };
    throw error;
  }
}

function drawTerms(chance: Chance): ModelTerms {
  return {
    invoices: chance.happens(0.75) ? chance.pick(['load', 'day', 'week']) : undefined,
    netDays: chance.pick([0, 5, 10]),
    from: chance.pick(['invoice', 'delivery', 'settlement']),
    issuedBy: chance.pick<Side>(['seller', 'seller', 'buyer']),
    discount: chance.happens(0.6) ? { percent: 2n, withinDays: chance.integer(0, 8) } : undefined,
    fee: chance.happens(0.6) ? 2500n : undefined,
    interest: chance.happens(0.7) ? 12n : undefined,
    isAdvanced: chance.happens(0.7),
    isDeducted: chance.happens(0.5),
  };
}

/** The same terms as an agreement file says them. */
function agreed(terms: ModelTerms): { readonly conditions: object; readonly terms: object } {
  const { invoices, netDays, from, issuedBy, discount, fee, interest, isAdvanced, isDeducted } = terms;
  const payment = {
    ...{ netDays: String(netDays), from, issuedBy },
    ...(invoices === undefined ? {} : { invoices }),
    ...(discount && { discount: { percent: '2', withinDays: String(discount.withinDays) } }),
    ...(fee === undefined ? {} : { returnedPaymentFee: '25' }),
    ...(interest === undefined
      ? {}
      : { interest: { percentPerYear: String(interest), dayCount: 'actual/365' } }),
  };
  const deductions = [
    { label: 'Drying', rate: '2.125', per: 'short-ton', weight: 'as-fed' },
    { label: 'Storage', rate: '0.5', per: 'percent' },
  ];
  return {
    conditions: {
      payment,
      ...(isAdvanced ? { advance: { sharePercent: '80', rate: '90', per: 'short-ton' } } : {}),
      ...(isDeducted ? { deductions } : {}),
    },
    terms: { price: [{ term: 'flat', label: 'Feed', rate: '200', per: 'short-ton', weight: 'dry-matter' }] },
  };
}

/** Holds what is recorded against the model, and takes over the ids of what was written along the way. */
async function compare({ seller, agreementId }: MoneyWorld, model: MoneyModel, where: string): Promise<void> {
  const { frame, balances } = await readMoney(seller, agreementId);
  const { standing, rows } = frame;
  const found = standing.documents.map(({ kind, serial, issuedOn, dueOn, payable, open, held }) =>
    [serial, kind, issuedOn, dueOn, payable, open, held].join(' '),
  );
  const expected = model.documents.map((document) => {
    const { serial, kind, issuedOn, dueOn, payable } = document;
    return [serial, kind, issuedOn, dueOn, payable, model.open(document), model.held(document)].join(' ');
  });
  expect(found, where).toEqual(expected);
  expect(standing.onAccount, where).toBe(model.onAccount());
  const open = standing.documents.reduce((sum, document) => sum + document.open, 0n);
  expect(standing.balance, where).toBe(open - model.onAccount());
  for (const document of standing.documents) {
    expect(document.open >= 0n && document.open >= document.held, where).toBe(true);
  }
  const stood = new Map(
    balances.filter(({ unit }) => unit === 'USD').map(({ account, balance }) => [account, cents(balance)]),
  );
  expect(
    [...stood.values()].reduce((sum, amount) => sum + amount, 0n),
    where,
  ).toBe(0n);
  for (const [account, amount] of Object.entries(model.accounts())) {
    expect(stood.get(account) ?? 0n, `${where}, account ${account}`).toBe(amount);
    stood.delete(account);
  }
  expect([...stood.keys()], where).toEqual([]);
  for (const [index, { id }] of standing.documents.entries()) {
    const document = model.documents[index];
    if (document) document.id = id;
  }
  expect(rows.holds.length, where).toBe(model.holds.length);
  for (const [index, { id }] of rows.holds.entries()) {
    const hold = model.holds[index];
    if (hold) hold.id = id;
  }
}

async function readMoney(context: Context, agreementId: string) {
  return await record.store.forParty(context.caller.partyId, async (tx) => ({
    frame: await moneyFrame(tx, context, agreementId),
    balances: await readAgreementBalances(tx, agreementId),
  }));
}

function cents(amount: string): bigint {
  const [whole = '', part = ''] = amount.replace('-', '').split('.');
  const units = BigInt(whole + part.padEnd(2, '0'));
  return amount.startsWith('-') ? -units : units;
}
