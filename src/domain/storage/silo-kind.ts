/**
 * What a buyer stores delivered feed in.
 */
export const SILO_KINDS = ['bag', 'bunker', 'pile', 'tower'] as const;
export type SiloKind = (typeof SILO_KINDS)[number];

/** How a kind is called in a sentence. */
export const SILO_NAMES: Readonly<Record<SiloKind, string>> = {
  bag: 'bag',
  bunker: 'bunker',
  pile: 'pile',
  tower: 'tower silo',
};
