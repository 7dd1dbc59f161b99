/**
 * However many faults an agreement has, and however close together, each is named at its own place, and nothing else
 * is.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import { printPath } from '../../src/domain/agreement/problem.ts';

/** One of every price term, sound. */
function soundAgreement() {
  return {
    format: 'huskledger-agreement/1',
    id: 'A-26-014',
    seller: 'Quillback Acres',
    buyer: 'Tarn Hollow Dairy',
    feed: 'whole-ear-corn',
    currency: 'USD',
    timeZone: 'America/Boise',
    references: {
      corn: {
        series: 'corn-elevator-bid',
        unit: 'bushel',
        poundsPerUnit: '56',
        dryMatterPercent: '84.5',
        starchPercentOfDryMatter: '71',
        rule: { kind: 'seller-elects', from: '2026-09-01', to: '2026-11-30' },
        floor: '3.60',
        ceiling: '5.40',
      },
      later: {
        series: 'corn-elevator-bid',
        unit: 'bushel',
        poundsPerUnit: '56',
        dryMatterPercent: '84.5',
        rule: { kind: 'seller-elects', from: '2026-11-30', to: '2026-12-31' },
      },
    },
    tests: { ndf: { decimals: '1' } },
    price: [
      {
        term: 'constituent',
        label: 'Starch',
        of: 'starch',
        at: { reference: 'corn', per: 'starch' },
        sharePercent: '90',
      },
      {
        term: 'remainder',
        label: 'The rest',
        after: ['starch', 'ash'],
        at: { reference: 'corn', per: 'dry-matter' },
        sharePercent: '5',
      },
      {
        term: 'equivalent-bushels',
        label: 'Bushels',
        method: {
          kind: 'table',
          rows: [
            { moisture: '20', poundsPerBushel: '60' },
            { moisture: '30', poundsPerBushel: '68' },
          ],
          between: 'linear',
        },
        at: { reference: 'corn' },
        bushelDecimals: '2',
      },
      { term: 'flat', label: 'Hauling', rate: '-4.25', per: 'short-ton', weight: 'as-fed' },
      {
        term: 'schedule',
        label: 'Fibre',
        on: 'ndf',
        neutral: { from: '0', to: '26' },
        above: [{ points: '4', perPoint: '-0.80' }, { perPoint: '-1.50' }],
        count: 'exact',
        unit: 'money',
        per: 'short-ton',
        weight: 'dry-matter',
      },
      { term: 'limit', label: 'Ends', floor: '10', ceiling: '90', per: 'cwt', weight: 'as-fed' },
    ],
    acceptance: [{ on: 'moisture', below: '32', above: '50' }],
    conditions: { payment: { days: '30', by: ['post', 'bank'] } },
  };
}

/** A place and what is put there; undefined takes it away. `at` says where the problem stands, if elsewhere. */
interface Fault {
  readonly set: readonly (string | number)[];
  readonly to: unknown;
  readonly at?: string;
}

const FAULTS: readonly Fault[] = [
  { set: ['id'], to: ' ' },
  { set: ['currency'], to: 'CORN' },
  { set: ['timeZone'], to: 'Mars/Olympus' },
  { set: ['surprise'], to: 'x' },
  { set: ['references', 'corn', 'unit'], to: '' },
  { set: ['references', 'corn', 'series'], to: undefined },
  { set: ['references', 'corn', 'poundsPerUnit'], to: '0' },
  { set: ['references', 'corn', 'starchPercentOfDryMatter'], to: undefined },
  { set: ['references', 'corn', 'ceiling'], to: '3.59', at: '$.references.corn.floor' },
  { set: ['references', 'corn', 'rule', 'maxAgeDays'], to: '1000' },
  { set: ['references', 'corn', 'surprise'], to: 'x' },
  { set: ['references', 'later', 'rule', 'to'], to: '2026-11-29', at: '$.references.later.rule.from' },
  { set: ['tests', 'ndf', 'decimals'], to: '11' },
  { set: ['tests', 'moisture'], to: { decimals: '1' } },
  { set: ['price', 0, 'label'], to: '' },
  { set: ['price', 0, 'at', 'surprise'], to: 'x' },
  { set: ['price', 0, 'sharePercent'], to: '-1' },
  { set: ['price', 1, 'after', 1], to: 'starch' },
  { set: ['price', 1, 'at', 'reference'], to: 'wheat' },
  { set: ['price', 1, 'sharePercent'], to: 5 },
  { set: ['price', 2, 'at', 'reference'], to: 'wheat' },
  { set: ['price', 2, 'method', 'rows', 0, 'moisture'], to: '31', at: '$.price[2].method.rows[1].moisture' },
  { set: ['price', 2, 'method', 'rows', 0, 'poundsPerBushel'], to: '0' },
  { set: ['price', 2, 'method', 'between'], to: 'bridge' },
  { set: ['price', 2, 'bushelDecimals'], to: '0.5' },
  { set: ['price', 3, 'rate'], to: '4,25' },
  { set: ['price', 3, 'weight'], to: undefined },
  { set: ['price', 3, 'surprise'], to: 'x' },
  { set: ['price', 4, 'on'], to: 'colour' },
  { set: ['price', 4, 'neutral', 'from'], to: '26.1' },
  { set: ['price', 4, 'above', 0, 'points'], to: undefined },
  { set: ['price', 4, 'above', 1, 'perPoint'], to: '1e3' },
  { set: ['price', 4, 'count'], to: 'twice' },
  { set: ['price', 4, 'per'], to: undefined },
  { set: ['price', 5, 'label'], to: undefined },
  { set: ['price', 5, 'floor'], to: '90.1' },
  { set: ['price', 5, 'weight'], to: 'dry' },
  { set: ['acceptance', 0, 'on'], to: 'colour' },
  { set: ['acceptance', 0, 'below'], to: '50.1' },
  { set: ['conditions', 'payment', 'days'], to: 30 },
  { set: ['conditions', 'payment', 'by', 0], to: null },
];

function put(document: unknown, { set, to }: Fault): void {
  const path = [...set];
  const last = path.pop() ?? '';
  const holder = path.reduce((at, key) => (at as Record<string, unknown>)[key], document);
  if (to === undefined) delete (holder as Record<string, unknown>)[last];
  else (holder as Record<string, unknown>)[last] = to;
}

/** Those that speak of one place, where the second would hide in the first, by that place. */
function placeOf({ set, at }: Fault): string {
  return at ?? printPath(set);
}

test('the agreement that the faults are put into has none', () => {
  expect(checkAgreement(soundAgreement()).problems).toEqual([]);
});

test('every fault is named once, at its place, whatever others there are (2,000 agreements)', () => {
  fc.assert(
    fc.property(fc.uniqueArray(fc.constantFrom(...FAULTS), { minLength: 1 }), (faults) => {
      const document = soundAgreement();
      for (const fault of faults) put(document, fault);
      const found = checkAgreement(document).problems.map(({ path }) => printPath(path));
      expect(found.sort()).toEqual(faults.map(placeOf).sort());
    }),
    { numRuns: 2_000 },
  );
});

test('references that follow one series by windows without a common date cannot both be elected', () => {
  const document = soundAgreement();
  document.references.later.rule.from = '2026-12-01';
  expect(checkAgreement(document).problems).toEqual([
    {
      path: ['references', 'later', 'rule', 'from'],
      message:
        'must give a window that shares a date with that of "corn" (2026-09-01 to 2026-11-30): both follow the series "corn-elevator-bid", and a load has one election for it',
    },
  ]);
});
