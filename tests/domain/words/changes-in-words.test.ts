/**
 * What changed between two versions, in words: nothing where they are equal, the sentences alone where they are not.
 */
import { describe, expect, test } from 'vitest';
import { changesInWords } from '../../../src/domain/words/changes-in-words.ts';
import { draft, FIBRE, GRAIN, schedule } from '../worth/drafts.ts';

const HAUL = { term: 'flat', label: 'Hauling', rate: '-4.25', per: 'short-ton', weight: 'as-fed' };
const before = draft({ price: [GRAIN, FIBRE, HAUL] });

describe('changes in words', () => {
  test('are none between equal versions', () => {
    expect(changesInWords(before, draft({ price: [GRAIN, FIBRE, HAUL] }))).toEqual([]);
  });

  test('are the one paragraph that says the figure', () => {
    const changes = changesInWords(before, draft({ price: [GRAIN, FIBRE, { ...HAUL, rate: '-5.00' }] }));
    expect(changes).toHaveLength(1);
    expect(changes[0]?.heading).toBe('The price of a load');
    expect(changes[0]?.before).toEqual([expect.stringMatching(/^3\. Hauling\. .*4\.25/)]);
    expect(changes[0]?.after).toEqual([expect.stringMatching(/^3\. Hauling\. .*5\.00/)]);
  });

  test('are a line that came, without those that only got another number', () => {
    const ndf = schedule('ndf', { above: [{ perPoint: '-1' }] });
    const [change, ...others] = changesInWords(before, draft({ price: [ndf, GRAIN, FIBRE, HAUL] }));
    expect(others).toEqual([]);
    expect(change?.before).toEqual([]);
    expect(change?.after).toEqual([expect.stringMatching(/^1\. By ndf\./)]);
  });

  test('are a line that moved, once on either side', () => {
    const [change] = changesInWords(before, draft({ price: [HAUL, GRAIN, FIBRE] }));
    expect(change?.before).toEqual([expect.stringMatching(/^3\. Hauling/)]);
    expect(change?.after).toEqual([expect.stringMatching(/^1\. Hauling/)]);
  });

  test('are a whole section that came or went, and the heading where the number changed', () => {
    const retested = draft({ price: [GRAIN, FIBRE, HAUL], retest: { note: 'A second test decides' } });
    const [came, ...others] = changesInWords(before, retested);
    expect(others).toEqual([]);
    expect(came?.before).toEqual([]);
    expect(came?.after.join()).toContain('A second test decides');
    const [went] = changesInWords(retested, before);
    expect(went).toEqual({ heading: came?.heading, before: came?.after, after: [] });
    const renumbered = draft({ price: [GRAIN, FIBRE, HAUL], id: 'A-26-051' });
    expect(changesInWords(before, renumbered)).toEqual([
      { heading: 'Agreement A-26-051', before: ['Agreement A-26-050'], after: ['Agreement A-26-051'] },
    ]);
  });

  test('a warning that goes is a change too', () => {
    const low = draft({ price: [GRAIN, { ...FIBRE, sharePercent: '0.6' }, HAUL] });
    const headings = changesInWords(low, before).map(({ heading }) => heading);
    expect(headings).toEqual(['The price of a load', 'Before you sign']);
  });
});
