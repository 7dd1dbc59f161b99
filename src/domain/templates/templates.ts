/**
 * The templates in the order in which they are offered: from what measures most to what measures least.
 */
import { BUSHELS_BY_DRY_MATTER, BUSHELS_BY_SHRINK, BUSHELS_BY_TABLE } from './dry-bushels.ts';
import { ENERGY_SHARE } from './energy-share.ts';
import { FLAT_WITH_SCHEDULES } from './flat-with-schedules.ts';
import { STARCH_AND_FIBRE, STARCH_AND_FORAGE } from './starch-and-fibre.ts';
import type { Template } from './template.ts';

export const TEMPLATES: readonly Template[] = [
  STARCH_AND_FIBRE,
  STARCH_AND_FORAGE,
  ENERGY_SHARE,
  BUSHELS_BY_DRY_MATTER,
  BUSHELS_BY_SHRINK,
  BUSHELS_BY_TABLE,
  FLAT_WITH_SCHEDULES,
];
