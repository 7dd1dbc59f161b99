/**
 * Which loads to list, as links.
 */
import type { AgreementSummary } from '../../usecases/agreements/read-agreement-list.ts';
import type { LoadListRequest } from '../../usecases/loads/read-load-list.ts';
import { addressOf } from '../place/asked.ts';
import { withPartner } from '../place/partner-words.ts';
import { type ListStatus, STATUSES } from './list-request.ts';

const STATUS_WORDS: Readonly<Record<ListStatus, string>> = {
  all: 'All',
  waiting: 'Not settled yet',
  settled: 'Settled',
  refused: 'Refused',
};

export interface ListFilterProps {
  readonly request: LoadListRequest;
  readonly agreements: readonly AgreementSummary[];
}

export function ListFilter({ request: { status, agreementId }, agreements }: ListFilterProps) {
  const to = (asked: { readonly status: ListStatus; readonly agreement: string | undefined }) =>
    addressOf('/loads', { ...asked, status: asked.status === 'all' ? undefined : asked.status });
  return (
    <nav aria-label="Which loads" className="filters">
      <ul>
        {STATUSES.map((known) => (
          <li key={known}>
            <a
              href={to({ status: known, agreement: agreementId })}
              aria-current={known === status ? 'true' : undefined}
            >
              {STATUS_WORDS[known]}
            </a>
          </li>
        ))}
      </ul>
      {agreements.length < 2 ? null : (
        <ul>
          <li>
            <a
              href={to({ status, agreement: undefined })}
              aria-current={agreementId === undefined ? 'true' : undefined}
            >
              Every agreement
            </a>
          </li>
          {agreements.map((agreement) => (
            <li key={agreement.id}>
              <a
                href={to({ status, agreement: agreement.id })}
                aria-current={agreement.id === agreementId ? 'true' : undefined}
              >
                {withPartner(agreement)}
              </a>
            </li>
          ))}
        </ul>
      )}
    </nav>
  );
}
