/**
 * Every page and route with what it answers to whom.
 */
import { MONEY_ROWS } from './money-role-rows.ts';
import { OFFER_ROWS } from './offer-role-rows.ts';
import { PAYMENT_ROWS } from './payment-role-rows.ts';
import { RETEST_ROWS } from './retest-role-rows.ts';
import { type Ids, page, type Row, read, type Statuses, statuses, write } from './role-row.ts';

/** What an agreement has of something. */
const listed = (noun: string, list: Statuses): Row =>
  read(`agreements/[id]/${noun}`, ({ agreement }) => `/api/v1/agreements/${agreement}/${noun}`, list);

const change = (file: string, path: Row['path']) => ({ route: `POST api/v1/${file}/route.ts`, path });
const ofNothing =
  (noun: string): Row['path'] =>
  ({ agreement }) =>
    `/api/v1/agreements/${agreement}/${noun}/${NOWHERE}/correction`;

const ofAgreement = (path: string) => (ids: Ids) => `${path}?agreement=${ids.agreement}`;
/** A load that the rows record before they need one that waits. */
const OPEN_TICKET = 'R-1';
const NOWHERE = '00000000-0000-7000-8000-000000000000';

export const ROWS: readonly Row[] = [
  page('page.tsx', () => '/', [200, 200, 200, 200, 200, 307]),
  page('loads/page.tsx', () => '/loads', [200, 200, 200, 200, 200, 307]),
  page('loads/page.tsx', ofAgreement('/loads'), [200, 200, 200, 200, 404, 307], 'loads of an agreement'),
  page('loads/[id]/page.tsx', ({ load }) => `/loads/${load}`, [200, 200, 200, 200, 404, 307]),
  page(
    'loads/[id]/page.tsx',
    () => `/loads/${NOWHERE}`,
    [404, 404, 404, 404, 404, 307],
    'a load that is not there',
  ),
  page(
    'loads/[id]/page.tsx',
    () => '/loads/not-an-id',
    [404, 404, 404, 404, 404, 307],
    'an address that is no load',
  ),
  page('loads/new/page.tsx', ofAgreement('/loads/new'), [200, 200, 200, 403, 404, 307]),
  page(
    'loads/new/page.tsx',
    ({ load }) => `/loads/new?done=${load}`,
    [200, 200, 200, 403, 404, 307],
    'weighing, after a load of others',
  ),
  page('results/new/page.tsx', ofAgreement('/results/new'), [200, 200, 403, 403, 404, 307]),
  page('prices/new/page.tsx', ofAgreement('/prices/new'), [200, 200, 403, 403, 404, 307]),
  page('agreements/page.tsx', () => '/agreements', [200, 200, 200, 200, 200, 307]),
  page(
    'agreements/[id]/page.tsx',
    ({ agreement }) => `/agreements/${agreement}`,
    [200, 200, 200, 200, 404, 307],
  ),
  ...['samples', 'tickets', 'laboratories'].map((place) =>
    page(
      `agreements/[id]/${place}/page.tsx`,
      ({ agreement }) => `/agreements/${agreement}/${place}`,
      [200, 200, 200, 200, 404, 307],
    ),
  ),
  {
    route: 'GET agreements/[id]/files/[fingerprint]/route.ts',
    path: ({ agreement }) => `/agreements/${agreement}/files/${'0'.repeat(64)}`,
    expected: statuses([404, 404, 404, 404, 404, 401]),
  },
  page('scale/page.tsx', () => '/scale', [200, 200, 200, 403, 200, 307]),
  page('corrections/page.tsx', () => '/corrections', [200, 200, 200, 200, 200, 307]),
  page('retests/patterns/page.tsx', () => '/retests/patterns', [200, 200, 200, 200, 200, 307]),
  page(
    'retests/patterns/page.tsx',
    ofAgreement('/retests/patterns'),
    [200, 200, 200, 200, 404, 307],
    'patterns of an agreement',
  ),
  page('loads/[id]/correct/page.tsx', ({ load }) => `/loads/${load}/correct`, [200, 200, 403, 403, 404, 307]),
  // What a phone keeps of the scale page belongs to nobody.
  ...['manifest.webmanifest', 'scale-icon.svg', 'scale-worker.js'].map(
    (file): Row => ({
      route: `GET ${file}/route.ts`,
      path: () => `/${file}`,
      expected: statuses([200, 200, 200, 200, 200, 200]),
    }),
  ),
  page('scales/page.tsx', () => '/scales', [200, 200, 200, 200, 200, 307]),
  page('scales/[id]/page.tsx', () => `/scales/${NOWHERE}`, [404, 404, 403, 403, 404, 307]),
  page('laboratory/page.tsx', () => '/laboratory', [200, 200, 200, 200, 200, 307]),
  page(
    'agreements/[id]/own-list/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/own-list`,
    [200, 200, 200, 200, 404, 307],
  ),
  page(
    'agreements/[id]/stored/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/stored`,
    [200, 200, 200, 200, 404, 307],
  ),
  {
    // The buyer's own account: to the seller there is none.
    ...page(
      'agreements/[id]/stored/page.tsx',
      ({ agreement }) => `/agreements/${agreement}/stored`,
      [404, 404, 404, 404, 404, 307],
      'what the buyer stored, to the seller',
    ),
    side: 'seller',
  },
  page(
    'agreements/[id]/season-close/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/season-close`,
    [200, 200, 200, 200, 404, 307],
  ),
  page(
    'agreements/[id]/past-seasons/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/past-seasons`,
    [200, 200, 200, 200, 404, 307],
  ),
  {
    route: 'GET agreements/[id]/season-close/file/route.ts',
    // Not sealed yet; who may save the file of one that is, is tried in season-close.test.ts.
    path: ({ agreement }) => `/agreements/${agreement}/season-close/file`,
    expected: statuses([409, 409, 409, 409, 404, 401]),
  },
  {
    route: 'GET agreements/[id]/season-close/pdf/route.ts',
    path: ({ agreement }) => `/agreements/${agreement}/season-close/pdf`,
    expected: statuses([200, 200, 200, 200, 404, 401]),
  },
  page(
    'agreements/[id]/progress/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/progress`,
    [200, 200, 200, 200, 404, 307],
  ),
  page(
    'agreements/[id]/season/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/season`,
    [200, 200, 200, 200, 404, 307],
  ),
  page(
    'agreements/[id]/series/[name]/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/series/corn-county-bid`,
    [200, 200, 200, 200, 404, 307],
  ),
  page(
    'agreements/[id]/series/[name]/page.tsx',
    ({ agreement }) => `/agreements/${agreement}/series/rye`,
    [404, 404, 404, 404, 404, 307],
    'a price that the agreement does not follow',
  ),
  page('import/page.tsx', ofAgreement('/import'), [200, 200, 200, 403, 404, 307]),
  page('agreements/new/page.tsx', () => '/agreements/new', [200, 403, 403, 403, 200, 307]),
  page('lots/page.tsx', () => '/lots', [200, 200, 200, 200, 200, 307]),
  page('lots/compare/page.tsx', ({ lot }) => `/lots/compare?lot=${lot}`, [200, 200, 200, 200, 200, 307]),
  page('lots/new/page.tsx', () => '/lots/new', [200, 200, 403, 403, 200, 307]),
  page('lots/place/page.tsx', () => '/lots/place', [200, 200, 403, 403, 200, 307]),
  page('lots/[id]/page.tsx', ({ lot }) => `/lots/${lot}`, [200, 200, 200, 200, 404, 307]),
  page(
    'lots/[id]/page.tsx',
    ({ draft }) => `/lots/${draft}`,
    [404, 404, 404, 404, 404, 307],
    'a draft of the grower’s',
  ),
  {
    ...page('lots/[id]/page.tsx', ({ draft }) => `/lots/${draft}`, [200, 200, 200, 200, 404, 307]),
    name: 'a draft of one’s own',
    side: 'seller',
  },
  page('lots/[id]/edit/page.tsx', ({ lot }) => `/lots/${lot}/edit`, [403, 403, 403, 403, 404, 307]),
  {
    ...page('lots/[id]/edit/page.tsx', ({ lot }) => `/lots/${lot}/edit`, [200, 200, 403, 403, 404, 307]),
    name: 'changing a lot of one’s own',
    side: 'seller',
  },
  page('lots/[id]/post/page.tsx', ({ lot }) => `/lots/${lot}/post`, [403, 403, 403, 403, 404, 307]),
  {
    ...page('lots/[id]/post/page.tsx', ({ lot }) => `/lots/${lot}/post`, [200, 200, 403, 403, 404, 307]),
    name: 'posting a lot of one’s own',
    side: 'seller',
  },
  {
    route: 'GET lots/[id]/files/[file]/route.ts',
    path: ({ lot }) => `/lots/${lot}/files/${NOWHERE}`,
    expected: statuses([404, 404, 404, 404, 404, 401]),
  },
  page('feed/page.tsx', () => '/feed', [200, 200, 200, 200, 200, 200]),
  // The lot is for invited parties: there is nothing of it in public.
  page('feed/[lot]/page.tsx', ({ lot }) => `/feed/${lot}`, [404, 404, 404, 404, 404, 404]),
  page('people/page.tsx', () => '/people', [200, 200, 200, 200, 200, 307]),
  page('sign-in/page.tsx', () => '/sign-in', [307, 307, 307, 307, 307, 200]),
  page('welcome/page.tsx', () => '/welcome', [307, 307, 307, 307, 307, 307]),
  page('join/[secret]/page.tsx', () => '/join/guessed', [200, 200, 200, 200, 200, 200]),
  page('come/[secret]/page.tsx', () => '/come/guessed', [200, 200, 200, 200, 200, 200]),
  page('advice/page.tsx', () => '/advice', [200, 200, 200, 200, 200, 307]),
  page('advice/[id]/page.tsx', ({ advice }) => `/advice/${advice}`, [200, 200, 200, 200, 404, 307]),
  {
    ...page('advice/[id]/page.tsx', ({ advice }) => `/advice/${advice}`, [404, 404, 404, 404, 404, 307]),
    name: 'advice that the other side of the offer asked for',
    side: 'seller',
  },
  // Drafts are the adviser's to write, and this one is the dairy's to read.
  page(
    'advice/[id]/draft/page.tsx',
    ({ advice }) => `/advice/${advice}/draft`,
    [403, 403, 403, 403, 404, 307],
  ),
  page(
    'advice/[id]/drafts/[draft]/page.tsx',
    ({ advice, adviceDraft }) => `/advice/${advice}/drafts/${adviceDraft}`,
    [200, 200, 200, 200, 404, 307],
  ),
  {
    route: 'GET loads/[id]/invoice/route.ts',
    path: ({ load }) => `/loads/${load}/invoice`,
    expected: statuses([200, 200, 200, 200, 404, 401]),
  },
  {
    route: 'GET loads/[id]/ticket/route.ts',
    path: ({ load }) => `/loads/${load}/ticket`,
    expected: statuses([200, 200, 200, 200, 404, 401]),
  },
  {
    // No provider is set in these tests.
    route: 'GET sign-in/provider/route.ts',
    path: () => '/sign-in/provider',
    expected: statuses([404, 404, 404, 404, 404, 404]),
  },
  {
    route: 'GET api/auth/[...nextauth]/route.ts',
    path: () => '/api/auth/providers',
    expected: statuses([200, 200, 200, 200, 200, 200]),
  },
  {
    // Without the token of its own form it signs nobody in or out.
    route: 'POST api/auth/[...nextauth]/route.ts',
    path: () => '/api/auth/signout',
    body: () => ({}),
    expected: statuses([302, 302, 302, 302, 302, 302]),
  },
  read('agreements', () => '/api/v1/agreements', [200, 200, 200, 200, 200, 401]),
  {
    route: 'POST api/v1/agreements/route.ts',
    path: () => '/api/v1/agreements',
    body: () => ({ document: {}, sellerId: NOWHERE, buyerId: NOWHERE }),
    // An agreement without any term is refused for its faults, to whoever may record one.
    expected: statuses([400, 403, 403, 403, 400, 401]),
  },
  read(
    'agreements/[id]',
    ({ agreement }) => `/api/v1/agreements/${agreement}`,
    [200, 200, 200, 200, 404, 401],
  ),
  read('loads', () => '/api/v1/loads', [200, 200, 200, 200, 200, 401]),
  read('loads/[id]', ({ load }) => `/api/v1/loads/${load}`, [200, 200, 200, 200, 404, 401]),
  read('waiting', () => '/api/v1/waiting', [200, 200, 200, 200, 200, 401]),
  read('lots', () => '/api/v1/lots', [200, 200, 200, 200, 200, 401]),
  {
    route: 'POST api/v1/lots/route.ts',
    path: () => '/api/v1/lots',
    body: () => ({ document: {} }),
    // A lot that says nothing is refused for its faults, to whoever may sell.
    expected: statuses([400, 400, 403, 403, 400, 401]),
  },
  read('lots/[id]', ({ lot }) => `/api/v1/lots/${lot}`, [200, 200, 200, 200, 404, 401]),
  {
    route: 'POST api/v1/lots/[id]/route.ts',
    path: ({ lot }) => `/api/v1/lots/${lot}`,
    body: () => ({ document: {} }),
    expected: statuses([403, 403, 403, 403, 404, 401]),
  },
  {
    route: 'POST api/v1/lots/[id]/posting/route.ts',
    path: ({ lot }) => `/api/v1/lots/${lot}/posting`,
    body: () => ({ audience: 'everyone' }),
    expected: statuses([403, 403, 403, 403, 404, 401]),
  },
  {
    route: 'POST api/v1/lots/[id]/withdrawal/route.ts',
    path: ({ lot }) => `/api/v1/lots/${lot}/withdrawal`,
    body: () => ({}),
    expected: statuses([403, 403, 403, 403, 404, 401]),
  },
  write('loads', [200, 200, 200, 403, 404, 401], {
    body: () => ({
      loads: [
        {
          ticket: OPEN_TICKET,
          delivered_at: '2026-11-06T09:00:00-07:00',
          gross: '70000',
          tare: '30000',
          unit: 'lb',
        },
      ],
    }),
  }),
  write('results', [200, 200, 403, 403, 404, 401], {
    body: () => ({
      results: [{ sample: 'R-S', basis: 'dry-matter', dry_matter: '60', starch: '60', ndf: '22' }],
    }),
  }),
  write('quotes', [200, 200, 403, 403, 404, 401], {
    body: () => ({ quotes: [{ series: 'a-series-of-the-test', date: '2026-11-06', price: '4.20' }] }),
  }),
  write('elections', [200, 200, 403, 403, 404, 401], {
    side: 'seller',
    body: () => ({
      elections: [{ ticket: OPEN_TICKET, series: 'a-series-of-the-test', date: '2026-11-06' }],
    }),
  }),
  {
    ...write('elections', [403, 403, 403, 403, 404, 401], {
      body: () => ({
        elections: [{ ticket: OPEN_TICKET, series: 'a-series-of-the-test', date: '2026-11-06' }],
      }),
    }),
    name: 'pricing dates named by the buyer',
  },
  write('choices', [200, 200, 403, 403, 404, 401], {
    body: () => ({ choices: [{ ticket: '1075', choice: 'accept' }] }),
  }),
  {
    ...write('choices', [403, 403, 403, 403, 404, 401], {
      side: 'seller',
      body: () => ({ choices: [{ ticket: '1075', choice: 'accept' }] }),
    }),
    name: 'choices made by the seller',
  },
  write('settlements', [200, 200, 403, 403, 404, 401], { body: ({ load }) => ({ loadId: load }) }),
  page('api/problems/[code]/page.tsx', () => '/api/problems/ticket-taken', [200, 200, 200, 200, 200, 200]),
  page(
    'api/problems/[code]/page.tsx',
    () => '/api/problems/no-such-code',
    [404, 404, 404, 404, 404, 404],
    'a kind of problem that is none',
  ),
  read('openapi.json', () => '/api/v1/openapi.json', [200, 200, 200, 200, 200, 200]),
  read('loads/[id]/ticket', ({ load }) => `/api/v1/loads/${load}/ticket`, [200, 200, 200, 200, 404, 401]),
  listed('results', [200, 200, 200, 200, 404, 401]),
  listed('quotes', [200, 200, 200, 200, 404, 401]),
  listed('settlements', [200, 200, 200, 200, 404, 401]),
  listed('corrections', [200, 200, 200, 200, 404, 401]),
  {
    // The load has settled, so that whoever may put tickets right is told to propose it.
    ...change('loads/[id]/correction', ({ load }) => `/api/v1/loads/${load}/correction`),
    body: () => ({ load: {}, reason: 'Misread', baseVersion: 1 }),
    expected: statuses([409, 409, 403, 403, 404, 401]),
  },
  {
    ...change('loads/[id]/void', ({ load }) => `/api/v1/loads/${load}/void`),
    body: () => ({ reason: 'Weighed twice', baseVersion: 1 }),
    expected: statuses([409, 409, 403, 403, 404, 401]),
  },
  {
    ...change('agreements/[id]/results/[result]/correction', ofNothing('results')),
    body: () => ({ result: {}, reason: 'Misread' }),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  {
    ...change('agreements/[id]/quotes/[quote]/correction', ofNothing('quotes')),
    body: () => ({ price: '4.20', reason: 'Misread' }),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  {
    // A ticket without figures is refused for its faults.
    ...write('corrections', [400, 400, 403, 403, 404, 401], {
      body: ({ load }) => ({ subject: 'load', subjectId: load, figures: {}, reason: 'Misread' }),
    }),
  },
  {
    ...change('corrections/[id]/answer', () => `/api/v1/corrections/${NOWHERE}/answer`),
    body: () => ({ answer: 'confirmed' }),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  ...['weighings', 'tickets', 'trucks', 'samples', 'allowances'].map((noun) =>
    listed(noun, [200, 200, 200, 200, 404, 401]),
  ),
  {
    ...change(
      'agreements/[id]/quotes/[quote]/contest',
      ({ agreement }) => `/api/v1/agreements/${agreement}/quotes/${NOWHERE}/contest`,
    ),
    body: () => ({ price: '4.20', reason: 'Misread' }),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  // A price that the agreement does not follow.
  write('series', [404, 404, 403, 403, 404, 401], {
    body: () => ({ series: 'none', source: 'A board', enteredBy: 'both', contestDays: '0' }),
  }),
  // Without figures these are refused for their faults, to whoever may keep scales.
  write('tickets/series', [400, 400, 403, 403, 404, 401], { body: () => ({ series: {} }) }),
  {
    ...change('scales', () => '/api/v1/scales'),
    body: () => ({ scale: {} }),
    expected: statuses([400, 400, 403, 403, 400, 401]),
  },
  {
    ...change('scales/[id]', () => `/api/v1/scales/${NOWHERE}`),
    body: () => ({ scale: {}, baseVersion: 1 }),
    expected: statuses([400, 400, 403, 403, 400, 401]),
  },
  read(
    'loads/[id]/ticket/paper',
    ({ load }) => `/api/v1/loads/${load}/ticket/paper`,
    [200, 200, 200, 200, 404, 401],
  ),
  read('scales', () => '/api/v1/scales', [200, 200, 200, 200, 200, 401]),
  read('laboratory/samples', () => '/api/v1/laboratory/samples', [200, 200, 200, 200, 200, 401]),
  read('loads/[id]/invoice', ({ load }) => `/api/v1/loads/${load}/invoice`, [200, 200, 200, 200, 404, 401]),
  read(
    'agreements/[id]/files/[fingerprint]',
    ({ agreement }) => `/api/v1/agreements/${agreement}/files/${'0'.repeat(64)}`,
    [404, 404, 404, 404, 404, 401],
  ),
  write('weighings', [200, 200, 200, 403, 404, 401], {
    body: () => ({
      weighing: { ticket: 'R-W', weighed_at: '2026-11-06T09:00:00-07:00', gross: '70000', unit: 'lb' },
    }),
  }),
  write('weighings/out', [200, 200, 200, 403, 404, 401], {
    body: () => ({ weighing: { ticket: 'R-W', weighed_at: '2026-11-06T09:20:00-07:00', tare: '30000' } }),
  }),
  write('tickets/spent', [200, 200, 200, 403, 404, 401], {
    body: () => ({ ticket: 'R-V', use: 'void', reason: 'Spoiled' }),
  }),
  write('samples', [200, 200, 200, 403, 404, 401], {
    body: () => ({
      taking: {
        sample: 'R-T',
        taken_at: '2026-11-06T09:10:00-07:00',
        taken_by: 'Night shift',
        how: 'Scoops',
      },
    }),
  }),
  write('samples/parts', [200, 200, 200, 403, 404, 401], {
    body: () => ({
      parts: [{ sample: 'R-T', part: 'buyer', seal: 'R-1', airtight: 'yes', kept_where: 'Freezer' }],
    }),
  }),
  {
    ...change('sample-parts/[id]/handovers', () => `/api/v1/sample-parts/${NOWHERE}/handovers`),
    body: () => ({ handover: {} }),
    expected: statuses([404, 404, 404, 403, 404, 401]),
  },
  // What comes is JSON and no file, which is looked at first.
  write('files', [400, 400, 400, 400, 400, 401], { body: () => ({}) }),
  {
    ...change(
      'agreements/[id]/results/[result]/report',
      ({ agreement }) => `/api/v1/agreements/${agreement}/results/${NOWHERE}/report`,
    ),
    body: () => ({}),
    expected: statuses([400, 400, 400, 400, 400, 401]),
  },
  {
    ...change('results/[id]/confirmation', () => `/api/v1/results/${NOWHERE}/confirmation`),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  {
    ...change('results/[id]/contest', () => `/api/v1/results/${NOWHERE}/contest`),
    body: () => ({ reason: 'The starch is off' }),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  {
    // None of them is a laboratory that was let in.
    ...change(
      'laboratory/agreements/[id]/results',
      ({ agreement }) => `/api/v1/laboratory/agreements/${agreement}/results`,
    ),
    body: () => ({ results: [] }),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  {
    ...change('loads/[id]/allowance', ({ load }) => `/api/v1/loads/${load}/allowance`),
    body: () => ({ allowance: { taken_off: '1.00', per: 'load' }, reason: 'Wet' }),
    expected: statuses([409, 409, 403, 403, 404, 401]),
  },
  {
    ...change('allowances/[id]/answer', () => `/api/v1/allowances/${NOWHERE}/answer`),
    body: () => ({ answer: 'confirmed' }),
    expected: statuses([404, 404, 403, 403, 404, 401]),
  },
  ...MONEY_ROWS,
  ...RETEST_ROWS,
  ...OFFER_ROWS,
  ...PAYMENT_ROWS,
];
