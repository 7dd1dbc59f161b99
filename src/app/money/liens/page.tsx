/**
 * Lenders' notices of a lien on the feed of an agreement: those that stand, recording one, and those that are over.
 */
import { randomUUID } from 'node:crypto';
import { dayInWords } from '../../../domain/dates/day-words.ts';
import { mayDo } from '../../../domain/parties/permissions.ts';
import type { AgreementPayments, LienView } from '../../../usecases/money/read-payments.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import type { Asked } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { chooseMoney, MoneyHead } from '../chosen-money.tsx';
import { LienCaution } from '../lien-caution.tsx';
import { nameList } from '../name-list.ts';
import { end, record } from './lien-actions.ts';

export const metadata = { title: 'Lenders’ notices' };

export default async function LiensPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const { chosen, mayKeep } = await ask(async (context) => ({
    chosen: await chooseMoney(context, { asked, locale, verb: 'read' }),
    mayKeep: mayDo(context.caller.role, 'keep-lien'),
  }));
  const { money } = chosen;
  return (
    <div className="narrow">
      <MoneyHead chosen={chosen} title="Lenders’ notices" path="/money/liens" told={await toldBy(asked)} />
      {money ? <Liens money={money} mayKeep={mayKeep && !money.isSealed} /> : null}
    </div>
  );
}

interface LiensProps {
  readonly money: AgreementPayments;
  readonly mayKeep: boolean;
}

function Liens({ money, mayKeep }: LiensProps) {
  const { liens, agreedLenders, side, buyer } = money;
  const standing = liens.filter(({ endedOn }) => endedOn === null);
  const over = liens.filter(({ endedOn }) => endedOn !== null);
  return (
    <>
      <LienCaution money={money} isHere />
      <section aria-labelledby="standing">
        <h2 id="standing">Notices that stand</h2>
        {agreedLenders.length === 0 ? null : (
          <p>The agreement itself names {nameList(agreedLenders)}: to change that, amend it.</p>
        )}
        {standing.length === 0 ? <p>No notice stands.</p> : null}
        <ul className="payments">
          {standing.map((lien) => (
            <Lien key={lien.lienId} lien={lien} money={money} mayEnd={mayKeep && side === 'buyer'} />
          ))}
        </ul>
        {mayKeep && side === 'seller' && standing.length > 0 ? (
          <p className="hint">
            {buyer} pays and answers to the lender, so {buyer} records that a lien is over. Send it the
            lender’s release.
          </p>
        ) : null}
      </section>
      {mayKeep ? <Record money={money} /> : null}
      {over.length === 0 ? null : (
        <section aria-labelledby="over">
          <h2 id="over">Notices that are over</h2>
          <ul className="payments">
            {over.map((lien) => (
              <Lien key={lien.lienId} lien={lien} money={money} mayEnd={false} />
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

interface LienProps {
  readonly lien: LienView;
  readonly money: AgreementPayments;
  readonly mayEnd: boolean;
}

function Lien({ lien, money: { agreementId, partner, today }, mayEnd }: LienProps) {
  const { lienId, lender, debtor, cropYear, county, conditions, receivedOn, endedOn, endReason } = lien;
  return (
    <li className="payment">
      <h3>{lender}</h3>
      {endedOn === null ? null : (
        <p>
          Over since {dayInWords(endedOn, today)}: “{endReason}”.
        </p>
      )}
      <dl className="facts">
        <div>
          <dt>Debtor</dt>
          <dd>{debtor}</dd>
        </div>
        <div>
          <dt>Crop year</dt>
          <dd>{cropYear}</dd>
        </div>
        <div>
          <dt>County</dt>
          <dd>{county}</dd>
        </div>
        <div>
          <dt>Notice received</dt>
          <dd>{dayInWords(receivedOn, today)}</dd>
        </div>
      </dl>
      <p>Conditions of payment: “{conditions}”</p>
      {mayEnd ? (
        <details className="more-fields">
          <summary>
            It is over<span className="visually-hidden">: {lender}</span>
          </summary>
          <p>From then on {lender} is no longer named on payments. Keep its written release.</p>
          <RecordForm
            action={end}
            submit={`Record that the notice of ${lender} is over`}
            fields={[
              { kind: 'hidden', name: 'agreement', value: agreementId },
              { kind: 'hidden', name: 'partner', value: partner },
              { kind: 'hidden', name: 'lien', value: lienId },
              { kind: 'date', name: 'ended_on', label: 'Over since', value: today },
              {
                kind: 'text',
                name: 'reason',
                label: 'What says so',
                hint: 'The lender’s written release and its date, for one. Both sides read it.',
              },
            ]}
            requestKey={randomUUID()}
            scope={`end-${lienId}`}
            quiet
          />
        </details>
      ) : null}
    </li>
  );
}

function Record({ money: { agreementId, seller, today } }: { readonly money: AgreementPayments }) {
  return (
    <section aria-labelledby="record">
      <h2 id="record">Record a notice</h2>
      <p className="caution">
        In the United States a written notice counts that came within one year before the sale and names the
        secured party (the lender), the debtor, the crop year, the county and the conditions of payment (7 USC
        1631). Local law decides what binds you; a licensed adviser should read the notice.
      </p>
      <RecordForm
        action={record}
        submit="Record the notice"
        fields={[
          { kind: 'hidden', name: 'agreement', value: agreementId },
          { kind: 'text', name: 'lender', label: 'Lender', hint: 'As the notice names the secured party.' },
          { kind: 'text', name: 'debtor', label: 'Debtor', value: seller, hint: 'As the notice names it.' },
          {
            kind: 'row',
            fields: [
              {
                kind: 'text',
                name: 'crop_year',
                label: 'Crop year',
                keys: 'decimal',
                value: today.slice(0, 4),
              },
              { kind: 'text', name: 'county', label: 'County' },
            ],
          },
          {
            kind: 'text',
            name: 'conditions',
            label: 'Conditions of payment',
            hint: 'Word for word: to whom payments are to be made out, and where they are sent.',
          },
          { kind: 'date', name: 'received_on', label: 'Received on', value: today },
        ]}
        requestKey={randomUUID()}
      />
    </section>
  );
}
