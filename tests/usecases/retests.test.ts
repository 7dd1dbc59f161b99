/**
 * Questions about results and weights, from asking to the money: on the real engine, with the clock passed in.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { answerFigure } from '../../src/usecases/retests/answer-figure.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';
import { type RetestWorld, retestWorld } from './retest-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const REFEREE = {
  askWithinDays: '10',
  keptDays: '60',
  referee: 'Bell Reach Referees',
  testWithinDays: '14',
  fee: 'asker-unless-moved',
  measures: {
    starch: { method: 'referee-stands', tolerance: '1.0' },
    weight: { method: 'second-scale' },
  },
};

const clean = async () => expect((await verifyRecord(record.tools)).faults).toEqual([]);

/** Each document with what it comes to, what is open of it and held, oldest first. */
async function documents({ agreementId }: RetestWorld): Promise<readonly string[]> {
  const client = await record.superuser();
  const { rows } = await client.query<{ kind: string; payable: string; held: string }>(
    `SELECT kind, payable::text, coalesce((SELECT sum(amount) FROM hold h WHERE h.agreement_id = d.agreement_id
       AND h.document_id = d.id AND NOT EXISTS (SELECT FROM hold_end e WHERE e.agreement_id = h.agreement_id AND e.hold_id = h.id)), 0)::text AS held
     FROM money_document d WHERE agreement_id = $1 ORDER BY serial`,
    [agreementId],
  );
  await client.end();
  return rows.map(({ kind, payable, held }) =>
    held === '0' ? `${kind} ${payable}` : `${kind} ${payable} held ${held}`,
  );
}

async function ending({ agreementId }: RetestWorld) {
  const client = await record.superuser();
  const { rows } = await client.query(
    `SELECT ending, because, value::text, seller_bears::text AS seller, buyer_bears::text AS buyer, changed::text
     FROM retest_ending WHERE agreement_id = $1 ORDER BY recorded_at`,
    [agreementId],
  );
  await client.end();
  return rows;
}

/** 60 and 40 short tons by one sample: 50 of dry matter at 54.0 come to 2,700.00. */
const LOADS = { T1: '60', T2: '40' };

describe('a question about a result', () => {
  test('after payment the referee moves the figure: new settlements, a credit note, and the seller bears the test', async () => {
    const world = await retestWorld(record, { retest: REFEREE });
    const { seller, buyer, agreementId } = world;
    const { sampleId, parts } = await world.deliver({ sample: 'S1', loads: LOADS });
    await world.invoice();
    await recordPayment(seller, {
      agreementId,
      direction: 'received',
      payment: { amount: '2700', paid_on: '2026-10-01', method: 'check', reference: '17' },
      confirmed: true,
    });
    world.at('2026-10-05');
    const asked = { agreementId, about: 'starch', claims: { [sampleId]: '52.0' }, reason: 'Our own test' };
    const { retestIds } = await askRetest(buyer, asked);
    const [retestId = ''] = retestIds;
    expect(await documents(world)).toEqual(['invoice 2700.00']);
    expect(await refused(askRetest(seller, { ...asked, claims: { [sampleId]: '55' } }))).toBe('retest-open');
    world.at('2026-10-09');
    const figure = { tester: 'referee', value: '52.40', part: parts['referee'] ?? '' };
    const { figureId } = await world.report(buyer, { retestId, figure });
    expect(await refused(answerFigure(buyer, { figureId: figureId ?? '', answer: 'confirm' }))).toBe(
      'not-yours',
    );
    expect(await answerFigure(seller, { figureId: figureId ?? '', answer: 'confirm' })).toEqual({
      isDecided: true,
    });
    // 1.60 points less on 50 short tons of dry matter; the buyer paid 45 for the test that went its way.
    expect(await documents(world)).toEqual(['invoice 2700.00', 'credit-note -80.00', 'credit-note -45.00']);
    expect(await ending(world)).toEqual([
      {
        ending: 'decided',
        because: 'referee-moved-it',
        value: '52.40',
        seller: '45.00',
        buyer: '0.00',
        changed: '-80.00',
      },
    ]);
    await clean();
  });

  test('within the tolerance the first figure stands, what was held is due, and the asker bears the test', async () => {
    const world = await retestWorld(record, { retest: REFEREE });
    const { seller, buyer, agreementId } = world;
    const { sampleId, parts } = await world.deliver({ sample: 'S1', loads: LOADS });
    await world.invoice();
    const { retestIds } = await askRetest(buyer, {
      agreementId,
      about: 'starch',
      claims: { [sampleId]: '52.0' },
      reason: 'Our own test',
    });
    expect(await documents(world)).toEqual(['invoice 2700.00 held 100.00']);
    const figure = { tester: 'referee', value: '53.0', part: parts['referee'] ?? '', paid_by: 'seller' };
    const { figureId } = await world.report(seller, { retestId: retestIds[0] ?? '', figure });
    await answerFigure(buyer, { figureId: figureId ?? '', answer: 'confirm' });
    expect(await documents(world)).toEqual(['invoice 2700.00', 'fee 45.00']);
    expect(await ending(world)).toMatchObject([{ because: 'first-stands', value: '54.0', buyer: '45.00' }]);
    await clean();
  });

  test('what is invoiced after the question was asked is held as well', async () => {
    const world = await retestWorld(record, { retest: REFEREE });
    const { sampleId } = await world.deliver({ sample: 'S1', loads: LOADS });
    await askRetest(world.buyer, {
      agreementId: world.agreementId,
      about: 'starch',
      claims: { [sampleId]: '52.0' },
      reason: 'Our own test',
    });
    await world.invoice();
    expect(await documents(world)).toEqual(['invoice 2700.00 held 100.00']);
    await clean();
  });
});
