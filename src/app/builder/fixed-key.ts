/**
 * Keys of an agreement that the page around the builder may have settled: they are shown and cannot be changed.
 */
export type FixedKey = 'seller' | 'buyer' | 'id' | 'currency' | 'timeZone' | 'feed';
