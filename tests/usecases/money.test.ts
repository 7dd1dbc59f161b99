/**
 * Money from invoice to payment: numbers, due dates, advances, payments, bounces, interest, holds, set-offs and liens, each
 * with its figures worked by hand.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { answerCorrection, proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { answerSetOff, proposeSetOff } from '../../src/usecases/money/agree-set-off.ts';
import { answerPayment } from '../../src/usecases/money/answer-payment.ts';
import { chargeInterest } from '../../src/usecases/money/charge-interest.ts';
import { holdAmount, releaseHold } from '../../src/usecases/money/hold-amount.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { endLien, recordLien } from '../../src/usecases/money/keep-liens.ts';
import { moneyFrame } from '../../src/usecases/money/money-frame.ts';
import { readStatements } from '../../src/usecases/money/read-statement.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { reversePayment } from '../../src/usecases/money/reverse-payment.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(async () => {
  // Whatever the tests did, the books hold.
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

const PAYMENT = { netDays: '10', from: 'invoice', invoices: 'day' };

/** Every document as "kind number open held", and the money on account. */
async function standing({ seller, agreementId }: MoneyWorld): Promise<readonly string[]> {
  return await record.tools.store.forParty(seller.caller.partyId, async (tx) => {
    const { standing: money, print } = await moneyFrame(tx, seller, agreementId);
    const documents = money.documents.map(
      ({ kind, serial, open, held }) =>
        `${kind} ${serial} ${print(open)}${held > 0n ? ` held ${print(held)}` : ''}`,
    );
    return [...documents, `on account ${print(money.onAccount)}`];
  });
}

async function pay(world: MoneyWorld, amount: string, more: Record<string, string> = {}): Promise<string> {
  const { paymentId } = await recordPayment(world.buyer, {
    agreementId: world.agreementId,
    direction: 'paid',
    payment: { amount, paid_on: '2026-11-25', method: 'check', reference: '1043', ...more },
    confirmed: true,
  });
  await answerPayment(world.seller, { paymentId, answer: 'confirmed' });
  return paymentId;
}

