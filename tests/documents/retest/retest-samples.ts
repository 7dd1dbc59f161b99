/**
 * Records of invented questions: decided with everything in it, open, withdrawn, and of a weight.
 */
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import type {
  RecordedFigure,
  RecordedScale,
  RetestRecord,
} from '../../../src/domain/retests/retest-record.ts';

const day = (text: string) => text as LocalDate;

export const FINGERPRINT = 'c0ffee5a1d0b9e37c0ffee5a1d0b9e37c0ffee5a1d0b9e37c0ffee5a1d0b9e37';
const REPORT = '3f9ad0e25b7c41683f9ad0e25b7c41683f9ad0e25b7c41683f9ad0e25b7c4168';

const figure: RecordedFigure = {
  id: '0199a000-0000-7000-8000-000000000001',
  tester: 'referee',
  testerName: 'the referee, Bell Reach Referees',
  testedBy: 'Bell Reach Referees',
  method: 'enzymatic, glucose oxidase',
  value: '52.40',
  testedOn: '2026-10-08',
  seal: 'Q-7741',
  weighing: undefined,
  charge: '45',
  paidBy: 'buyer',
  report: REPORT,
  by: 'buyer',
  enteredOn: day('2026-10-09'),
  standing: 'counts',
  answeredOn: day('2026-10-12'),
  isUnanswered: false,
  contested: null,
};

/** Starch, by a referee whose first figure was contested. */
export const decided: RetestRecord = {
  id: '0199a000-0000-7000-8000-0000000000aa',
  agreementId: '0199a000-0000-7000-8000-0000000000bb',
  agreement: 'A-26-014',
  agreementVersion: '2',
  agreementFingerprint: FINGERPRINT,
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  currency: 'USD',
  timeZone: 'America/Boise',
  about: 'starch',
  name: 'Starch',
  unit: '% of dry matter',
  sample: 'S1',
  ticket: null,
  asker: 'buyer',
  askedOn: day('2026-10-05'),
  reason: 'Our own test of a scoop from the same face came to less',
  first: '54.0',
  firstReport: { laboratory: 'Alder Bench', method: 'near infrared', reportedOn: '2026-10-02' },
  firstWeighing: undefined,
  claimed: '52.1',
  loads: [
    {
      loadId: '0199a000-0000-7000-8000-0000000000c1',
      ticket: 'T1',
      deliveredOn: '2026-10-01',
      before: '1620.00',
      now: '1572.00',
    },
    {
      loadId: '0199a000-0000-7000-8000-0000000000c2',
      ticket: 'T2',
      deliveredOn: '2026-10-03',
      before: '1080.00',
      now: '1048.00',
    },
  ],
  taking: { takenAt: '2026-10-02T03:40:00.000Z', takenBy: 'Wren', how: 'five scoops from the stream' },
  parts: [
    {
      part: 'seller',
      seal: 'Q-7739',
      isAirtight: false,
      keptWhere: 'barn office',
      keptUntil: null,
      handovers: [],
    },
    {
      part: 'referee',
      seal: 'Q-7741',
      isAirtight: true,
      keptWhere: 'freezer',
      keptUntil: '2027-02-01',
      handovers: [
        {
          handedAt: '2026-10-06T15:05:00.000Z',
          toWhom: 'Marrow Creek Courier',
          keptWhere: 'cool box',
          keptUntil: null,
          isSealIntact: true,
        },
        {
          handedAt: '2026-10-07T21:30:00.000Z',
          toWhom: 'Bell Reach Referees, desk',
          keptWhere: 'cold room 2',
          keptUntil: '2027-01-15',
          isSealIntact: true,
        },
      ],
    },
  ],
  rule: [
    'The referee tests its part. If its figure differs from the first by more than 1.0, the referee’s figure counts; otherwise the first stands.',
    'Each test is to be reported within 14 days after it is called for; if one is not in by then, the first figure stands.',
    'Whoever asks pays for the retest, unless the decision moves the price its way: then the other side pays.',
  ],
  referee: 'Bell Reach Referees',
  testDays: '14',
  figures: [
    {
      ...figure,
      id: '0199a000-0000-7000-8000-000000000002',
      value: '50.0',
      testedOn: '2026-10-06',
      charge: '40.5',
      method: null,
      report: REPORT.replaceAll('3', '8'),
      enteredOn: day('2026-10-07'),
      standing: 'contested',
      answeredOn: day('2026-10-08'),
      contested: 'The report is of another sample',
    },
    figure,
  ],
  weights: undefined,
  proposals: [
    {
      id: '0199a000-0000-7000-8000-0000000000d1',
      by: 'seller',
      on: day('2026-10-10'),
      ending: 'agree',
      value: '53.2',
      bearer: 'split',
      reason: 'Half way between',
      answer: 'refused',
      answeredOn: day('2026-10-11'),
      answerReason: 'The referee has tested',
    },
  ],
  calls: undefined,
  obstacle: undefined,
  ending: {
    ending: 'decided',
    because: 'referee-moved-it',
    inWords: 'The referee’s figure differs by more than was agreed, so it counts.',
    value: '52.40',
    on: day('2026-10-12'),
    sellerBears: '45.00',
    buyerBears: '0.00',
    changed: '-80.00',
  },
  held: '0.00',
  documents: [
    {
      kind: 'credit-note',
      number: '18',
      issuedOn: '2026-10-12',
      id: '0199a000-0000-7000-8000-0000000000e1',
      payable: '-80.00',
    },
    {
      kind: 'credit-note',
      number: '19',
      issuedOn: '2026-10-12',
      id: '0199a000-0000-7000-8000-0000000000e2',
      payable: '-45.00',
    },
  ],
};

