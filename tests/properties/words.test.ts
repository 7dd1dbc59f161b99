/**
 * The words of an agreement say all that its evaluation uses: every figure stands in them, and no parameter can be
 * changed without the words changing too.
 */
import { describe, expect, test } from 'vitest';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { BLOCK_CHOICES, BLOCKS } from './block-choices.ts';
import { generatedAgreement, sound, wordsOf } from './generated-agreement.ts';
import { changed, type Json, leaves, members, type Path, removed } from './json-places.ts';

/** Other texts that may stand in the place of one: the other words of its list, or another figure. */
const CHOICES: readonly (readonly string[])[] = [
  ['dry-matter', 'starch'],
  ['as-fed', 'dry-matter'],
  ['exact', 'completed', 'started'],
  ['linear', 'next-wetter'],
  ['short-ton', 'tonne', 'cwt', 'lb', 'kg'],
  ['load', 'mile', 'km'],
  ['half-up', 'half-even'],
  ['per-load', 'composite', 'per-day'],
  ['starch', 'ndf', 'adf', 'crude-protein', 'crude-fat', 'ash', 'grain-equivalent', 'dry-matter'],
  ['moisture', 'ph', 'ammonia-nitrogen', 'particle-size', 'aflatoxin', 'vomitoxin', 'dry-matter', 'ndf'],
  ['America/Boise', 'Europe/Berlin', 'Pacific/Auckland', 'America/Sao_Paulo'],
  ['USD', 'EUR', 'JPY', 'KWD'],
];
const NUMBER = /^-?\d+(\.\d+)?$/;
/** Places that name other places, or that the words do not have to repeat. */
const LEFT_OUT = /^(format|price\.\d+\.term|price\.\d+\.method\.kind|references\..*\.rule\.(kind|default))/;

function alternatives(text: string): string[] {
  if (NUMBER.test(text))
    return [text.startsWith('-') ? text.slice(1) : `-${text}`, `${text}${text.includes('.') ? '' : '.'}7`];
  const others = CHOICES.filter((list) => list.includes(text)).flatMap((list) =>
    list.filter((other) => other !== text),
  );
  return others.length > 0 ? others : [`${text} other`];
}

/** Whether a text is somebody's own words or a name, which must stand as they are. */
function isWritten(path: Path, text: string): boolean {
  if (BLOCKS.includes(path[0])) return !BLOCK_CHOICES.some((list) => list.includes(text));
  const key = path.at(-1);
  return key === 'label' || key === 'series' || (path[0] === 'references' && key === 'unit');
}

describe('the words of an agreement', () => {
  test('hold every figure, label and name of 200 generated agreements', () => {
    let figures = 0;
    let written = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const document = generatedAgreement(seed);
      const words = wordsOf(sound(document, seed));
      for (const { path, text } of leaves(document)) {
        if (NUMBER.test(text)) {
          figures++;
          expect(words, `seed ${seed}, ${path.join('.')}`).toMatch(asToken(text.replace(/^-/, '')));
        } else if (isWritten(path, text)) {
          written++;
          expect(words, `seed ${seed}, ${path.join('.')}`).toContain(text);
        }
      }
    }
    expect(figures).toBeGreaterThan(4_000);
    expect(written).toBeGreaterThan(1_500);
  });

  test('change whenever any parameter of 70 generated agreements changes', () => {
    let changes = 0;
    for (let seed = 1; seed <= 70; seed++) {
      const document = generatedAgreement(seed);
      const words = wordsOf(sound(document, seed));
      for (const { path, text } of leaves(document)) {
        if (LEFT_OUT.test(path.join('.'))) continue;
        for (const other of alternatives(text)) {
          const { agreement: altered } = checkAgreement(changed(document, path, other));
          // A change that is an error, or that comes to the same figure (0 and −0), need not show.
          if (!altered || Number(other) === Number(text)) continue;
          changes++;
          expect(wordsOf(altered), `seed ${seed}, ${path.join('.')}: ${text} to ${other}`).not.toBe(words);
        }
      }
    }
    expect(changes).toBeGreaterThan(1_500);
  });

  test('change when an optional part is left out, wherever it stands', () => {
    const omitted = new Map<string, number>();
    for (let seed = 1; seed <= 70; seed++) {
      const document = generatedAgreement(seed);
      const words = wordsOf(sound(document, seed));
      for (const path of members(document)) {
        const { agreement: altered } = checkAgreement(removed(document, path));
        if (!altered || isDefault(document, path)) continue;
        const key = String(path.at(-1));
        omitted.set(key, (omitted.get(key) ?? 0) + 1);
        expect(wordsOf(altered), `seed ${seed} without ${path.join('.')}`).not.toBe(words);
      }
    }
    for (const key of [
      'basis',
      'floor',
      'ceiling',
      'maxAgeDays',
      'default',
      'tests',
      'acceptance',
      'above',
      'below',
      'sharePercent',
      'bushelDecimals',
      'drier',
    ]) {
      expect(omitted.get(key), key).toBeGreaterThan(3);
    }
  });

  test('change when the rule of a reference becomes another kind', () => {
    const words = RULES.map((rule) => {
      const { agreement } = checkAgreement({
        ...workedExample.agreement,
        references: { corn: { ...workedExample.agreement.references['corn'], rule } },
      });
      if (!agreement) throw new Error(`${rule.kind} gives no agreement`);
      return wordsOf(agreement);
    });
    expect(new Set(words).size).toBe(RULES.length);
  });
});

const RULES = [
  { kind: 'fixed', price: '4' },
  { kind: 'delivery-day' },
  { kind: 'average', quotes: '4' },
  { kind: 'month-average' },
  { kind: 'seller-elects', from: '2026-09-01', to: '2026-09-04' },
  { kind: 'seller-elects', from: '2026-09-01', to: '2026-09-04', default: 'window-end' },
];

/** What the format says of a member that is not there, so that leaving it out changes nothing. */
function isDefault(document: Json, path: Path): boolean {
  const [last] = path.slice(-1);
  const value = path.reduce<Json>((at, key) => (at as { readonly [key: string]: Json })[key] ?? '', document);
  const empty = typeof value === 'object' && value !== null && Object.keys(value).length === 0;
  return (
    empty ||
    (last === 'sharePercent' && Number(value) === 100) ||
    (last === 'rounding' && value === 'half-up') ||
    (last === 'sampling' && JSON.stringify(value).includes('per-load'))
  );
}

/** A figure that is not part of a longer one. */
function asToken(figure: string): RegExp {
  return new RegExp(`(?<![\\d.])${figure.replace('.', '\\.')}(?!\\d|\\.\\d)`);
}
