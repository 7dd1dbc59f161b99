/**
 * What waits for the party's own act beside loads: offers to answer or sign, lots whose time is over, drafts to read.
 */
import type { ActionView } from '../../usecases/notices/read-actions.ts';

export interface ActionListProps {
  readonly actions: readonly ActionView[];
  /** Whether the first is the thing to do first. */
  readonly isLeading: boolean;
}

const STEPS: Readonly<Record<ActionView['kind'], string>> = {
  offer: 'Read it',
  lot: 'To the lot',
  draft: 'See the draft',
  correction: 'Look at it',
  retest: 'To the question',
  season: 'Read and answer it',
  money: 'Go to it',
};

export function ActionList({ actions, isLeading }: ActionListProps) {
  if (actions.length === 0) return null;
  return (
    <section aria-label="Offers and advice that wait">
      <ul className="waiting">
        {actions.map(({ kind, words, path }, index) => (
          <li key={`${path} ${words}`} className="yours">
            <p>{words}</p>
            <a className={isLeading && index === 0 ? 'act-link' : 'plain-link'} href={path}>
              {STEPS[kind]}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
