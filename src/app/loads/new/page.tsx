/**
 * The scale operator's one screen: truck, gross, tare, done, next.
 */
import { randomUUID } from 'node:crypto';
import { type LoadView, readLoad } from '../../../usecases/loads/read-load.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { type Asked, askedText } from '../../place/asked.ts';
import { AgreementChoice, AgreementLine, chooseAgreement } from '../../place/chosen-agreement.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { openedRecord } from '../../server/record.ts';
import { weigh } from './weigh.ts';
import { weighingFields } from './weighing-fields.ts';

export const metadata = { title: 'Weigh a load' };

export default async function WeighingPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const locale = await readerLocale();
  const doneId = askedText(asked, 'done');
  const { chosen, done } = await ask(async (context) => ({
    chosen: await chooseAgreement(context, { asked, locale, verb: 'record-load' }),
    done: doneId === undefined ? undefined : await readLoad(context, { loadId: doneId, locale }),
  }));
  const { agreement, agreements } = chosen;
  const { now } = await openedRecord();
  return (
    <div className="narrow weighing">
      {done ? <Done load={done} wasThere={askedText(asked, 'before') !== undefined} /> : null}
      <h1>{done ? 'Next load' : 'Weigh a load'}</h1>
      <AgreementLine chosen={chosen} path="/loads/new" />
      {agreement ? (
        <RecordForm
          // A new form for every load: what was typed for the last one must not stay.
          key={doneId ?? 'first'}
          action={weigh}
          submit="Record this load"
          requestKey={randomUUID()}
          fields={weighingFields(agreement, { now: now(), unit: done?.ticket.gross.unit })}
        />
      ) : (
        <AgreementChoice agreements={agreements} path="/loads/new" />
      )}
    </div>
  );
}

/** What was just recorded, with the net weight to call to the driver. */
function Done({ load, wasThere }: { readonly load: LoadView; readonly wasThere: boolean }) {
  const { ticket, net, gross, tare, deliveredAt, truck } = load.ticket;
  const unit = net.unit === 'short-ton' ? 'short ton' : net.unit;
  return (
    <div className="told done" role="status">
      <p>{wasThere ? `Load ${ticket} was recorded before, the same.` : `Load ${ticket} is recorded.`} Net</p>
      <p className="net">
        {net.figure} {unit}
      </p>
      <p>
        {truck === undefined ? '' : `Truck ${truck}, `}
        {gross.figure} less {tare.figure} {unit}, at <span className="amount">{deliveredAt}</span>.{' '}
        <a href={`/loads/${load.id}`}>See load {ticket}</a>
      </p>
    </div>
  );
}
