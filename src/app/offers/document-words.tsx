/**
 * What one version says, whole: terms in words, or how an agreement is to close.
 */
import { checkAgreement } from '../../domain/agreement/check-agreement.ts';
import { checkClosing, closingInWords } from '../../domain/offers/closing-document.ts';
import { agreementInWords } from '../../domain/words/agreement-words.ts';
import type { VersionView } from '../../usecases/offers/read-offer.ts';
import { WordsView } from '../agreements/words-view.tsx';

export interface DocumentWordsProps {
  readonly version: VersionView;
  readonly level?: 2 | 3;
}

export function DocumentWords({ version: { document, effectiveFrom }, level = 2 }: DocumentWordsProps) {
  const { closing } = checkClosing(document);
  if (closing) {
    return (
      <div className="words">
        {closingInWords(closing).map((paragraph) => (
          <p key={paragraph}>{paragraph}</p>
        ))}
      </div>
    );
  }
  const { agreement } = checkAgreement(document);
  if (!agreement) throw new Error('A version that was sent no longer reads as terms');
  return (
    <>
      {effectiveFrom === null ? null : (
        <p className="owed">
          Loads delivered from {effectiveFrom} on come under these terms; earlier ones keep theirs.
        </p>
      )}
      <WordsView sections={agreementInWords(agreement)} level={level} />
    </>
  );
}
