/**
 * One load: what it came to and how, what was weighed and tested, and everything that was recorded of it.
 */
import { randomUUID } from 'node:crypto';
import { readAgreementWords } from '../../../usecases/agreements/read-agreement-words.ts';
import { type LoadView, readLoad } from '../../../usecases/loads/read-load.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { PriceStair } from '../../stair/price-stair.tsx';
import { LoadStripPicture, StripLegend } from '../../strip/load-strip-picture.tsx';
import { LoadHistory } from './load-history.tsx';
import { LoadQuotes } from './load-quotes.tsx';
import { LoadStanding } from './load-standing.tsx';
import { LoadStep } from './load-step.tsx';
import { LoadTicket } from './load-ticket.tsx';

export const metadata = { title: 'Load' };

export default async function LoadPage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const { id } = await params;
  const locale = await readerLocale();
  const { load, role, series } = await ask(async (context) => {
    const found = await readLoad(context, { loadId: id, locale });
    const agreement = await readAgreementWords(context, { agreementId: found.agreementId });
    return { load: found, role: context.caller.role, series: agreement.series };
  });
  const { ticket, price, standing } = load;
  return (
    <>
      <div className="title">
        <h1>Load {ticket.ticket}</h1>
        <p className="quiet-word">
          {load.seller} to {load.buyer}, agreement{' '}
          <a href={`/agreements/${load.agreementId}`}>{load.agreementNumber}</a>
        </p>
      </div>
      <LoadStripPicture load={ticket.strip} />
      <StripLegend load={ticket.strip} />
      <LoadStanding load={load} />
      {load.side === 'adviser' ? null : (
        <LoadStep load={load} role={role} series={series} requestKey={randomUUID()} />
      )}
      {price ? (
        <section aria-labelledby="price">
          <h2 id="price">{standing.status === 'settled' ? 'How it comes about' : 'What it would come to'}</h2>
          <PriceStair
            lines={price.lines}
            amounts={load.amounts}
            total={price.total}
            currency={load.currency}
          />
          <LoadQuotes references={price.references} />
        </section>
      ) : null}
      <LoadTicket load={load} />
      <LoadHistory
        partner={partnerOf(load)}
        history={load.history}
        timeZone={load.timeZone}
        isRefused={standing.status === 'refused'}
      />
    </>
  );
}

/** Whose people are not named to the reader. */
function partnerOf({ side, seller, buyer }: LoadView): string {
  if (side === 'adviser') return `somebody of ${seller} or ${buyer}`;
  return side === 'seller' ? buyer : seller;
}