describe('invoices', () => {
  test('are issued for the periods that are over, and once', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    await world.deliver({ T1: '10', T2: '12' }, '2026-11-23');
    await world.deliver({ T3: '11' }, '2026-11-25');
    const issued = await issueInvoices(world.seller, { agreementId: world.agreementId });
    expect(issued.documents).toMatchObject([{ number: '1', kind: 'invoice', payable: '2200.00' }]);
    expect(issued.waiting).toBe(1);
    const again = await issueInvoices(world.seller, { agreementId: world.agreementId });
    expect(again.documents).toEqual([]);
    await world.invoice();
    expect(await standing(world)).toEqual(['invoice 1 2200.00', 'invoice 2 1100.00', 'on account 0.00']);
  });

  test('are numbered without a gap for each seller, however many are issued at once', async () => {
    const one = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    const parties = { seller: one.seller.caller, buyer: one.buyer.caller };
    const two = await moneyWorld(record, { conditions: { payment: PAYMENT }, parties });
    for (const day of ['20', '21', '22', '23']) {
      await one.deliver({ [`A${day}`]: '10' }, `2026-11-${day}`);
      await two.deliver({ [`B${day}`]: '10' }, `2026-11-${day}`);
    }
    const issued = await Promise.all([one, two, one, two].map((world) => world.invoice()));
    const numbers = issued.flatMap(({ documents }) => documents.map(({ number }) => Number(number)));
    expect(numbers.toSorted((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  test('are the seller’s to issue, or the buyer’s where they agreed on that', async () => {
    const world = await moneyWorld(record, { conditions: { payment: { ...PAYMENT, issuedBy: 'buyer' } } });
    await world.deliver({ T1: '10' }, '2026-11-23');
    expect(await refused(issueInvoices(world.seller, { agreementId: world.agreementId }))).toBe('not-yours');
    const { documents } = await issueInvoices(world.buyer, { agreementId: world.agreementId });
    expect(documents).toHaveLength(1);
  });

  test('take the agreed deductions off, load by load', async () => {
    const deductions = [
      { label: 'Drying', rate: '2.125', per: 'short-ton', weight: 'as-fed' },
      {
        label: 'Corn assessment',
        rate: '0.04',
        per: 'bushel',
        poundsPerBushel: '56',
        weight: 'as-fed',
        payee: 'Corn board',
      },
      { label: 'Storage', rate: '0.5', per: 'percent' },
    ];
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT, deductions } });
    await world.deliver({ T1: '10' }, '2026-11-23');
    const { documents } = await world.invoice();
    // 1,000.00 − 21.25 − 20,000 ÷ 56 × 0.04 = 14.2857… → 14.29 − 5.00
    expect(documents).toMatchObject([{ payable: '959.46' }]);
  });
});

describe('payments', () => {
  test('count once the payee confirms, the oldest invoice first, and the rest stays on account', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    await world.deliver({ T1: '10' }, '2026-11-22');
    await world.deliver({ T2: '12' }, '2026-11-23');
    await world.invoice();
    const payment = { amount: '1500', paid_on: '2026-11-25', method: 'check' };
    const { paymentId, counts } = await recordPayment(world.buyer, {
      agreementId: world.agreementId,
      direction: 'paid',
      payment,
    });
    expect(counts).toBe(false);
    expect(await standing(world)).toEqual(['invoice 1 1000.00', 'invoice 2 1200.00', 'on account 0.00']);
    expect(await refused(answerPayment(world.buyer, { paymentId, answer: 'confirmed' }))).toBe('not-yours');
    await answerPayment(world.seller, { paymentId, answer: 'confirmed' });
    expect(await standing(world)).toEqual(['invoice 1 0.00', 'invoice 2 700.00', 'on account 0.00']);
    await pay(world, '800');
    expect(await standing(world)).toEqual(['invoice 1 0.00', 'invoice 2 0.00', 'on account 100.00']);
  });

  test('above what is due are asked about before they are recorded', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    const payment = { amount: '50', paid_on: '2026-11-25', method: 'cash' };
    const asked = { agreementId: world.agreementId, direction: 'paid', payment } as const;
    expect(await refused(recordPayment(world.buyer, asked))).toBe('unusual');
  });

  test('in proportion lose no cent', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    for (const day of ['21', '22', '23']) await world.deliver({ [`T${day}`]: '10' }, `2026-11-${day}`);
    await world.invoice();
    await pay(world, '100', { spread: 'in-proportion' });
    expect(await standing(world)).toEqual([
      'invoice 1 966.66',
      'invoice 2 966.67',
      'invoice 3 966.67',
      'on account 0.00',
    ]);
  });

  test('name each document once in their parts', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    await world.deliver({ T1: '10' }, '2026-11-22');
    const { documents } = await world.invoice();
    const part = { documentId: documents[0]?.id ?? '', amount: '600' };
    const payment = { amount: '1200', paid_on: '2026-11-25', method: 'check', spread: 'as-said' };
    const asked = {
      agreementId: world.agreementId,
      direction: 'received',
      payment,
      confirmed: true,
    } as const;
    expect(await refused(recordPayment(world.seller, { ...asked, parts: [part, part] }))).toBe('bad-input');
    expect(await refused(recordPayment(world.seller, { ...asked, parts: [part] }))).toBe('done');
    expect(await standing(world)).toEqual(['invoice 1 400.00', 'on account 600.00']);
  });

  test('in time earn the agreed discount, and a day later none', async () => {
    const discount = { percent: '2', withinDays: '5' };
    const world = await moneyWorld(record, { conditions: { payment: { ...PAYMENT, discount } } });
    await world.deliver({ T1: '10' }, '2026-11-22');
    await world.deliver({ T2: '10' }, '2026-11-23');
    await world.invoice();
    world.on('2026-11-30');
    await pay(world, '980', { paid_on: '2026-11-30' });
    expect(await standing(world)).toEqual(['invoice 1 0.00', 'invoice 2 1000.00', 'on account 0.00']);
    world.on('2026-12-01');
    await pay(world, '980', { paid_on: '2026-12-01' });
    expect(await standing(world)).toEqual(['invoice 1 0.00', 'invoice 2 20.00', 'on account 0.00']);
  });

  test('that the bank gives back are open again, with the agreed fee', async () => {
    const world = await moneyWorld(record, {
      conditions: { payment: { ...PAYMENT, returnedPaymentFee: '25' } },
    });
    await world.deliver({ T1: '10' }, '2026-11-22');
    await world.invoice();
    const paymentId = await pay(world, '1100');
    expect(await standing(world)).toEqual(['invoice 1 0.00', 'on account 100.00']);
    const back = { paymentId, reversedOn: '2026-11-25', reason: 'no funds' };
    expect(await refused(reversePayment(world.buyer, back))).toBe('not-yours');
    expect(await reversePayment(world.seller, back)).toEqual({ fee: '2' });
    expect(await standing(world)).toEqual(['invoice 1 1000.00', 'fee 2 25.00', 'on account 0.00']);
    expect(await refused(reversePayment(world.seller, back))).toBe('ended-already');
    // Both were recorded at one moment; what came back is told before what it costs.
    const [statement] = await readStatements(world.seller, { partnerId: world.buyer.caller.partyId });
    expect(statement?.entries.map(({ name, balance }) => `${name}: ${balance}`)).toEqual([
      'Invoice 1: 1000.00',
      'Check 1043: -100.00',
      'Check 1043 taken back: 1000.00',
      'Fee invoice 2: 1025.00',
    ]);
  });

  test('that the payee received count at once; money back is at most what is on account', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    const { agreementId } = world;
    const received = { amount: '70', paid_on: '2026-11-25', method: 'cash' };
    const { counts } = await recordPayment(world.seller, {
      agreementId,
      direction: 'received',
      payment: received,
      confirmed: true,
    });
    expect(counts).toBe(true);
    expect(await standing(world)).toEqual(['on account 70.00']);
    const back = { direction: 'paid', payment: { ...received, amount: '71' } } as const;
    expect(await refused(recordPayment(world.seller, { agreementId, ...back }))).toBe('bad-input');
    const { paymentId } = await recordPayment(world.seller, {
      agreementId,
      ...back,
      payment: { ...received, amount: '70' },
    });
    await answerPayment(world.buyer, { paymentId, answer: 'confirmed' });
    expect(await standing(world)).toEqual(['on account 0.00']);
  });
});

