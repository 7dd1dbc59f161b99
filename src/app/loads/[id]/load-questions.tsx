/**
 * What of a load is questioned, or was, with the way to each question.
 */
import type { LoadQuestion } from '../../../usecases/retests/read-load-questions.ts';

export function LoadQuestions({ questions }: { readonly questions: readonly LoadQuestion[] }) {
  return questions.map(({ id, name, askedOn, value, isMoved }) => (
    <p key={id} className={value === undefined ? 'told' : undefined}>
      {value === undefined
        ? `${name} is questioned since ${askedOn}: `
        : isMoved
          ? `${name} is ${value} by a question of ${askedOn}, not as it was first recorded: `
          : `${name} was questioned on ${askedOn}, and stands: `}
      <a href={`/retests/${id}`}>the question</a>.
    </p>
  ));
}
