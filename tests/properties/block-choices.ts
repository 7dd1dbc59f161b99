/**
 * What the blocks of an agreement choose from: words of the file's own, which sentences say in their own way.
 */

/** The words of a block's own lists, which sentences say in their own way. */
export const BLOCK_CHOICES: readonly (readonly string[])[] = [
  ['seller', 'buyer', 'both together'],
  ['short-ton', 'tonne'],
  ['as-fed', 'dry-matter'],
  ['range', 'amount'],
  ['delivery', 'settlement', 'invoice'],
  ['load', 'day', 'week', 'month', 'season'],
  ['lb', 'kg', 'cwt', 'short-ton', 'tonne', 'bushel', 'load', 'percent'],
  ['actual/365', 'actual/360', '30/360'],
  ['laboratory', 'seller', 'buyer', 'referee'],
  ['asker-unless-moved', 'split', 'further-from-referee'],
  ['referee-stands', 'closest-two', 'median', 'iso-5725', 'astm-d3244', 'second-scale'],
  ['cheap', 'dear'],
  ['first-stands', 'mean-of-others'],
  ['median', 'mean', 'first-stands', 'referee-stands'],
];
export const BLOCKS: readonly unknown[] = ['conditions', 'retest'];
