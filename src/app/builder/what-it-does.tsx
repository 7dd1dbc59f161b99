/**
 * What a formula does: prices for feed of all sorts, five loads, what changed since the version before, and what a good
 * adviser would say. Works on offers as well as beside the builder; documents come as they are, and are checked here.
 */
'use client';

import { useMemo, useState } from 'react';
import { figuresFor } from '../../documents/figures.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { currencyDecimals } from '../../domain/money/currency.ts';
import { parseDecimal, ZERO } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { changesInWords } from '../../domain/words/changes-in-words.ts';
import { adviseOn } from '../../domain/worth/advise.ts';
import type { ExampleLoad } from '../../domain/worth/example-loads.ts';
import { haulFor, haulUnit } from '../../domain/worth/trial-haul.ts';
import { checkDraft } from './check-draft.ts';
import { chartOf } from './curve-picture.ts';
import type { Draft } from './document-path.ts';
import { tidyFigure } from './figure-text.ts';
import { isQuote, tryFormula } from './tried-formula.ts';
import { TryFigure } from './try-figure.tsx';
import { WordChanges } from './word-changes.tsx';
import { WorthChart } from './worth-chart.tsx';
import { ExampleLoads, type Money, WorthGrid } from './worth-tables.tsx';

export interface WhatItDoesProps {
  readonly before?: Draft | undefined;
  readonly after: Draft;
  /** A lot's tests: figures by measure, constituents in percent of dry matter. */
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  /** The latest quotes by reference, where there are some. */
  readonly quotes?: Readonly<Record<string, string>> | undefined;
  /** What the two versions are called; "before" and "now" unless said. */
  readonly names?: { readonly before: string; readonly after: string } | undefined;
  readonly locale?: string | undefined;
  /** For a page that tells elsewhere what changed in words. */
  readonly figuresAlone?: boolean;
}

const NAMES = { before: 'before', after: 'now' };

export function WhatItDoes({ before, after, ...others }: WhatItDoesProps) {
  const checked = useMemo(() => checkDraft(after), [after]);
  const earlier = useMemo(() => before && checkDraft(before).agreement, [before]);
  if (!checked.agreement) {
    return <p className="hint">What it pays shows here once nothing is missing from the agreement.</p>;
  }
  return <Tried {...others} before={earlier} after={checked.agreement} />;
}

interface TriedProps extends Omit<WhatItDoesProps, 'before' | 'after'> {
  readonly before: Agreement | undefined;
  readonly after: Agreement;
}

function Tried(props: TriedProps) {
  const { before, after, lotTests, quotes = {}, names = NAMES, locale = 'en-US', figuresAlone } = props;
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>(quotes);
  const [haul, setHaul] = useState<string>();
  const unit = haulUnit(after) ?? (before && haulUnit(before));
  const tried = useMemo(() => {
    const figures = Object.entries(typed).map(([name, quote]): [string, string] => [name, tidyFigure(quote)]);
    const given = new Map(figures.filter(([, quote]) => isQuote(quote)));
    const length = parseDecimal(tidyFigure(haul ?? ''));
    const distance = length && unit ? { length, unit } : undefined;
    return tryFormula({ before, after, lotTests, quotes: given, distance });
  }, [before, after, lotTests, typed, haul, unit]);
  const advice = useMemo(() => adviseOn(after, { quotes: tried.quotes }), [after, tried.quotes]);
  const changes = useMemo(() => (before ? changesInWords(before, after) : []), [before, after]);
  const money: Money = {
    currency: after.currency,
    decimals: currencyDecimals(after.currency) ?? 2,
    ton: readerUnits(after).ton === 'tonne' ? 'tonne' : 'short ton',
    figures: figuresFor(locale),
  };
  const chart = chartOf(tried.curve.after, tried.curve.before);
  const references = { ...before?.references, ...after.references };
  return (
    <div className="what-it-does">
      {tried.quotes.size === 0 ? null : (
        <p className="hint">Prices and hauls to look at it with; type your own. They change nothing else.</p>
      )}
      <div className="tries">
        {[...tried.quotes].map(([name, quote]) => (
          <TryFigure
            key={name}
            label={`If ${name} is at`}
            unit={`${after.currency} per ${references[name]?.unit ?? 'unit'}`}
            value={typed[name] ?? quote}
            isWrong={typed[name] !== undefined && !isQuote(tidyFigure(typed[name]))}
            type={(text) => setTyped({ ...typed, [name]: text })}
          />
        ))}
        {unit === undefined ? null : (
          <TryFigure
            label="Hauled"
            unit={unit === 'mile' ? 'miles' : 'km'}
            value={haul ?? printDecimal(haulFor(after)?.length ?? haulFor(before ?? after)?.length ?? ZERO)}
            isWrong={haul !== undefined && !isQuote(tidyFigure(haul))}
            type={setHaul}
          />
        )}
      </div>
      {advice.length === 0 ? null : (
        <section className="advice" aria-label="What a careful adviser would say">
          <h3>A careful adviser would say</h3>
          <ul>
            {advice.map(({ message }) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
        </section>
      )}
      <h3>Five loads{loadSize(tried.examples.loads[0], money)}</h3>
      <ExampleLoads examples={tried.examples} money={money} />
      <h3>More starch, less fibre</h3>
      {chart ? (
        <WorthChart chart={chart} unit={`${money.currency} per ${money.ton} of dry matter`} names={names} />
      ) : null}
      <WorthGrid rows={tried.grid} money={money} />
      <p className="hint">Each point that starch gains, fibre loses; the other figures stay.</p>
      {before && !figuresAlone ? <WordChanges changes={changes} /> : null}
    </div>
  );
}

/** " of 48,000 lb each" */
function loadSize(load: ExampleLoad | undefined, { figures }: Money): string {
  return load ? ` of ${figures.show(printDecimal(load.net))} ${load.unit} each` : '';
}
