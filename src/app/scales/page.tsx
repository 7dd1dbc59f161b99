/**
 * The party's scales, what is due about them first, and those of partners on which its loads may be weighed.
 */
import { randomUUID } from 'node:crypto';
import { figuresFor } from '../../documents/figures.ts';
import { mayDo } from '../../domain/parties/permissions.ts';
import { readScales } from '../../usecases/scales/keep-scale.ts';
import type { ScaleView } from '../../usecases/scales/scale-view.ts';
import { RecordForm } from '../forms/record-form.tsx';
import type { Asked } from '../place/asked.ts';
import { Told } from '../place/told.tsx';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { toldBy } from '../server/told.ts';
import { addScale } from './scale-actions.ts';
import { scaleFields } from './scale-fields.ts';
import { ScaleItem } from './scale-item.tsx';

export const metadata = { title: 'Scales' };

export default async function ScalesPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const { scales, role } = await ask(async (context) => ({
    scales: await readScales(context),
    role: context.caller.role,
  }));
  const told = await toldBy(await searchParams);
  const { show } = figuresFor(await readerLocale());
  const own = scales.filter(({ isOwn }) => isOwn);
  const others = scales.filter(({ isOwn }) => !isOwn);
  const mayKeep = mayDo(role, 'keep-scale');
  return (
    <>
      <h1>Scales</h1>
      <Told told={told} />
      <Due scales={own} />
      <section aria-labelledby="own">
        <h2 id="own">Yours</h2>
        {own.length === 0 ? (
          <p>None is described yet. A ticket can name its scale once it is.</p>
        ) : (
          <ul className="scales">
            {own.map((scale) => (
              <ScaleItem key={scale.id} scale={scale} mayChange={mayKeep} show={show} />
            ))}
          </ul>
        )}
      </section>
      {mayKeep ? (
        <section aria-labelledby="add">
          <h2 id="add">Describe another scale</h2>
          <details className="more-fields" open={own.length === 0}>
            <summary>A scale of yours</summary>
            <div className="narrow">
              <RecordForm
                action={addScale}
                submit="Add this scale"
                fields={scaleFields(undefined)}
                requestKey={randomUUID()}
              />
            </div>
          </details>
        </section>
      ) : null}
      {others.length === 0 ? null : (
        <section aria-labelledby="others">
          <h2 id="others">Of those you have agreements with</h2>
          <ul className="scales">
            {others.map((scale) => (
              <ScaleItem key={scale.id} scale={scale} mayChange={false} show={show} />
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function Due({ scales }: { readonly scales: readonly ScaleView[] }) {
  const late = scales.filter(({ test }) => test.is === 'overdue' || test.is === 'never-tested');
  const soon = scales.filter(({ test }) => test.is === 'due');
  if (late.length + soon.length === 0) return scales.length === 0 ? null : <p>No test is due.</p>;
  return (
    <ul className="waiting">
      {[...late, ...soon].map(({ id, name, test, testInWords }) => (
        <li key={id} className={test.is === 'due' ? undefined : 'yours'}>
          <p>
            {name}: {testInWords}
          </p>
        </li>
      ))}
    </ul>
  );
}
