/**
 * The questions of a season, how each ended, and what it moved.
 */
import { dayInWords } from '../../../../domain/dates/day-words.ts';
import type { SeasonPage, SeasonQuestion } from '../../../../usecases/season/read-season-page.ts';
import { costsSentence, movedSentence, questionsSentence } from './season-words.ts';

export function SeasonQuestionsPart({ page }: { readonly page: SeasonPage }) {
  const { questions } = page;
  if (!questions) return null;
  const [moved, costs] = [movedSentence(questions, page), costsSentence(questions, page)];
  return (
    <section aria-labelledby="questions">
      <h2 id="questions">Questions and retests</h2>
      <p>{questionsSentence(questions)}</p>
      {moved === undefined ? null : <p>{moved}</p>}
      {costs === undefined ? null : <p>{costs}</p>}
      {questions.items.length === 0 ? null : (
        <ul className="season-questions">
          {questions.items.map((question) => (
            <li key={question.id}>
              <a href={`/retests/${question.id}`}>{question.what}</a>, asked on{' '}
              {dayInWords(question.askedOn, page.today)}
              <span className="under">
                {question.isOver ? '' : 'Open. '}
                {question.standing} {figures(question)} {movedBy(question, page)}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** "48,540 became 47,900 lb." */
function figures({ first, value, stays, unit }: SeasonQuestion): string {
  const withUnit = (figure: string) => (unit === '' ? figure : `${figure} ${unit}`);
  if (value === undefined) return `The questioned figure is ${withUnit(first)}.`;
  return stays ? `${withUnit(first)} stays.` : `${first} became ${withUnit(value)}.`;
}

function movedBy(
  { moved, isOver }: SeasonQuestion,
  { currency, seller, buyer }: Pick<SeasonPage, 'currency' | 'seller' | 'buyer'>,
): string {
  if (!moved) return isOver ? 'No money moved.' : '';
  return moved.to === 'seller'
    ? `${moved.amount} ${currency} more for ${seller}.`
    : `${moved.amount} ${currency} less to pay for ${buyer}.`;
}