/** A figure waits for its answer, a proposal too, and money is held. */
export const open: RetestRecord = {
  ...decided,
  loads: decided.loads.map((load) => ({ ...load, now: load.before })),
  figures: [
    {
      ...figure,
      standing: 'unanswered',
      isUnanswered: true,
      answeredOn: day('2026-10-15'),
    },
  ],
  proposals: [
    {
      id: '0199a000-0000-7000-8000-0000000000d2',
      by: 'buyer',
      on: day('2026-10-10'),
      ending: 'withdraw',
      value: null,
      bearer: 'buyer',
      reason: 'It is not worth a quarrel',
      answer: null,
      answeredOn: null,
      answerReason: null,
    },
  ],
  calls: {
    sentences: ['The referee, Bell Reach Referees, tests its sealed part.'],
    testers: ['referee'],
    since: day('2026-10-05'),
    dueOn: day('2026-10-19'),
    daysLeft: 9,
  },
  ending: undefined,
  held: '95.00',
  documents: [],
};

/** Taken back before anything was tested. */
export const withdrawn: RetestRecord = {
  ...open,
  figures: [],
  proposals: open.proposals.map((proposal) => ({
    ...proposal,
    answer: 'confirmed' as const,
    answeredOn: day('2026-10-11'),
  })),
  calls: undefined,
  ending: {
    ending: 'withdrawn',
    because: 'both-confirmed',
    inWords: 'Both sides confirmed it.',
    value: '54.0',
    on: day('2026-10-11'),
    sellerBears: '0.00',
    buyerBears: '0.00',
    changed: '0.00',
  },
  held: '0.00',
};

const yardScale: RecordedScale = {
  name: 'Yard scale',
  accuracyClass: 'III L',
  division: '20',
  unit: 'lb',
  isLegalForTrade: true,
  certificate: 'W-2210',
};