describe('what is late', () => {
  test('bears simple interest from the day after it was due, once', async () => {
    const interest = { percentPerYear: '6.5', dayCount: 'actual/360' };
    const world = await moneyWorld(record, { conditions: { payment: { ...PAYMENT, interest } } });
    await world.deliver({ T1: '15' }, '2026-11-22');
    await world.invoice();
    // Due on 5 December; 1,500.00 × 10 ÷ 360 × 6.5 % = 2.7083 (5 CFR 1315.17).
    world.on('2026-12-15');
    const charged = await chargeInterest(world.seller, {
      agreementId: world.agreementId,
      through: '2026-12-15',
    });
    expect(charged.document).toMatchObject({ kind: 'interest', payable: '2.71' });
    const again = await chargeInterest(world.seller, {
      agreementId: world.agreementId,
      through: '2026-12-15',
    });
    expect(again.document).toBeNull();
    // 5 days more on all of it, less the 2.71: 1,500.00 × 15 ÷ 360 × 6.5 % = 4.0625 → 4.06.
    world.on('2026-12-20');
    const more = await chargeInterest(world.seller, {
      agreementId: world.agreementId,
      through: '2026-12-20',
    });
    expect(more.document).toMatchObject({ kind: 'interest', payable: '1.35' });
  });
});

