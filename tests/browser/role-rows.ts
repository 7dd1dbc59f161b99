/**
 * Every page and route with what it answers to whom.
 */
import { OFFER_ROWS } from './offer-role-rows.ts';
import { type Ids, page, type Row, read, statuses, write } from './role-row.ts';

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
  ...OFFER_ROWS,
];
