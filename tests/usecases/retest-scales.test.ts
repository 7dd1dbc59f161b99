/**
 * Whose scale may weigh a questioned load a second time.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { recordScale } from '../../src/usecases/scales/keep-scale.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';
import { retestWorld } from './retest-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const RETEST = { askWithinDays: '10', fee: 'split', measures: { weight: { method: 'second-scale' } } };

async function newScale(owner: Context, name: string): Promise<string> {
  const { scaleId } = await recordScale(owner, {
    scale: {
      ...{ name, place: 'North gate', unit: 'lb', capacity: '200000', division: '20' },
      ...{ accuracy_class: 'III L', legal_for_trade: 'yes' },
    },
  });
  return scaleId;
}

test('a third party’s scale weighs nothing a second time: the other side cannot see what it is held to', async () => {
  const world = await retestWorld(record, { retest: RETEST });
  const { seller, buyer, agreementId } = world;
  // The buyer sees this grower’s scales by an agreement of their own; the seller does not.
  const grower = (await retestWorld(record, { retest: RETEST })).seller;
  await retestWorld(record, { retest: RETEST, parties: { seller: grower.caller, buyer: buyer.caller } });
  const scale = await newScale(seller, 'Yard scale');
  const { loadIds } = await world.deliver({ sample: 'S1', loads: { T1: '60' }, scale });
  const claims = { [loadIds[0] ?? '']: '119000' };
  const asked = await askRetest(buyer, { agreementId, about: 'weight', claims, reason: 'Ours' });
  const [retestId = ''] = asked.retestIds;
  const report = async (second: string, gross: string) => {
    const figure = { tester: 'second-scale', scale: second, gross, tare: '30000' };
    return await refused(world.report(buyer, { retestId, figure }));
  };
  const theirs = await newScale(grower, 'Silo scale');
  // Also where it shows the very weight that is questioned.
  for (const gross of ['149400', '150000']) expect(await report(theirs, gross)).toBe('bad-input');
  expect(await report(await newScale(buyer, 'Dairy scale'), '150000')).toBe('done');
});