describe('what was questioned and then credited', () => {
  test('bears no interest, and is taken off what does once', async () => {
    const interest = { percentPerYear: '12', dayCount: 'actual/365' };
    const world = await moneyWorld(record, { conditions: { payment: { ...PAYMENT, interest } } });
    const { agreementId } = world;
    const [loadId = ''] = await world.deliver({ T1: '10' }, '2026-11-22');
    await world.invoice();
    world.on('2026-12-10');
    const figures = {
      ...{ ticket: 'T1', delivered_at: '2026-11-22T09:00:00-06:00' },
      ...{ gross: '49000', tare: '30000', unit: 'lb' },
    };
    const asked = { agreementId, subject: 'load', subjectId: loadId, figures, reason: 'Misread' } as const;
    const { correctionId } = await proposeCorrection(world.buyer, { ...asked, confirmed: true });
    world.on('2026-12-20');
    await answerCorrection(world.seller, { correctionId, answer: 'confirmed' });
    world.on('2026-12-25');
    // Due on 5 December; 950.00 × 20 ÷ 365 × 12 % = 6.2465… also for the ten days in which 50.00 was held.
    const { document } = await chargeInterest(world.seller, { agreementId, through: '2026-12-25' });
    expect(document).toMatchObject({ kind: 'interest', payable: '6.25' });
  });
});

describe('a questioned load', () => {
  test('stays due as far as nobody questions it: 6,120.00 of 6,388.40', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    const [loadId] = await world.deliver({ T1: '63.884' }, '2026-11-22');
    const { documents } = await world.invoice();
    const documentId = documents[0]?.id ?? '';
    const { held, holdId } = await holdAmount(world.buyer, {
      documentId,
      loadId: loadId ?? '',
      figure: '6120.00',
      reason: 'Our scale shows less',
    });
    // Iowa Code 203.8(2)(b): the undisputed part stays due.
    expect(held).toBe('268.40');
    expect(await standing(world)).toEqual(['invoice 1 6388.40 held 268.40', 'on account 0.00']);
    await pay(world, '6388.40');
    expect(await standing(world)).toEqual(['invoice 1 268.40 held 268.40', 'on account 268.40']);
    expect(await refused(releaseHold(world.seller, { holdId }))).toBe('not-yours');
    await releaseHold(world.buyer, { holdId });
    expect(await standing(world)).toEqual(['invoice 1 268.40', 'on account 268.40']);
    const setOff = await proposeSetOff(world.buyer, {
      agreementId: world.agreementId,
      amount: '268.40',
      reason: 'For invoice 1',
    });
    expect(await refused(answerSetOff(world.buyer, { ...setOff, answer: 'confirmed' }))).toBe('not-yours');
    await answerSetOff(world.seller, { ...setOff, answer: 'confirmed' });
    expect(await standing(world)).toEqual(['invoice 1 0.00', 'on account 0.00']);
  });

  test('whose correction is open is held by the difference, and a credit note follows when it is confirmed', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    const { agreementId } = world;
    const [loadId = ''] = await world.deliver({ T1: '10', T2: '10' }, '2026-11-22');
    await world.invoice();
    const figures = {
      ticket: 'T1',
      delivered_at: '2026-11-22T09:00:00-06:00',
      gross: '49000',
      tare: '30000',
      unit: 'lb',
    };
    const proposed = {
      agreementId,
      subject: 'load',
      subjectId: loadId,
      figures,
      reason: 'Misread',
      confirmed: true,
    } as const;
    const { correctionId } = await proposeCorrection(world.buyer, proposed);
    expect(await standing(world)).toEqual(['invoice 1 2000.00 held 50.00', 'on account 0.00']);
    await answerCorrection(world.seller, { correctionId, answer: 'confirmed' });
    expect(await standing(world)).toEqual(['invoice 1 1950.00', 'credit-note 2 0.00', 'on account 0.00']);
    await pay(world, '1950');
    // After payment, what is put right stays on account.
    const later = { ...proposed, figures: { ...figures, gross: '48000' }, reason: 'Misread again' };
    const second = await proposeCorrection(world.buyer, later);
    await answerCorrection(world.seller, { ...second, answer: 'confirmed' });
    expect(await standing(world)).toEqual([
      'invoice 1 0.00',
      'credit-note 2 0.00',
      'credit-note 3 0.00',
      'on account 50.00',
    ]);
    const upward = { ...proposed, figures: { ...figures, gross: '50000' }, reason: 'Right at first' };
    const third = await proposeCorrection(world.seller, upward);
    await answerCorrection(world.buyer, { ...third, answer: 'confirmed' });
    expect((await standing(world)).at(-2)).toBe('debit-note 4 100.00');
  });

  test('holds what the note will take off, which deductions make less', async () => {
    const deductions = [{ label: 'Storage', rate: '2', per: 'percent' }];
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT, deductions } });
    const { agreementId } = world;
    const [subjectId = ''] = await world.deliver({ T1: '10' }, '2026-11-22');
    await world.invoice();
    const delivered_at = '2026-11-22T09:00:00-06:00';
    const figures = { ticket: 'T1', delivered_at, gross: '49000', tare: '30000', unit: 'lb' };
    const { correctionId } = await proposeCorrection(world.buyer, {
      agreementId,
      subject: 'load',
      subjectId,
      figures,
      reason: 'Misread',
      confirmed: true,
    });
    // 1,000.00 less 20.00; half a ton less is 50.00 less 1.00.
    expect(await standing(world)).toEqual(['invoice 1 980.00 held 49.00', 'on account 0.00']);
    await answerCorrection(world.seller, { correctionId, answer: 'confirmed' });
    expect(await standing(world)).toEqual(['invoice 1 931.00', 'credit-note 2 0.00', 'on account 0.00']);
  });
});

