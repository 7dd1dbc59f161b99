/**
 * Patterns: how laboratories and scales that met in retests differ, so that a one-sided one is noticed before the next question.
 */
import { readPatterns } from '../../../usecases/retests/read-patterns.ts';
import { type Asked, askedText } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { PatternPart } from './pattern-view.tsx';

export const metadata = { title: 'Patterns in retests' };

export default async function PatternsPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const agreementId = askedText(asked, 'agreement');
  const { patterns, unnamed, agreement, today } = await ask((context) =>
    readPatterns(context, { locale, agreementId }),
  );
  const tested = patterns.filter(({ tests }) => tests !== undefined).length;
  const agreements = new Set(patterns.flatMap(({ meetings }) => meetings.map((met) => met.agreement)));
  return (
    <>
      <h1>Patterns in retests</h1>
      <p className="quiet-word">
        {agreement ? (
          <>
            Under agreement <a href={`/agreements/${agreement.id}`}>{agreement.number}</a> alone ·{' '}
            <a href="/retests/patterns">all your agreements</a> ·{' '}
          </>
        ) : null}
        <a href="/retests">Questions</a>
      </p>
      {patterns.length === 0 ? <Empty /> : <Foreword tested={tested} />}
      {patterns.map((pattern, index) => (
        <PatternPart
          key={JSON.stringify([pattern.about, pattern.unit, pattern.one, pattern.other])}
          pattern={pattern}
          id={`pattern-${index}`}
          today={today}
          locale={locale}
          hasSeveral={agreements.size > 1}
        />
      ))}
      {unnamed === 0 ? null : <p className="hint">{unnamedWords(unnamed)}</p>}
    </>
  );
}

function Empty() {
  return (
    <>
      <p>No two laboratories or scales have met here yet.</p>
      <p>
        When a figure is questioned and tested again, the two who tested it meet. This page then shows by how
        much they differ, whether it is always the same one that reads higher, and how easily chance alone
        would do that.
      </p>
    </>
  );
}

function Foreword({ tested }: { readonly tested: number }) {
  return (
    <>
      <p>
        Where figures are questioned often, a laboratory or a scale may read to one side. Here is how each two
        that met in your questions differ. Figures that were contested are left out.
      </p>
      {tested < 2 ? null : (
        <p>
          {tested} pairs are held against chance here. The more are, the likelier it is that one looks
          one-sided by chance: where nothing is wrong at all, as many as 1 in 20 still do.
        </p>
      )}
    </>
  );
}

function unnamedWords(unnamed: number): string {
  const [many, are] = unnamed === 1 ? ['One retest', 'is'] : [`${unnamed} retests`, 'are'];
  return `${many} ${are} not shown, since nobody can say whose first figure it was: the report names no laboratory, or the ticket does not name one scale for both weights.`;
}
