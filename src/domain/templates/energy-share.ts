/**
 * A share of shelled corn's value by energy: all dry matter at one percentage of what corn's dry matter costs. The
 * share is a constant of the agreement, not a result of the laboratory.
 */
import { cornReference, drawAgreement } from './drawn-agreement.ts';
import { STARTING } from './starting-figures.ts';
import type { Template } from './template.ts';

export const ENERGY_SHARE: Template = {
  id: 'energy-share',
  name: 'A share of the value of shelled corn, by energy',
  suits:
    'Suits feed that hardly changes from load to load, and parties who want dry matter to be the only test that prices.',
  leavesToLuck:
    'Leaves to luck how much cob, husk or stalk a load holds: the share is one figure for all loads, whatever their starch.',
  draw(basics) {
    return drawAgreement(basics, {
      references: { corn: cornReference(basics.metric) },
      price: [
        {
          term: 'constituent',
          label: 'Dry matter, by its energy against shelled corn',
          of: 'dry-matter',
          at: { reference: 'corn', per: 'dry-matter' },
          sharePercent: STARTING[basics.feed].energyPercent,
        },
      ],
      tested: ['dry-matter'],
    });
  },
};
