/**
 * What changed between two versions, in the agreement's own words: what it said and what it says, section by section.
 */
import type { WordChange } from '../../domain/words/changes-in-words.ts';

export function WordChanges({ changes }: { readonly changes: readonly WordChange[] }) {
  return (
    <section className="word-changes">
      <h3>What changed in words</h3>
      {changes.length === 0 ? <p>Nothing: both versions say the same.</p> : null}
      {changes.map(({ heading, before, after }) => (
        <div key={heading}>
          <h4>{heading}</h4>
          <Paragraphs kind="went" word="Said before" paragraphs={before} />
          <Paragraphs kind="came" word="Says now" paragraphs={after} />
        </div>
      ))}
    </section>
  );
}

interface ParagraphsProps {
  readonly kind: 'went' | 'came';
  readonly word: string;
  readonly paragraphs: readonly string[];
}

function Paragraphs({ kind, word, paragraphs }: ParagraphsProps) {
  if (paragraphs.length === 0) return null;
  const Mark = kind === 'went' ? 'del' : 'ins';
  return (
    <div className={`words-${kind}`}>
      <p className="quiet-word">{word}</p>
      {paragraphs.map((paragraph) => (
        <p key={paragraph}>
          <Mark>{paragraph}</Mark>
        </p>
      ))}
    </div>
  );
}
