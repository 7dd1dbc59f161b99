/**
 * Advice: what the reader's party advises on, and who advises it.
 */
import type { AdviceView } from '../../usecases/advice/read-advice.ts';
import { readAdvice } from '../../usecases/advice/read-advice.ts';
import { ask } from '../server/ask.ts';

export const metadata = { title: 'Advice' };

export default async function AdvicePage() {
  const all = await ask((context) => readAdvice(context));
  const given = all.filter(({ isOurs }) => isOurs);
  const got = all.filter(({ isOurs }) => !isOurs);
  return (
    <>
      <h1>Advice</h1>
      {all.length === 0 ? (
        <p>
          You advise nobody, and nobody advises you. An owner asks an adviser on the page of a lot, an offer
          or an agreement, at its end.
        </p>
      ) : null}
      <Part heading="You advise" list={given} />
      <Part heading="Who advises you" list={got} />
    </>
  );
}

function Part({ heading, list }: { readonly heading: string; readonly list: readonly AdviceView[] }) {
  if (list.length === 0) return null;
  return (
    <section>
      <h2>{heading}</h2>
      <ul className="waiting">
        {list.map(({ id, other, words, notes, drafts, endedAt }) => (
          <li key={id}>
            <p>
              <a href={`/advice/${id}`}>
                {other}, on {words}
              </a>
              {endedAt === null ? '' : ', ended'}
              <br />
              <span className="quiet-word">{written(notes.length, drafts.length)}</span>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function written(notes: number, drafts: number): string {
  const parts = [
    ...(drafts === 0 ? [] : [drafts === 1 ? 'one draft' : `${drafts} drafts`]),
    ...(notes === 0 ? [] : [notes === 1 ? 'one note' : `${notes} notes`]),
  ];
  return parts.length === 0 ? 'Nothing written yet.' : `${parts.join(', ')}.`;
}
