/**
 * A lot out of its form, and faults back to the fields that they were typed in.
 */
import { describe, expect, test } from 'vitest';
import { readLotForm } from '../../src/app/lots/form/read-lot-form.ts';
import { checkLot } from '../../src/domain/lots/lot-document.ts';
import { LOT, TERMS } from '../usecases/bargain.ts';

/** The form of a whole lot, with some fields typed otherwise. */
function form(changes: Readonly<Record<string, string>> = {}): FormData {
  const { harvest, moisture, place, tests: _t, asking: _a, ...flat } = LOT;
  const sent = new FormData();
  const groups = { harvest, moisture, place };
  const fields: Record<string, string> = {
    ...flat,
    ...Object.fromEntries(
      Object.entries(groups).flatMap(([group, of]) =>
        Object.entries(of).map(([key, text]) => [`${group}.${key}`, text]),
      ),
    ),
    asking: JSON.stringify({ ...TERMS, id: 'asking', seller: 'the seller', buyer: 'the buyer' }),
    address: ' 4 Teasel Lane ',
    ...changes,
  };
  for (const [name, text] of Object.entries(fields)) sent.set(name, text);
  return sent;
}

const TEST = {
  'tests.4.on': '2026-08-30',
  'tests.4.laboratory': 'Fennel Ridge Laboratory',
  'tests.4.dry-matter': '58,5',
};

describe('a lot’s form', () => {
  test('is the document, without the stand-ins of its formula and without what is empty', () => {
    const { document, address } = readLotForm(form());
    const { tests: _, ...without } = LOT;
    expect(document).toEqual(without);
    expect(address).toBe('4 Teasel Lane');
    expect(checkLot(document).problems).toEqual([]);
  });

  test('takes a decimal comma, and leaves a test out whose fields are all empty', () => {
    const { document } = readLotForm(form({ ...TEST, 'tests.0.on': '', 'moisture.to': '45,5' }));
    expect(document['tests']).toEqual([
      { on: '2026-08-30', laboratory: 'Fennel Ridge Laboratory', 'dry-matter': '58.5' },
    ]);
    expect(document['moisture']).toEqual({ from: '38', to: '45.5' });
  });

  test('leads each fault back to its field, also past tests that were left empty', () => {
    const { document, fieldOf } = readLotForm(
      form({ ...TEST, 'tests.4.starch': '80', 'tests.4.ndf': '30', 'harvest.to': '', 'place.longitude': '' }),
    );
    const fields = checkLot(document).problems.map(({ path }) => fieldOf(path.join('.')));
    expect(fields).toEqual(['harvest.to', 'place.longitude']);
    expect(fieldOf('tests.0')).toBe('tests.4.starch');
    expect(fieldOf('tests.0.ndf')).toBe('tests.4.ndf');
    expect(fieldOf('$')).toBe('asking');
    expect(fieldOf('$.price[2].rate')).toBe('$.price[2].rate');
  });

  test('with a formula that is no JSON is refused, by name', () => {
    expect(() => readLotForm(form({ asking: '{' }))).toThrow('asking is not JSON');
  });
});
