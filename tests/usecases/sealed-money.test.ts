/**
 * The money of a sealed season as its pages read it: nothing to issue, and a balance that says where it is to go, or went.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readDocument } from '../../src/usecases/money/read-document.ts';
import { readIssue } from '../../src/usecases/money/read-issue.ts';
import { readMoney } from '../../src/usecases/money/read-money.ts';
import { readPayments } from '../../src/usecases/money/read-payments.ts';
import { bringForward } from '../../src/usecases/season-close/bring-forward.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const next = async ({ seller, buyer }: MoneyWorld): Promise<MoneyWorld> =>
  await moneyWorld(record, { parties: { seller: seller.caller, buyer: buyer.caller } });

const balances = async ({ seller, agreementId }: MoneyWorld) => {
  const { waits, partners } = await readMoney(seller, { locale: 'en-US' });
  const agreements = partners.flatMap((partner) => partner.agreements);
  return {
    waits: waits.flatMap(({ kind, words, path }) => (kind === 'bring-forward' ? [{ words, path }] : [])),
    carriedInto: agreements.find(({ id }) => id === agreementId)?.carriedInto,
  };
};

test('nothing is issued, and its balance goes into the one open agreement, or into one of several', async () => {
  const past = await moneyWorld(record, {
    conditions: {
      payment: {
        ...{ netDays: '1', from: 'invoice', invoices: 'day' },
        interest: { percentPerYear: '12', dayCount: 'actual/365' },
      },
    },
  });
  const { agreementId, seller, buyer } = past;
  past.on('2026-11-01');
  await past.deliver({ T1: '10' }, '2026-10-20');
  const { documents } = await past.invoice();
  past.on('2026-11-25');
  const open = await readIssue(seller, { agreementId });
  expect(open.isSealed).toBe(false);
  expect(Number(open.interest?.amount)).toBeGreaterThan(0);
  const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });

  expect(await readIssue(seller, { agreementId })).toMatchObject({ isSealed: true, interest: null });
  expect((await readPayments(buyer, { agreementId })).isSealed).toBe(true);
  expect((await readDocument(buyer, { documentId: documents[0]?.id ?? '' })).isSealed).toBe(true);

  expect(await balances(past)).toEqual({ waits: [], carriedInto: null });
  const one = await next(past);
  const numberOf = async (world: MoneyWorld) =>
    (await readIssue(world.seller, { agreementId: world.agreementId })).agreement;
  const owed = `The season of agreement ${await numberOf(past)} is sealed, and ${(await readIssue(seller, { agreementId })).partner} owes 1,000.00 USD of it.`;
  expect(await balances(past)).toEqual({
    waits: [
      {
        words: `${owed} Bring that forward into agreement ${await numberOf(one)}.`,
        path: `/agreements/${one.agreementId}/past-seasons`,
      },
    ],
    carriedInto: null,
  });
  const other = await next(past);
  expect(await balances(past)).toEqual({
    waits: [
      {
        words: `${owed} Bring that forward into one of your open agreements.`,
        path: `/agreements/${agreementId}/season-close`,
      },
    ],
    carriedInto: null,
  });
  await bringForward(seller, { agreementId: other.agreementId, ofAgreementId: agreementId });
  expect(await balances(past)).toEqual({ waits: [], carriedInto: await numberOf(other) });
});
