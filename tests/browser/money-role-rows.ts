/**
 * The pages and routes of money with what they answer to whom: every member reads, and buttons are for the office alone
 * (`money.test.ts`); what is between two parties is not there for others.
 */
import { type Ids, page, type Row, type Statuses, statuses } from './role-row.ts';

const NOWHERE = '00000000-0000-7000-8000-000000000000';
const PAGE: Statuses = [200, 200, 200, 200, 404, 307];
const FILE: Statuses = [200, 200, 200, 200, 404, 401];

const ofAgreement = (path: string) => (ids: Ids) => `${path}?agreement=${ids.agreement}`;
const ofDocument =
  (path = '') =>
  ({ document }: Ids) =>
    `/money/documents/${document}${path}`;

function file(route: string, path: Row['path'], list: Statuses = FILE, name?: string): Row {
  const row = { route: `GET ${route}/route.ts`, path, expected: statuses(list) };
  return name === undefined ? row : { ...row, name };
}

export const MONEY_ROWS: readonly Row[] = [
  page('money/page.tsx', () => '/money', [200, 200, 200, 200, 200, 307]),
  page('money/page.tsx', ofAgreement('/money'), PAGE, 'the money of an agreement'),
  page('money/documents/page.tsx', ofAgreement('/money/documents'), PAGE),
  page('money/documents/[id]/page.tsx', ofDocument(), PAGE),
  page(
    'money/documents/[id]/page.tsx',
    () => `/money/documents/${NOWHERE}`,
    [404, 404, 404, 404, 404, 307],
    'a document that is not there',
  ),
  page(
    'money/documents/[id]/page.tsx',
    () => '/money/documents/17',
    [404, 404, 404, 404, 404, 307],
    'an address that is no document',
  ),
  file('money/documents/[id]/paper', ofDocument('/paper')),
  file('money/documents/[id]/e-invoice', ofDocument('/e-invoice?seller=US&buyer=us')),
  file(
    'money/documents/[id]/e-invoice',
    ofDocument('/e-invoice?seller=America&buyer='),
    [400, 400, 400, 400, 404, 401],
    'an electronic invoice of no country',
  ),
  page('money/issue/page.tsx', ofAgreement('/money/issue'), PAGE),
  page('money/statement/page.tsx', ofAgreement('/money/statement'), PAGE),
  page(
    'money/statement/page.tsx',
    () => '/money/statement',
    [200, 200, 200, 200, 200, 307],
    'a statement with whom one chooses',
  ),
  file('money/statement/paper', ofAgreement('/money/statement/paper')),
  file(
    'money/statement/paper',
    () => '/money/statement/paper',
    [400, 400, 400, 400, 400, 401],
    'a statement with nobody',
  ),
  file('money/statement/csv', ofAgreement('/money/statement/csv')),
];