describe('a lender with a lien', () => {
  const NOTICE = {
    lender: 'Fallow Creek Credit',
    debtor: 'Quillback Acres',
    crop_year: '2026',
    county: 'Larkspur',
    conditions: 'Checks to both',
    received_on: '2026-11-20',
  };

  test('is named on payments until the buyer records that the lien is over; paying past it asks and records', async () => {
    const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
    const { agreementId } = world;
    await world.deliver({ T1: '10' }, '2026-11-22');
    await world.invoice();
    const { lienId } = await recordLien(world.seller, { agreementId, notice: NOTICE });
    const payment = { amount: '500', paid_on: '2026-11-25', method: 'check' };
    const asked = { agreementId, direction: 'paid', payment } as const;
    expect(await refused(recordPayment(world.buyer, asked))).toBe('unusual');
    expect(await refused(recordPayment(world.buyer, { ...asked, confirmed: true }))).toBe('bad-input');
    const jointly = { ...asked, payment: { ...payment, made_out_to: 'jointly' } };
    expect(await refused(recordPayment(world.buyer, jointly))).toBe('done');
    const past = { ...payment, past_lien: 'Released by telephone', reference: '2' };
    expect(await refused(recordPayment(world.buyer, { ...asked, payment: past, confirmed: true }))).toBe(
      'done',
    );
    const end = { lienId, endedOn: '2026-11-25', reason: 'Release of 24 November' };
    expect(await refused(endLien(world.seller, end))).toBe('not-yours');
    await endLien(world.buyer, end);
    expect(
      await refused(recordPayment(world.buyer, { ...asked, payment: { ...payment, amount: '1' } })),
    ).toBe('done');
  });
});

test('whoever weighs or only looks on changes no money', async () => {
  const world = await moneyWorld(record, { conditions: { payment: PAYMENT } });
  const { agreementId } = world;
  const asked: readonly ((context: typeof world.seller) => Promise<unknown>)[] = [
    (context) => issueInvoices(context, { agreementId }),
    (context) => recordPayment(context, { agreementId, direction: 'paid', payment: {} }),
    (context) => holdAmount(context, { documentId: agreementId, figure: '0', reason: 'x' }),
    (context) => recordLien(context, { agreementId, notice: {} }),
  ];
  for (const role of ['scale-operator', 'viewer'] as const) {
    const context = { ...world.seller, caller: { ...world.seller.caller, role } };
    for (const ask of asked) expect(await refused(ask(context))).toBe('not-allowed');
  }
});
