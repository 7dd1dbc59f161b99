/**
 * The agreement in words, as both sides would sign it.
 */
'use client';

import { useMemo } from 'react';
import type { Agreement } from '../../domain/agreement/document.ts';
import { agreementInWords } from '../../domain/words/agreement-words.ts';

export function WordsPanel({ agreement }: { readonly agreement: Agreement }) {
  const sections = useMemo(() => agreementInWords(agreement), [agreement]);
  return (
    <div className="words">
      {sections.map(({ heading, paragraphs }) => (
        <section key={heading}>
          <h3>{heading}</h3>
          {paragraphs.map((paragraph, index) => (
            // Sentences may repeat; their place is all that tells them apart.
            // biome-ignore lint/suspicious/noArrayIndexKey: the list is drawn anew as a whole
            <p key={index}>{paragraph}</p>
          ))}
        </section>
      ))}
    </div>
  );
}
