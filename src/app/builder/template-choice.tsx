/**
 * Beginnings to choose from: what each suits, and what it leaves to luck. Choosing one replaces the price and all that
 * belongs to it; what was changed before is asked about first, and can be put back.
 */
'use client';

import { useRef, useState } from 'react';
import { FEED_KINDS, type Feed } from '../../domain/agreement/measures.ts';
import type { Template } from '../../domain/templates/template.ts';
import { TEMPLATES } from '../../domain/templates/templates.ts';
import type { Change } from './builder-state.ts';
import { type Draft, shownText } from './document-path.ts';
import { goToPlace } from './go-to-place.ts';
import { tonOf } from './term-fitting.ts';

export interface TemplateChoiceProps {
  readonly document: Draft;
  readonly isEdited: boolean;
  readonly change: (change: Change) => void;
}

export function TemplateChoice({ document, isEdited, change }: TemplateChoiceProps) {
  const [asked, setAsked] = useState<string>();
  // Where nothing is priced yet, this is where to begin.
  const [isBlank] = useState(() => shownText(document['price'] ?? []) === '[]');
  const fold = useRef<HTMLDetailsElement>(null);
  const take = (template: Template) => {
    setAsked(undefined);
    change({
      kind: 'replace',
      document: { ...keptParts(document), ...template.draw(basicsOf(document)) },
      said: `The agreement now begins from “${template.name}”.`,
    });
    if (fold.current) fold.current.open = false;
    goToPlace('formula-price');
  };
  return (
    <details ref={fold} className="more-fields templates" id="formula-templates" open={isBlank}>
      <summary>Begin from a template</summary>
      <ul className="template-list">
        {TEMPLATES.map((template) => (
          <li key={template.id}>
            <h4>{template.name}</h4>
            <p>{template.suits}</p>
            <p className="hint">{template.leavesToLuck}</p>
            {asked === template.id ? (
              <div className="panel-moves">
                <p>Replace what you have changed?</p>
                <button type="button" className="quiet" onClick={() => take(template)}>
                  Replace it
                </button>
                <button type="button" className="quiet" onClick={() => setAsked(undefined)}>
                  Keep mine
                </button>
              </div>
            ) : (
              <button
                type="button"
                className="quiet"
                aria-label={`Begin from ${template.name}`}
                onClick={() => (isEdited ? setAsked(template.id) : take(template))}
              >
                Begin from this
              </button>
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** What does not price stays, where the template has none of its own. */
function keptParts({ conditions, retest }: Draft): Draft {
  return {
    ...(retest === undefined ? {} : { retest }),
    ...(conditions === undefined ? {} : { conditions }),
  };
}

function basicsOf(document: Draft) {
  const feed = FEED_KINDS.find((kind) => kind === document['feed']);
  const at = (key: string) => shownText(document[key]);
  return {
    id: at('id'),
    seller: at('seller'),
    buyer: at('buyer'),
    feed: feed ?? ('whole-ear-corn' satisfies Feed),
    currency: at('currency'),
    timeZone: at('timeZone'),
    metric: tonOf(document) === 'tonne',
  };
}
