/**
 * What is still to be put right, each with a way to its field.
 */
'use client';

import { useBuilder } from './builder-context.tsx';
import { idOfPath } from './document-path.ts';
import { placeInWords } from './place-words.ts';

export function ProblemList() {
  const { problems, document } = useBuilder();
  if (problems.length === 0) return <p className="all-right">Nothing is missing or wrong.</p>;
  return (
    <div className="refused to-put-right">
      <p>{problems.length === 1 ? 'One thing to put right:' : `${problems.length} things to put right:`}</p>
      <ul>
        {problems.map(({ path, message }) => (
          <li key={`${idOfPath(path)} ${message}`}>
            <a href={`#${idOfPath(path)}`}>
              {placeInWords(path, document)} {message}
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}
