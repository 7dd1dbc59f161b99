/**
 * Pages and routes of offers, of signing and of papers, with what each answers to whom.
 */
import { type Ids, page, type Row, read, statuses, write } from './role-row.ts';

const offer = (path: string) => (ids: Ids) => `/offers/${ids.offer}${path}`;
const agreement = (path: string) => (ids: Ids) => `/agreements/${ids.agreement}${path}`;

const writeOffer = (
  file: string,
  path: Row['path'],
  { list, body }: { readonly list: Parameters<typeof statuses>[0]; readonly body: Row['body'] },
): Row => ({
  route: `POST api/v1/offers${file}/route.ts`,
  path,
  expected: statuses(list),
  ...(body === undefined ? {} : { body }),
});

export const OFFER_ROWS: readonly Row[] = [
  page('offers/page.tsx', () => '/offers', [200, 200, 200, 200, 200, 307]),
  page('offers/[id]/page.tsx', offer(''), [200, 200, 200, 200, 404, 307]),
  page(
    'offers/[id]/page.tsx',
    ({ endedOffer }) => `/offers/${endedOffer}`,
    [200, 200, 200, 200, 404, 307],
    'an offer that was withdrawn',
  ),
  page(
    'offers/[id]/page.tsx',
    () => '/offers/not-an-id',
    [404, 404, 404, 404, 404, 307],
    'an address that is no offer',
  ),
  page('offers/[id]/counter/page.tsx', offer('/counter'), [200, 200, 403, 403, 404, 307]),
  // What is over is answered no more: the page leads back to it.
  page(
    'offers/[id]/counter/page.tsx',
    ({ endedOffer }) => `/offers/${endedOffer}/counter`,
    [307, 307, 403, 403, 404, 307],
    'a new version of what was withdrawn',
  ),
  // Everybody reads what is to be signed; the form is there for an owner alone.
  page('offers/[id]/sign/page.tsx', offer('/sign'), [200, 200, 200, 200, 404, 307]),
  {
    route: 'GET offers/[id]/paper/route.ts',
    path: offer('/paper?version=1'),
    expected: statuses([200, 200, 200, 200, 404, 401]),
  },
  {
    route: 'GET offers/[id]/paper/route.ts',
    name: 'the paper of a version that there is none of',
    path: offer('/paper?version=9'),
    expected: statuses([404, 404, 404, 404, 404, 401]),
  },
  // The dairy has an offer on the lot already, and is led to it.
  page('lots/[id]/offer/page.tsx', ({ lot }) => `/lots/${lot}/offer`, [307, 307, 403, 403, 404, 307]),
  {
    ...page('lots/[id]/offer/page.tsx', ({ lot }) => `/lots/${lot}/offer`, [403, 403, 403, 403, 404, 307]),
    name: 'an offer on one’s own lot',
    side: 'seller',
  },
  page('agreements/[id]/amend/page.tsx', agreement('/amend'), [200, 200, 403, 403, 404, 307]),
  page('agreements/[id]/close/page.tsx', agreement('/close'), [200, 200, 403, 403, 404, 307]),
  {
    route: 'GET agreements/[id]/paper/route.ts',
    path: agreement('/paper'),
    expected: statuses([200, 200, 200, 200, 404, 401]),
  },
  read('offers', () => '/api/v1/offers', [200, 200, 200, 200, 200, 401]),
  read('offers/[id]', ({ offer: id }) => `/api/v1/offers/${id}`, [200, 200, 200, 200, 404, 401]),
  writeOffer('', () => '/api/v1/offers', {
    list: [409, 409, 403, 403, 404, 401],
    body: ({ lot }) => ({ lotId: lot, document: {}, validDays: '7' }),
  }),
  writeOffer('/[id]/versions', ({ offer: id }) => `/api/v1/offers/${id}/versions`, {
    // Held against a version that is not the newest.
    list: [409, 409, 403, 403, 404, 401],
    body: () => ({ baseVersion: 99, document: {}, validDays: '7' }),
  }),
  writeOffer('/[id]/ending', ({ endedOffer }) => `/api/v1/offers/${endedOffer}/ending`, {
    list: [409, 409, 403, 403, 404, 401],
    body: () => ({}),
  }),
  // Without terms or dates both are refused for their faults, to whoever may propose.
  write('amendments', [400, 400, 403, 403, 404, 401], {
    body: () => ({ document: {}, effectiveFrom: 'soon', validDays: '7' }),
  }),
  write('closings', [400, 400, 403, 403, 404, 401], {
    body: () => ({ lastDelivery: 'soon', validDays: '7' }),
  }),
];
