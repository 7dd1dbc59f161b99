/**
 * Who sells what to whom, in which money, by which clock. What the page around the builder has settled is shown only.
 */
'use client';

import { useEffect, useState } from 'react';
import { FEEDS, type Feed } from '../../domain/agreement/measures.ts';
import { opening } from '../place/sentence.ts';
import { useBuilder } from './builder-context.tsx';
import { StrayFaults } from './builder-panel.tsx';
import { readAt, shownText } from './document-path.ts';
import { FEED_OPTIONS } from './format-words.ts';
import { optionsOf, type Setting } from './setting.ts';
import { Settings } from './setting-view.tsx';

const ROUNDING: Setting = {
  kind: 'list',
  path: ['rounding'],
  label: 'An exact half of the smallest coin',
  options: optionsOf({ 'half-up': 'goes away from zero', 'half-even': 'goes to the even neighbour' }),
  without: 'goes away from zero, as usual',
};

function headSettings(zones: readonly string[]): readonly Setting[] {
  return [
    { kind: 'text', path: ['id'], label: 'Number of the agreement' },
    { kind: 'text', path: ['seller'], label: 'Seller' },
    { kind: 'text', path: ['buyer'], label: 'Buyer' },
    { kind: 'list', path: ['feed'], label: 'Feed', options: FEED_OPTIONS },
    {
      kind: 'text',
      path: ['currency'],
      label: 'Currency',
      known: ['USD', 'CAD', 'EUR'],
      hint: 'Its three letters, like USD.',
    },
    {
      kind: 'text',
      path: ['timeZone'],
      label: 'Time zone of deliveries',
      known: zones,
      hint: 'Like America/Boise. It says on which day a load of the night was delivered.',
    },
    ROUNDING,
  ];
}

/** Settings at the top of the document; `format` is not asked for. */
const HEAD_KEYS = ['format', 'id', 'seller', 'buyer', 'feed', 'currency', 'timeZone', 'rounding'];
const ELSEWHERE = ['references', 'tests', 'price', 'acceptance', 'sampling', 'retest', 'conditions'];

export function HeadPart() {
  const { document, fixed } = useBuilder();
  const zones = useTimeZones();
  const settings = headSettings(zones);
  const open = settings.filter(({ path }) => !(fixed as readonly unknown[]).includes(path[0]));
  const settled = settings.filter((setting) => !open.includes(setting));
  const others = ELSEWHERE.map((key): Setting => ({ kind: 'ticks', path: [key], label: key, options: [] }));
  return (
    <section className="builder-part" aria-labelledby="formula-head">
      <h3 id="formula-head">Who and what</h3>
      {settled.length === 0 ? null : (
        <dl className="facts settled">
          {settled.map(({ path, label }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{settledText(path[0], readAt(document, path))}</dd>
            </div>
          ))}
        </dl>
      )}
      <Settings at={[]} settings={open} />
      <StrayFaults at={[]} settings={[...open, ...others]} />
      {Object.keys(document).some((key) => ![...HEAD_KEYS, ...ELSEWHERE].includes(key)) ? (
        <p className="hint">There is more in the file’s text, below, than an agreement knows.</p>
      ) : null}
    </section>
  );
}

function settledText(key: unknown, value: unknown): string {
  const text = shownText(value);
  return key === 'feed' ? opening((FEEDS[text as Feed] as string | undefined) ?? text) : text;
}

/** The zones that this browser knows; none while the page is made, so that both draw the same. */
function useTimeZones(): readonly string[] {
  const [zones, setZones] = useState<readonly string[]>([]);
  useEffect(() => setZones(Intl.supportedValuesOf('timeZone')), []);
  return zones;
}
