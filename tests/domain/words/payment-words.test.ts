/**
 * Terms of payment, advances and deductions in words, with the names of the parties and the cautions that belong there.
 */
import { describe, expect, test } from 'vitest';
import { type Conditions, checkConditions } from '../../../src/domain/agreement/conditions.ts';
import { conditionsInWords } from '../../../src/domain/words/conditions-words.ts';
import { ordinal } from '../../../src/domain/words/figures-in-words.ts';

const SETTING = { seller: 'Quillback Acres', buyer: 'Tarn Hollow Dairy', currency: 'USD' };

/** The paragraphs of sound conditions that have one section. */
function said(conditions: Conditions): readonly string[] {
  expect(checkConditions(conditions)).toEqual([]);
  const sections = conditionsInWords(conditions, SETTING);
  expect(sections).toHaveLength(1);
  return sections[0]?.paragraphs ?? [];
}

type Payment = NonNullable<Conditions['payment']>;
type Deduction = NonNullable<Conditions['deductions']>[number];

const LATE_INVOICE = 'An invoice that is issued after that is due on the day it is issued.';
const LAST_LOAD = 'Where an invoice is for several loads, the days are counted from the last of them.';

describe('when payment is due', () => {
  test.each<[Payment, readonly string[]]>([
    [
      { netDays: '14', from: 'settlement' },
      [
        `Tarn Hollow Dairy pays Quillback Acres at the latest 14 days after a load is settled. ${LAST_LOAD} ${LATE_INVOICE}`,
      ],
    ],
    [
      { netDays: '0', from: 'delivery', invoices: 'load' },
      [
        `Tarn Hollow Dairy pays Quillback Acres on delivery, 0 days after a load is delivered. ${LATE_INVOICE}`,
        'Each load has an invoice of its own.',
      ],
    ],
    [
      { netDays: '1', from: 'invoice', invoices: 'month' },
      [
        'Tarn Hollow Dairy pays Quillback Acres at the latest 1 day after the date of an invoice.',
        'The loads of a month are invoiced together.',
      ],
    ],
    [
      { netDays: '0', from: 'invoice' },
      [
        'Tarn Hollow Dairy pays Quillback Acres on the day of the invoice, 0 days after the date of an invoice.',
      ],
    ],
    [
      { dayOfMonth: '15' },
      [
        'Tarn Hollow Dairy pays Quillback Acres at the latest on the 15th of the month after the one in which the invoice is issued.',
      ],
    ],
    [
      { dayOfMonth: '31' },
      [
        'Tarn Hollow Dairy pays Quillback Acres at the latest on the 31st of the month after the one in which the invoice is issued; where a month is shorter, on its last day.',
      ],
    ],
  ])('%j', (payment, paragraphs) => {
    expect(said({ payment })).toEqual(paragraphs);
  });

  test('a deferral warns that law limits it, and nothing else does', () => {
    const deferred = said({ payment: { deferredTo: '2027-01-05' } });
    expect(deferred).toHaveLength(2);
    expect(deferred[0]).toBe(
      `Payment is deferred to 2027-01-05: nothing is due before that day, and Tarn Hollow Dairy pays Quillback Acres on it at the latest. ${LATE_INVOICE}`,
    );
    // Iowa Code 203.15 and Wis. Stat. 126.19, dated copies, read.
    expect(deferred[1]).toMatch(/set by law where you live/);
    expect(deferred[1]).toMatch(/Iowa Code 203\.15 .*numbered form that both sign.* at most 12 months/);
    expect(deferred[1]).toMatch(/126\.19 .*in writing, signed before delivery.* within 180 days of pricing/);
    expect(said({ payment: { netDays: '90', from: 'invoice' } }).join(' ')).not.toContain('203.15');
  });

  test('ordinals', () => {
    const days = ['1', '2', '3', '4', '11', '12', '13', '21', '22', '23', '30', '31', '05'];
    expect(days.map(ordinal).join(' ')).toBe('1st 2nd 3rd 4th 11th 12th 13th 21st 22nd 23rd 30th 31st 5th');
  });
});

