/**
 * The pages and routes of questions with what they answer to whom. Who may see one that is there is tried in
 * `retests.test.ts`: the season of this table has no rule for questions.
 */
import { type Ids, page, type Row, statuses } from './role-row.ts';

const NOWHERE = '00000000-0000-7000-8000-000000000000';
const NONE = [404, 404, 404, 404, 404] as const;

export const RETEST_ROWS: readonly Row[] = [
  page('retests/page.tsx', () => '/retests', [200, 200, 200, 200, 200, 307]),
  page(
    'retests/page.tsx',
    ({ agreement }: Ids) => `/retests?agreement=${agreement}`,
    [200, 200, 200, 200, 404, 307],
    'the questions of an agreement',
  ),
  page(
    'retests/page.tsx',
    () => '/retests?agreement=17',
    [...NONE, 307],
    'of an address that is no agreement',
  ),
  page(
    'retests/new/page.tsx',
    ({ agreement }: Ids) => `/retests/new?agreement=${agreement}`,
    [200, 200, 403, 403, 404, 307],
  ),
  page('retests/[id]/page.tsx', () => `/retests/${NOWHERE}`, [...NONE, 307]),
  page('retests/[id]/page.tsx', () => '/retests/17', [...NONE, 307], 'an address that is no question'),
  {
    route: 'GET retests/[id]/paper/route.ts',
    path: () => `/retests/${NOWHERE}/paper`,
    expected: statuses([...NONE, 401]),
  },
];
