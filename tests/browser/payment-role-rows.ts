/**
 * Pages and routes of payments, liens, accounts and instructions, with what each answers to whom.
 */
import { type Ids, page, type Row, statuses } from './role-row.ts';

const ofAgreement = (path: string) => (ids: Ids) => `${path}?agreement=${ids.agreement}`;

export const PAYMENT_ROWS: readonly Row[] = [
  page('money/pay/page.tsx', ofAgreement('/money/pay'), [200, 200, 403, 403, 404, 307]),
  page('money/payments/page.tsx', ofAgreement('/money/payments'), [200, 200, 200, 200, 404, 307]),
  page('money/liens/page.tsx', ofAgreement('/money/liens'), [200, 200, 200, 200, 404, 307]),
  page('money/account/page.tsx', () => '/money/account', [200, 200, 200, 200, 200, 307]),
  page('money/books/page.tsx', () => '/money/books', [200, 200, 200, 200, 200, 307]),
  page('money/instruction/page.tsx', ofAgreement('/money/instruction'), [200, 200, 403, 403, 404, 307]),
  {
    // Nothing was due so long ago, which is said to whoever may pay.
    route: 'GET money/instruction/file/route.ts',
    path: ({ agreement }) =>
      `/money/instruction/file?form=csv&agreement=${agreement}&due_by=2001-01-01&pay_on=2001-01-01`,
    expected: statuses([400, 400, 403, 403, 404, 401]),
  },
  {
    route: 'GET money/journal.csv/route.ts',
    path: ofAgreement('/money/journal.csv'),
    expected: statuses([200, 200, 200, 200, 404, 401]),
  },
];