describe('the rest of the terms', () => {
  test.each<[Payment, readonly (string | RegExp)[]]>([
    [{ issuedBy: 'seller' }, ['Quillback Acres draws up the invoices.']],
    [
      { issuedBy: 'buyer' },
      [
        'Tarn Hollow Dairy draws up the invoices itself in the name of Quillback Acres (self-billing), and Quillback Acres sends none of its own.',
      ],
    ],
    [
      { interest: { percentPerYear: '6.5', dayCount: 'actual/360' } },
      [
        'On what it pays late, Tarn Hollow Dairy owes Quillback Acres interest of 6.5 % a year: simple, from the day after the due date through the day paid, on what was still owed on each day. Days are counted as they are, and a year has 360 (actual/360). The interest on an invoice is rounded once.',
      ],
    ],
    [{ interest: { percentPerYear: '8', dayCount: 'actual/365' } }, [/a year has 365 \(actual\/365\)/]],
    [
      { interest: { percentPerYear: '8', dayCount: '30/360' } },
      [/Each month counts as 30 days and a year as 360 \(30\/360\): a 31st counts as the 30th/],
    ],
    [
      { discount: { percent: '2', withinDays: '10' } },
      [
        'Tarn Hollow Dairy may take 2 % off an invoice that it pays in full within 10 days after the date of the invoice.',
      ],
    ],
    [
      { returnedPaymentFee: '25' },
      ['A payment of Tarn Hollow Dairy that the bank gives back costs it 25 USD.'],
    ],
    [{ text: 'By bank transfer' }, ['By bank transfer.']],
  ])('%j', (payment, paragraphs) => {
    expect(said({ payment })).toEqual(
      paragraphs.map((words) => (typeof words === 'string' ? words : expect.stringMatching(words))),
    );
  });
});

describe('advances', () => {
  const ADVANCE = { sharePercent: '80', rate: '62.50', per: 'short-ton' } as const;

  test('say the share, the value, and that they are taken off', () => {
    expect(said({ advance: ADVANCE })).toEqual([
      'For a load that has not settled yet, Tarn Hollow Dairy pays Quillback Acres an advance of 80 % of what the load is thought to be worth, on an advance invoice. It is thought to be worth 62.50 USD for each short ton as-fed. The advance is taken off when the load is invoiced.',
    ]);
    expect(said({ advance: { ...ADVANCE, per: 'load' } })[0]).toContain('62.50 USD for each load.');
  });

  test('say whether the newest quote counts', () => {
    const quoted = said({ advance: { ...ADVANCE, byNewestQuote: true } })[0];
    expect(quoted).toContain('valued by the price formula instead, at the newest quote by its delivery day.');
    expect(said({ advance: { ...ADVANCE, byNewestQuote: false } })[0]).toContain('not by an older quote.');
  });
});

describe('deductions', () => {
  const rows: [Deduction, string][] = [
    [
      {
        label: 'Corn checkoff',
        rate: '0.01',
        per: 'bushel',
        weight: 'dry-matter',
        poundsPerBushel: '56',
        payee: 'Cinder Plain Corn Board',
      },
      'Corn checkoff: 0.01 USD for each bushel of 56 lb of dry matter. Tarn Hollow Dairy pays it on to Cinder Plain Corn Board.',
    ],
    [
      { label: 'Bushels', rate: '0.02', per: 'bushel', weight: 'as-fed', poundsPerBushel: '70' },
      'Bushels: 0.02 USD for each bushel of 70 lb as-fed. Tarn Hollow Dairy keeps it.',
    ],
    [
      { label: 'Share', rate: '0.5', per: 'percent' },
      'Share: 0.5 % of the price of the load. Tarn Hollow Dairy keeps it.',
    ],
    [
      { label: 'Scale fee', rate: '12', per: 'load' },
      'Scale fee: 12 USD for each load. Tarn Hollow Dairy keeps it.',
    ],
    [
      { label: 'Tons', rate: '1', per: 'tonne', weight: 'dry-matter' },
      'Tons: 1 USD for each tonne of dry matter. Tarn Hollow Dairy keeps it.',
    ],
  ];
  test.each(rows)('%j', (deduction, sentence) => {
    expect(said({ deductions: [deduction] })).toContain(sentence);
  });

  test('begin with what they are taken off, and end with the law where somebody else is paid', () => {
    const all = said({ deductions: rows.map(([deduction]) => deduction) });
    expect(all[0]).toBe(
      'These are taken off what Quillback Acres is paid for each load. They do not change its price.',
    );
    expect(all).toHaveLength(rows.length + 2);
    expect(all.at(-1)).toContain('its rate and payee here are this agreement’s own');
    const kept = rows.slice(1).map(([deduction]) => deduction);
    expect(said({ deductions: kept })).toHaveLength(kept.length + 1);
  });
});
