/**
 * The laboratories that an agreement lets enter its results: which there are, letting one in, ending one.
 */
import { randomUUID } from 'node:crypto';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import {
  type LaboratoryView,
  readLaboratories,
} from '../../../../usecases/laboratories/read-laboratories.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import type { Asked } from '../../../place/asked.ts';
import { mayAct } from '../../../place/may-act.ts';
import { Told } from '../../../place/told.tsx';
import { ask } from '../../../server/ask.ts';
import { toldBy } from '../../../server/told.ts';
import { end, invite } from './laboratory-actions.ts';

export const metadata = { title: 'Laboratories' };

export interface LaboratoriesPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function LaboratoriesPage({ params, searchParams }: LaboratoriesPageProps) {
  const [{ id }, asked] = [await params, await searchParams];
  const { agreement, laboratories, role } = await ask(async (context) => ({
    agreement: await readAgreementWords(context, { agreementId: id }),
    laboratories: await readLaboratories(context, { agreementId: id }),
    role: context.caller.role,
  }));
  const { number, seller, buyer } = agreement;
  const told = await toldBy(asked);
  const open = laboratories.filter(({ isEnded }) => !isEnded);
  const ended = laboratories.filter(({ isEnded }) => isEnded);
  const mayInvite = mayAct(agreement.side, role, 'invite');
  return (
    <div className="narrow">
      <h1>Laboratories</h1>
      <p className="quiet-word">
        {seller} to {buyer}, agreement <a href={`/agreements/${id}`}>{number}</a>
      </p>
      <Told told={told} />
      <p>
        A laboratory that is let in enters its results itself. It sees this agreement’s number and parties,
        its samples, their seals and results: no weight, no price, no term. Either side still confirms or
        contests what it reports.
      </p>
      {open.length === 0 ? (
        <p>None is let in.</p>
      ) : (
        <ul className="members">
          {open.map((laboratory) => (
            <Item key={laboratory.id} laboratory={laboratory} agreementId={id} mayEnd={mayInvite} />
          ))}
        </ul>
      )}
      {mayInvite ? (
        <section aria-labelledby="invite">
          <h2 id="invite">Let a laboratory in</h2>
          <p>One that nobody has joined yet gets a new link under the same name.</p>
          <RecordForm
            action={invite}
            submit="Make its invitation"
            fields={[
              { kind: 'hidden', name: 'agreement', value: id },
              { kind: 'text', name: 'laboratory', label: 'The laboratory' },
            ]}
          />
        </section>
      ) : null}
      {ended.length === 0 ? null : (
        <section aria-labelledby="ended">
          <h2 id="ended">No longer let in</h2>
          <ul>
            {ended.map(({ id: accessId, name, since }) => (
              <li key={accessId}>
                {name}, let in on {since.slice(0, 10)}
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

interface ItemProps {
  readonly laboratory: LaboratoryView;
  readonly agreementId: string;
  readonly mayEnd: boolean;
}

function Item({ laboratory: { id, name, since, hasPeople }, agreementId, mayEnd }: ItemProps) {
  return (
    <li>
      <span>
        {name}, since {since.slice(0, 10)}.{hasPeople ? '' : ' Nobody has come by its link yet.'}
      </span>
      {mayEnd ? (
        <details>
          <summary>
            End it<span className="visually-hidden"> for {name}</span>
          </summary>
          <p>From then on {name} sees and enters nothing here. What it reported stays.</p>
          <RecordForm
            action={end}
            submit={`End it for ${name}`}
            fields={[
              { kind: 'hidden', name: 'agreement', value: agreementId },
              { kind: 'hidden', name: 'access', value: id },
              { kind: 'hidden', name: 'name', value: name },
            ]}
            requestKey={randomUUID()}
            quiet
          />
        </details>
      ) : null}
    </li>
  );
}
