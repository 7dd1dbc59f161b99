/**
 * Money: what waits for the reader, who owes whom, what is open by its due date, and the season in one picture.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { readMoney } from '../../usecases/money/read-money.ts';
import { NoAgreement } from '../agreements/no-agreement.tsx';
import { type Asked, askedText } from '../place/asked.ts';
import { Told } from '../place/told.tsx';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { toldBy } from '../server/told.ts';
import { DueList } from './due-list.tsx';
import { MoneyWaits } from './money-waits.tsx';
import { PartnerList } from './partner-list.tsx';
import { SeasonChart } from './season-chart.tsx';

export const metadata = { title: 'Money' };

export default async function MoneyPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const agreementId = askedText(asked, 'agreement');
  const { place, role } = await ask(async (context) => ({
    place: await readMoney(context, { locale, agreementId }),
    role: context.caller.role,
  }));
  const { waits, partners, items, seasons, today } = place;
  const told = await toldBy(asked);
  const about = partners[0]?.agreements[0];
  return (
    <>
      <h1>Money</h1>
      {agreementId === undefined || !about ? null : (
        <p className="quiet-word">
          Under agreement <a href={`/agreements/${about.id}`}>{about.number}</a> alone ·{' '}
          <a href="/money">all your money</a>
        </p>
      )}
      <Told told={told} />
      {partners.length === 0 ? (
        <>
          <p>Nothing is owed here: you have no agreement under which feed is delivered.</p>
          <NoAgreement mayRecord={mayDo(role, 'record-agreement')} />
        </>
      ) : (
        <>
          <MoneyWaits waits={waits} role={role} />
          <PartnerList partners={partners} role={role} />
          <DueList items={items} today={today} />
          {seasons.map((season) => (
            <SeasonChart key={season.currency} season={season} today={today} locale={locale} />
          ))}
        </>
      )}
    </>
  );
}
