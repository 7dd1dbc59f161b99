/**
 * The Merkle tree hash of RFC 6962, section 2.1 (read): a leaf is hashed after a zero byte, a node after a one, and a tree is
 * split at the largest power of two below its size. One root stands for all leaves in their order.
 */
import { createHash } from 'node:crypto';

const LEAF = Buffer.from([0x00]);
const NODE = Buffer.from([0x01]);

/** The hash of a leaf: 32 bytes. */
export function leafHash(leaf: Uint8Array): Buffer {
  return createHash('sha256').update(LEAF).update(leaf).digest();
}

function nodeHash(left: Uint8Array, right: Uint8Array): Buffer {
  return createHash('sha256').update(NODE).update(left).update(right).digest();
}

/** The root over leaves in their order, in hexadecimal; of none, the hash of nothing. */
export function merkleRoot(leaves: Iterable<Uint8Array>): string {
  return rootOfHashes(Array.from(leaves, leafHash));
}

/** The same from the leaves' hashes. Each level is folded from the one below, so that a long journal takes little memory. */
export function rootOfHashes(hashes: readonly Uint8Array[]): string {
  if (hashes.length === 0) return createHash('sha256').digest('hex');
  let level: readonly Uint8Array[] = hashes;
  while (level.length > 1) {
    const above: Uint8Array[] = [];
    for (let index = 0; index < level.length; index += 2) {
      const [left, right] = [level[index], level[index + 1]];
      // The last of an odd level is a whole tree of its own and goes up as it is.
      if (left) above.push(right ? nodeHash(left, right) : left);
    }
    level = above;
  }
  return Buffer.from(level[0] ?? []).toString('hex');
}
