/**
 * Starch and fibre valued apart: the grain in a load, counted by its starch, at the corn price and what is left of the
 * dry matter at a share of it; or the starch alone at the corn price and the rest at the price of a forage.
 */
import { cornReference, drawAgreement, hayReference } from './drawn-agreement.ts';
import type { Template } from './template.ts';

/** Fibre at 60 % of what corn's dry matter costs: common practice, no source. */
export const STARCH_AND_FIBRE: Template = {
  id: 'starch-and-fibre',
  name: 'Starch and fibre apart, both by the corn price',
  suits:
    'Suits feed whose share of grain changes from load to load, where a laboratory finds dry matter and starch in every sample.',
  leavesToLuck:
    'Leaves to luck how well the fibre feeds: soft husk and hard stalk cost the same, and so does fibre in a year when hay is dear.',
  draw(basics) {
    const at = { reference: 'corn', per: 'dry-matter' } as const;
    return drawAgreement(basics, {
      references: { corn: cornReference(basics.metric) },
      price: [
        {
          term: 'constituent',
          label: 'Grain, by its starch',
          of: 'grain-equivalent',
          at,
          sharePercent: '100',
        },
        {
          term: 'remainder',
          label: 'Fibre and the rest of the dry matter',
          after: ['grain-equivalent'],
          at,
          sharePercent: '60',
        },
      ],
      tested: ['dry-matter', 'starch'],
    });
  },
};

/**
 * The starch is taken off alone, not the grain with it: a grain-equivalent is reckoned by its term's own reference, and
 * hay has none. What else a grain holds is then paid as forage, so starch carries 85 % of the grain's price: at 71 %
 * starch, with hay's dry matter at half of what corn's costs, corn itself comes to 85 + 29 × 0.5 = 99.5 % (computed).
 */
export const STARCH_AND_FORAGE: Template = {
  id: 'starch-and-forage',
  name: 'Starch by the corn price, the rest by the hay price',
  suits:
    'Suits feed that takes the place of both grain and hay in a ration, where prices of both are published nearby.',
  leavesToLuck:
    'Leaves to luck whether the fibre feeds like that hay, and both sides bear the moves of two markets.',
  draw(basics) {
    return drawAgreement(basics, {
      references: { corn: cornReference(basics.metric), hay: hayReference(basics.metric) },
      price: [
        {
          term: 'constituent',
          label: 'Starch',
          of: 'starch',
          at: { reference: 'corn', per: 'starch' },
          sharePercent: '85',
        },
        {
          term: 'remainder',
          label: 'Fibre and the rest of the dry matter, as hay',
          after: ['starch'],
          at: { reference: 'hay', per: 'dry-matter' },
          sharePercent: '100',
        },
      ],
      tested: ['dry-matter', 'starch'],
    });
  },
};
