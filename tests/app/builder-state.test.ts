/**
 * The builder's changes, from state to state.
 */
import { describe, expect, test } from 'vitest';
import { beginState, type Change, changeState, printDraft } from '../../src/app/builder/builder-state.ts';
import { readAt } from '../../src/app/builder/document-path.ts';

const DRAFT = {
  id: 'A-1',
  price: [{ label: 'Grain' }, { label: 'Fibre' }, { label: 'Hauling' }],
};

function changed(...changes: readonly Change[]) {
  return changes.reduce(changeState, beginState(DRAFT));
}

function labels(state: ReturnType<typeof changed>): unknown[] {
  return (state.document['price'] as readonly { readonly label: string }[]).map(({ label }) => label);
}

test('the text follows every change of a field', () => {
  const state = changed({ kind: 'write', path: ['price', 2, 'rate'], value: '-4.25' });
  expect(JSON.parse(state.text)).toEqual(state.document);
  expect(readAt(state.document, ['price', 2, 'rate'])).toBe('-4.25');
  expect(state.isEdited).toBe(true);
});

test('lines keep their keys as they move, go and come', () => {
  const moved = changed({ kind: 'move-term', from: 2, to: 0, label: 'Hauling' });
  expect(labels(moved)).toEqual(['Hauling', 'Grain', 'Fibre']);
  expect(moved.termKeys).toEqual([2, 0, 1]);
  expect(moved.told).toBe('Hauling is line 1 now.');
  const removed = changeState(moved, { kind: 'remove', path: ['price', 1], said: 'gone', next: 'x' });
  expect(removed.termKeys).toEqual([2, 1]);
  const added = changeState(removed, { kind: 'add-term', term: { label: 'New' } });
  expect(added.termKeys).toEqual([2, 1, 3]);
  expect(added.focus).toEqual({ id: 'formula-at-price-2' });
});

test('a line at the end of the list does not move beyond it', () => {
  const before = beginState(DRAFT);
  expect(changeState(before, { kind: 'move-term', from: 2, to: 3, label: 'Hauling' })).toBe(before);
});

test('what was removed can be put back', () => {
  const removed = changed({ kind: 'remove', path: ['price', 0], said: 'The line is removed.', next: 'x' });
  expect(labels(removed)).toEqual(['Fibre', 'Hauling']);
  expect(removed.undo?.said).toBe('The line is removed.');
  const back = changeState(removed, { kind: 'undo' });
  expect(back.document).toEqual(DRAFT);
  expect(back.undo).toBeUndefined();
  expect(back.termKeys).toHaveLength(3);
  expect(new Set(back.termKeys).size).toBe(3);
});

describe('the file’s text', () => {
  test('changes the document, and stays as it was typed', () => {
    const text = '{"id":"A-2","price":[{"label":"All"}],"unheard":"of"}';
    const state = changed({ kind: 'type-text', text });
    expect(state.document).toEqual(JSON.parse(text));
    expect(state.text).toBe(text);
    expect(state.textFault).toBeUndefined();
    const written = changeState(state, { kind: 'write', path: ['id'], value: 'A-3' });
    expect(written.document['unheard']).toBe('of');
  });

  test('that is no document leaves the fields as they were', () => {
    for (const text of ['{"id":', '[1]', 'null', '"text"']) {
      const state = changed({ kind: 'type-text', text });
      expect(state.document).toEqual(DRAFT);
      expect(state.text).toBe(text);
      expect(state.textFault).toMatch(/^(is not JSON|must be a group)/);
    }
  });

  test('is replaced by a field that changes, and has no fault then', () => {
    const state = changed({ kind: 'type-text', text: '{' }, { kind: 'write', path: ['id'], value: 'A-9' });
    expect(state.textFault).toBeUndefined();
    expect(JSON.parse(state.text)).toEqual({ ...DRAFT, id: 'A-9' });
  });
});

describe('after a refusal', () => {
  test('what was sent is there again', () => {
    const state = beginState(DRAFT, printDraft({ ...DRAFT, id: 'A-7' }));
    expect(state.document['id']).toBe('A-7');
    expect(state.isEdited).toBe(true);
  });

  test('a text that is no document comes back as it was typed', () => {
    const state = beginState(DRAFT, '{"id": broken');
    expect(state.text).toBe('{"id": broken');
    expect(state.textFault).toMatch(/is not JSON/);
    expect(state.document).toEqual(DRAFT);
  });
});

test('what was removed can be put back only until something else is changed', () => {
  const state = changed(
    { kind: 'remove', path: ['price', 0], said: 'The line is removed.', next: 'x' },
    { kind: 'write', path: ['id'], value: 'A-2' },
  );
  expect(state.undo).toBeUndefined();
  expect(changeState(state, { kind: 'undo' })).toBe(state);
});
