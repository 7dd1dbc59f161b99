/**
 * Loads: what waits first, in sentences, then every load as a strip, newest first.
 */
import { randomUUID } from 'node:crypto';
import { mayDo } from '../../domain/parties/permissions.ts';
import { readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
import { readLaboratoryWork } from '../../usecases/laboratories/read-laboratories.ts';
import { readLoadList } from '../../usecases/loads/read-load-list.ts';
import { readWaiting } from '../../usecases/loads/read-waiting.ts';
import { type Asked, addressOf, askedText } from '../place/asked.ts';
import { Told } from '../place/told.tsx';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { toldBy } from '../server/told.ts';
import { StripLegend } from '../strip/load-strip-picture.tsx';
import { EmptyLoads } from './empty-loads.tsx';
import { ListFilter } from './list-filter.tsx';
import { cursorText, listRequest } from './list-request.ts';
import { LoadRow } from './load-row.tsx';
import { WaitingList } from './waiting-list.tsx';

export const metadata = { title: 'Loads' };

export default async function LoadsPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const locale = await readerLocale();
  const request = listRequest(asked, locale);
  const page = await ask(async (context) => ({
    role: context.caller.role,
    agreements: await readAgreementList(context, { locale }),
    waiting: await readWaiting(context),
    list: await readLoadList(context, request),
    work: await readLaboratoryWork(context),
  }));
  const { role, agreements, waiting, list, work } = page;
  const told = await toldBy(asked);
  // Whoever only advises weighs nothing.
  const isPartner = agreements.some(({ side }) => side !== 'adviser');
  return (
    <>
      <div className="title">
        <h1>Loads</h1>
        {isPartner && mayDo(role, 'record-load') ? (
          <a className={role === 'scale-operator' ? 'act-link' : 'plain-link'} href="/loads/new">
            Weigh a load
          </a>
        ) : null}
      </div>
      <Told told={told} />
      {work.length === 0 ? null : (
        <p>
          <a className="act-link" href="/laboratory">
            Samples to report on
          </a>
        </p>
      )}
      <WaitingList groups={waiting} role={role} requestKey={randomUUID} isOneOfMany={agreements.length > 1} />
      {agreements.length === 0 || (agreements.every(({ loads }) => loads === 0) && waiting.length === 0) ? (
        <EmptyLoads
          hasAgreement={agreements.length > 0}
          isPartner={isPartner}
          isLaboratory={work.length > 0}
          role={role}
        />
      ) : (
        <section aria-labelledby="all-loads">
          <h2 id="all-loads">Every load, newest first</h2>
          <ListFilter request={request} agreements={agreements} />
          <StripLegend />
          {list.loads.length === 0 ? (
            <p>No loads here.</p>
          ) : (
            <ol className="loads">
              {list.loads.map((load) => (
                <LoadRow key={load.id} load={load} showAgreement={agreements.length > 1} />
              ))}
            </ol>
          )}
          {list.next ? (
            <p className="paging">
              <a
                href={addressOf('/loads', {
                  status: request.status === 'all' ? undefined : request.status,
                  agreement: request.agreementId,
                  next: cursorText(list.next),
                })}
              >
                Older loads
              </a>
            </p>
          ) : null}
          {askedText(asked, 'next') === undefined ? null : (
            <p className="paging">
              <a
                href={addressOf('/loads', {
                  status: request.status === 'all' ? undefined : request.status,
                  agreement: request.agreementId,
                })}
              >
                Back to the newest
              </a>
            </p>
          )}
        </section>
      )}
    </>
  );
}
