/**
 * What the parts of a lot are called that its seller may show to anybody.
 */
import type { PublicPart } from '../../../../domain/lots/lot-document.ts';

export const PART_WORDS: Readonly<Record<PublicPart, string>> = {
  seller: 'Your name',
  amount: 'How much',
  storage: 'Storage and harvest',
  tests: 'Tests and moisture',
  region: 'The region',
  delivery: 'Who hauls and weighs',
  price: 'What you ask',
  notes: 'Your notes',
};
