/**
 * What one kind of refusal means, for whoever follows the address in it. Open to anybody: it says nothing of a record.
 */
import { notFound } from 'next/navigation';
import { isProblemCode, PROBLEM_WORDS, problemStatus } from '../../problem-words.ts';

export interface ProblemPageProps {
  readonly params: Promise<{ readonly code: string }>;
}

export async function generateMetadata({ params }: ProblemPageProps) {
  const { code } = await params;
  return { title: isProblemCode(code) ? PROBLEM_WORDS[code].title : 'There is nothing here' };
}

export default async function ProblemPage({ params }: ProblemPageProps) {
  const { code } = await params;
  if (!isProblemCode(code)) notFound();
  const { title, meaning } = PROBLEM_WORDS[code];
  return (
    <div className="narrow">
      <h1>{title}</h1>
      <p>{meaning}</p>
      <p className="hint">
        Programs that ask under /api/v1 are answered so with status {problemStatus(code)} and the code{' '}
        <code>{code}</code>.
      </p>
    </div>
  );
}
