/**
 * Roots of RFC 6962 over the test data of its reference implementation: leaves and roots as in published copies of it (read),
 * and recomputed by the recursive definition of section 2.1 beside them.
 */
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { leafHash, merkleRoot, rootOfHashes } from '../../src/journal/merkle.ts';

const LEAVES = [
  '',
  '00',
  '10',
  '2021',
  '3031',
  '40414243',
  '5051525354555657',
  '606162636465666768696a6b6c6d6e6f',
].map((hex) => Buffer.from(hex, 'hex'));

/** Section 2.1 as it is written, without any of our code. */
function byDefinition(leaves: readonly Uint8Array[]): Buffer {
  const [only] = leaves;
  if (!only) return createHash('sha256').digest();
  if (leaves.length === 1)
    return createHash('sha256')
      .update(Buffer.from([0]))
      .update(only)
      .digest();
  let split = 1;
  while (split * 2 < leaves.length) split *= 2;
  return createHash('sha256')
    .update(Buffer.from([1]))
    .update(byDefinition(leaves.slice(0, split)))
    .update(byDefinition(leaves.slice(split)))
    .digest();
}

describe('Merkle roots', () => {
  test.each([
    [0, 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    [1, '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d'],
    [3, 'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77'],
    [5, '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4'],
    [8, '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328'],
  ])('of the first %i', (count, root) => {
    expect(merkleRoot(LEAVES.slice(0, count))).toBe(root);
  });

  test('of any number up to 70, as the definition has it', () => {
    for (let count = 0; count <= 70; count++) {
      const leaves = Array.from({ length: count }, (_, index) => Buffer.from(`leaf ${index}`));
      expect(merkleRoot(leaves), String(count)).toBe(byDefinition(leaves).toString('hex'));
      expect(rootOfHashes(leaves.map(leafHash))).toBe(merkleRoot(leaves));
    }
  });

  test('change with any leaf, its order and its number', () => {
    const root = merkleRoot(LEAVES);
    const [first, second, ...rest] = LEAVES;
    expect(merkleRoot([second, first, ...rest].flatMap((leaf) => leaf ?? []))).not.toBe(root);
    expect(merkleRoot(LEAVES.slice(1))).not.toBe(root);
    expect(
      merkleRoot(LEAVES.map((leaf, index) => (index === 5 ? Buffer.from('40414244', 'hex') : leaf))),
    ).not.toBe(root);
  });
});
