/**
 * What a buyer stored under an agreement: how much of the dry matter that it put in came out again. The buyer's own account.
 */
import { randomUUID } from 'node:crypto';
import { figuresFor } from '../../../../documents/figures.ts';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { readSilos } from '../../../../usecases/storage/read-silos.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import type { Asked } from '../../../place/asked.ts';
import { withPartner } from '../../../place/partner-words.ts';
import { Told } from '../../../place/told.tsx';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { toldBy } from '../../../server/told.ts';
import { open } from './silo-actions.ts';
import { SiloCautions } from './silo-cautions.tsx';
import { siloFields } from './silo-fields.ts';
import { SiloPart } from './silo-part.tsx';

export const metadata = { title: 'What you stored' };

export interface StoredPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function StoredPage({ params, searchParams }: StoredPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { agreement, view, mayWrite } = await ask(async (context) => {
    const agreement = await readAgreementWords(context, { agreementId: id });
    if (agreement.side !== 'buyer') throw new Refusal('not-found', 'There is no such page.');
    return {
      agreement,
      view: await readSilos(context, { agreementId: id }),
      mayWrite: mayDo(context.caller.role, 'keep-silo'),
    };
  });
  const { silos, delivered, today } = view;
  const told = await toldBy(asked);
  return (
    <>
      <div className="title">
        <h1>What you stored</h1>
        <p className="quiet-word">
          <a href={`/agreements/${id}`}>{withPartner(agreement)}</a>
        </p>
      </div>
      <Told told={told} />
      <p className="hint">
        Dry matter that you put into a bag, bunker, pile or tower, against what you fed from it and what is
        left. It is your own account: the seller and your advisers do not see it, and it prices nothing.
      </p>
      <SiloCautions />
      {silos.length === 0 ? <p>Nothing is written down yet.</p> : null}
      {silos.map((silo) => (
        <SiloPart
          key={silo.siloId}
          {...{ agreementId: id, silo, delivered, today, mayWrite }}
          figures={figuresFor(locale)}
        />
      ))}
      {mayWrite ? (
        <section aria-labelledby="open">
          <h2 id="open">{silos.length === 0 ? 'Begin with one' : 'Another one'}</h2>
          <div className="narrow">
            <RecordForm
              action={open}
              submit="Begin its account"
              fields={[{ kind: 'hidden', name: 'agreement', value: id }, ...siloFields('silo', {})]}
              requestKey={randomUUID()}
              scope="open"
              quiet={silos.length > 0}
            />
          </div>
        </section>
      ) : null}
    </>
  );
}
