/**
 * An agreement's fingerprint is SHA-256 over canonical JSON (RFC 8785): keys in order of their UTF-16 code units,
 * no blanks, characters as they are. Canonical texts here are written by hand.
 */
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { agreementFingerprint } from '../../src/documents/agreement-fingerprint.ts';
import { workedExample } from '../oracle/worked-example.ts';

function digest(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

/** Keys from the last to the first, at every depth. */
function turned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turned);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toReversed()
      .map(([key, member]) => [key, turned(member)]),
  );
}

describe('key order by UTF-16 code units (RFC 8785; section 3.2.3 from memory; example made by hand)', () => {
  // U+1F33D is the pair D83C DF3D: before U+FB01 by code units, after it by code points and in UTF-8.
  const document = { '\u{fb01}': '5', '\u{1f33d}': '4', '\u{e9}': '3', a: '2', B: '1' };
  const byCodeUnits = '{"B":"1","a":"2","\u{e9}":"3","\u{1f33d}":"4","\u{fb01}":"5"}';
  const byCodePoints = '{"B":"1","a":"2","\u{e9}":"3","\u{fb01}":"5","\u{1f33d}":"4"}';

  test('a pair of surrogates comes before U+FB01', () => {
    expect(agreementFingerprint(document)).toBe(digest(byCodeUnits));
    expect(agreementFingerprint(document)).not.toBe(digest(byCodePoints));
  });

  test('capitals before small letters, digits before both, a longer key after its beginning, at any depth', () => {
    const nested = { price: [{ to: '26', from: '0', '2': 'x', '10': 'y' }], pricing: '', Price: '' };
    const canonical = '{"Price":"","price":[{"10":"y","2":"x","from":"0","to":"26"}],"pricing":""}';
    expect(agreementFingerprint(nested)).toBe(digest(canonical));
  });

  test('only what must be escaped is escaped', () => {
    const canonical = '{"a":"\\"\\\\/\\b\\t\\n\\f\\r\\u000f\u{7f}\u{20ac}<"}';
    expect(agreementFingerprint({ a: '"\\/\b\t\n\f\r\u000f\u{7f}\u{20ac}<' })).toBe(digest(canonical));
  });
});

test('values.json of the test data published with RFC 8785 has the digest 0af3685d… (computed)', () => {
  // Its file has 333333333.33333329, which as a double is this number.
  const numbers = [1e30, 4.5, 333333333.3333333, 2e-3, 1e-27];
  const escaping = '\u20ac$\u000f\u000aA\'B"\\\\"/';
  expect(agreementFingerprint({ numbers, escaping, literals: [null, true, false] })).toBe(
    '0af3685dce30daa753153aadb1956b0f3133642fbe5d4a5e3a4267f94814ba87',
  );
});

test('an agreement has one fingerprint in whatever order and layout its file is', () => {
  const { agreement } = workedExample;
  const fingerprint = agreementFingerprint(agreement);
  expect(fingerprint).toMatch(/^[0-9a-f]{64}$/);
  expect(agreementFingerprint(turned(agreement))).toBe(fingerprint);
  expect(agreementFingerprint(JSON.parse(JSON.stringify(agreement, undefined, 4)))).toBe(fingerprint);
  expect(agreementFingerprint({ ...agreement, price: agreement.price.toReversed() })).not.toBe(fingerprint);
});
