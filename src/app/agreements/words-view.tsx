/**
 * An agreement in words, section by section, as both sides read it.
 */
import type { Section } from '../../domain/words/agreement-words.ts';

/** The page's own heading has said which agreement it is. */
const OPENING = 'What is sold, and how it is counted';

export interface WordsViewProps {
  readonly sections: readonly Section[];
  /** How deep the headings stand on the page. */
  readonly level?: 2 | 3;
}

export function WordsView({ sections, level = 2 }: WordsViewProps) {
  const Heading = level === 2 ? 'h2' : 'h3';
  return (
    <div className="words">
      {sections
        .filter(({ paragraphs }) => paragraphs.length > 0)
        .map(({ heading, paragraphs }, index) => (
          <section key={heading}>
            <Heading>{index === 0 ? OPENING : heading}</Heading>
            {paragraphs.map((paragraph) => (
              <p key={paragraph}>{paragraph}</p>
            ))}
          </section>
        ))}
    </div>
  );
}