/** 47,120 and 47,300 lb, as in the example of the rule on weights. */
export const weight: RetestRecord = {
  ...decided,
  about: 'weight',
  name: 'Net weight',
  unit: 'lb',
  sample: null,
  ticket: 'T5',
  asker: 'seller',
  reason: 'The truck has never weighed so little',
  first: '47120',
  firstReport: undefined,
  firstWeighing: {
    gross: '78220',
    tare: '31100',
    unit: 'lb',
    grossScale: yardScale,
    tareScale: { ...yardScale, name: 'Gate scale', isLegalForTrade: false, certificate: null },
  },
  claimed: '47900',
  loads: [
    {
      loadId: '0199a000-0000-7000-8000-0000000000c5',
      ticket: 'T5',
      deliveredOn: '2026-10-04',
      before: '1650.00',
      now: '1650.00',
    },
  ],
  taking: undefined,
  parts: [],
  rule: [
    'The truck is weighed on a second scale that is legal for trade. If the two net weights differ by more than the tolerances of the two scales together, the second counts; otherwise the first stands.',
    'Each side pays half of what the retest costs.',
  ],
  referee: null,
  figures: [
    {
      ...figure,
      tester: 'second-scale',
      testerName: 'a second scale',
      testedBy: 'Ferry Road scale',
      method: null,
      value: '47300',
      testedOn: '2026-10-06',
      seal: null,
      weighing: {
        gross: '78400',
        tare: '31100',
        unit: 'lb',
        grossScale: { ...yardScale, name: 'Ferry Road scale', certificate: 'W-3001' },
        tareScale: { ...yardScale, name: 'Ferry Road scale', certificate: 'W-3001' },
      },
      charge: '30',
      paidBy: 'seller',
      by: 'seller',
      enteredOn: day('2026-10-07'),
      isUnanswered: true,
      answeredOn: day('2026-10-13'),
    },
  ],
  weights: {
    apart: '180',
    allowed: '480',
    tolerances: { gross: { first: '160', second: '160' }, tare: { first: '80', second: '80' } },
  },
  proposals: [],
  ending: {
    ending: 'decided',
    because: 'first-stands',
    inWords: 'The two net weights lie within what the scales may be off by, so the first stands.',
    value: '47120',
    on: day('2026-10-13'),
    sellerBears: '15.00',
    buyerBears: '15.00',
    changed: '0.00',
  },
  documents: [
    {
      kind: 'fee',
      number: '20',
      issuedOn: '2026-10-13',
      id: '0199a000-0000-7000-8000-0000000000e3',
      payable: '15.00',
    },
  ],
};

const LONG =
  'The load came on a wet night, the face had stood open for two days, and what our own laboratory found in a scoop from the same bunker was more than two points lower than the report says. We have no quarrel with the laboratory, but the sample was taken by one of your people alone, with nobody of ours there, and the part that we were given was not cold when it reached us. We ask that the referee tests the sealed part that has been in the freezer since then, and that what is held stays held until it has.';

/** Thirty loads of one sample, long names and reasons: what the pages have to bear. */
export const crowded: RetestRecord = {
  ...decided,
  reason: LONG,
  firstReport: {
    laboratory:
      'Alder Bench Laboratory for Feed, Forage and Grain of the Upper Marrow Creek Valley, Branch Two',
    method: 'near infrared spectroscopy, calibration of whole-ear corn, ground to 1 mm',
    reportedOn: '2026-10-02',
  },
  loads: Array.from({ length: 30 }, (_, index) => ({
    loadId: `0199a000-0000-7000-8000-0000000001${String(index).padStart(2, '0')}`,
    ticket: `T${index + 101}`,
    deliveredOn: index < 14 ? '2026-10-01' : '2026-10-02',
    before: '1620.00',
    now: '1572.00',
  })),
  figures: (['seller', 'buyer', 'seller', 'buyer', 'referee'] as const).map((tester, index) => ({
    ...figure,
    tester,
    testerName:
      tester === 'referee'
        ? 'the referee, Bell Reach Referees'
        : `the laboratory of ${tester === 'seller' ? 'Quillback Acres' : 'Tarn Hollow Dairy'}`,
    testedBy:
      tester === 'referee'
        ? 'Bell Reach Referees'
        : 'Sorrel Bend Agricultural Testing and Certification Service, Laboratory of the Lower Ferry Road',
    value: ['55.1', '51.20', '54.80', '51.3', '52.40'][index] ?? '',
    by: index % 2 === 0 ? ('seller' as const) : ('buyer' as const),
    standing: index === 1 ? ('contested' as const) : ('counts' as const),
    contested: index === 1 ? LONG : null,
    isUnanswered: index === 3,
  })),
  proposals: decided.proposals.flatMap((proposal) => [
    { ...proposal, reason: LONG, answerReason: LONG },
    { ...proposal, by: 'buyer', on: day('2026-10-11'), answer: 'withdrawn', answerReason: null },
  ]),
  ending: { ...(decided.ending as NonNullable<RetestRecord['ending']>), changed: '-1440.00' },
};
