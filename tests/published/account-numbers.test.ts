/**
 * Account and bank numbers: published examples, and that the check digits find what people mistype. The pattern of a BIC
 * is BICFIDec2014Identifier of ISO 20022 (read in pain.001.001.09); the weights of routing numbers and the IBAN examples
 * are from memory.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isBic, isIban, isRoutingNumber, plainIban } from '../../src/domain/money/account-numbers.ts';

describe('IBAN (ISO 13616, ISO 7064 MOD 97-10)', () => {
  // Examples of the standard's registry, of no real account (memory).
  const EXAMPLES = [
    'GB82 WEST 1234 5698 7654 32',
    'DE89 3704 0044 0532 0130 00',
    'FR14 2004 1010 0505 0001 3M02 606',
    'NO93 8601 1117 947',
    'MT84 MALT 0110 0001 2345 MTLC AST0 01S',
  ];
  test.each(EXAMPLES)('%s is one', (example) => {
    expect(isIban(plainIban(example))).toBe(true);
    expect(isIban(plainIban(example.toLowerCase()))).toBe(true);
  });

  test.each([
    ['another check digit', 'GB83WEST12345698765432'],
    ['blanks left in', 'GB82 WEST 1234 5698 7654 32'],
    ['small letters', 'gb82WEST12345698765432'],
    ['nothing', ''],
    ['too short', 'NO938601111794'],
    ['too long', 'MT84MALT011000012345MTLCAST001SMTLC'],
    // 1 is left of it when divided by 97, as of 98, which is what is given out.
    ['01, never given out', 'XX01AAAAAAAAAAA'],
    ['another script’s digits', 'GB８２WEST12345698765432'],
  ])('%s is none', (_, text) => {
    expect(isIban(text)).toBe(false);
  });

  test('one wrong digit or letter, and two digits or letters exchanged, are always found', () => {
    const isDigit = (character: string) => /\d/.test(character);
    const letters = fc.constantFrom(...'ABCDEFGHIJKLMNOPQRSTUVWXYZ');
    const digits = fc.constantFrom(...'0123456789');
    const example = fc.constantFrom(...EXAMPLES.map(plainIban));
    fc.assert(
      fc.property(example, fc.nat({ max: 29 }), digits, letters, (iban, any, digit, letter) => {
        const at = any % (iban.length - 1);
        const [here = '', next = ''] = iban.slice(at, at + 2);
        const withHere = (characters: string) =>
          iban.slice(0, at) + characters + iban.slice(at + characters.length);
        const wrong = withHere(isDigit(here) ? digit : letter);
        expect(isIban(wrong)).toBe(wrong === iban);
        // A digit beside a letter changes how long the number is that is divided, so nothing is sure there.
        if (isDigit(here) !== isDigit(next)) return;
        expect(isIban(withHere(next + here))).toBe(here === next);
      }),
      { numRuns: 2_000 },
    );
  });
});

describe('routing numbers (ABA; weights 3, 7, 1: memory)', () => {
  test.each([
    // 3 × (1 + 4 + 7) + 7 × (2 + 5 + 8) + (3 + 6 + 0) = 150.
    ['123456780', true],
    ['123456781', false],
    ['213456780', false],
    ['12345678', false],
    ['1234567800', false],
    ['12345678O', false],
    // 3 × 1 + 7 × 3 + 6 = 30, but no number begins with 13.
    ['130000006', false],
    ['000000000', false],
  ])('%s: %s', (text, expected) => {
    expect(isRoutingNumber(text)).toBe(expected);
  });

  test('one wrong digit is always found', () => {
    fc.assert(
      fc.property(fc.nat({ max: 8 }), fc.nat({ max: 9 }), (at, digit) => {
        const wrong = `${'123456780'.slice(0, at)}${digit}${'123456780'.slice(at + 1)}`;
        expect(isRoutingNumber(wrong)).toBe(wrong === '123456780');
      }),
    );
  });
});

describe('BIC (ISO 9362)', () => {
  test.each([
    ['TARNUS33', true],
    ['TARNUS33XXX', true],
    ['T4RNUS33', true],
    ['TARNUS3', false],
    ['TARNUS33XX', false],
    ['TARN1S33', false],
    ['tarnus33', false],
    ['TARNUS33 ', false],
    ['', false],
  ])('%j: %s', (text, expected) => {
    expect(isBic(text)).toBe(expected);
  });
});
