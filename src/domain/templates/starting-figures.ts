/**
 * What is usual for each kind of feed: the moisture it is taken at, its starch, its worth against shelled corn. They
 * are figures to start from; each says where it comes from.
 */
import type { Feed } from '../agreement/measures.ts';

export interface StartingFigures {
  /** Percent of moisture that a load may have; drier or wetter ones may be refused. */
  readonly accepted: { readonly below?: string; readonly above: string };
  /** Percent of moisture above which a flat price is lowered. */
  readonly wet: string;
  /**
   * Percent of starch in dry matter that a flat price is meant for: six points wide. Of a hundred repeated samples of
   * one pile of silage, thirty differed by more than three points (2020 report, read), so a narrower band would pay
   * for chance.
   */
  readonly starch: { readonly from: string; readonly to: string };
  /** Worth of a pound of dry matter in percent of shelled corn's, by its energy. */
  readonly energyPercent: string;
  /** Whole percents of moisture that a table of pounds a bushel runs through. */
  readonly table: { readonly from: number; readonly to: number };
  /** Money for the dry matter of a ton, in a currency with cents: common practice, no source. */
  readonly flat: { readonly shortTon: string; readonly tonne: string };
}

/** Starch, moisture, energy and money: common practice, no source, where nothing else is said. */
export const STARTING: Readonly<Record<Feed, StartingFigures>> = {
  'whole-ear-corn': {
    // 32 to 45 % moisture: Univ. of Wisconsin Team Forage, read.
    accepted: { below: '32', above: '45' },
    wet: '42',
    starch: { from: '53', to: '59' },
    energyPercent: '85',
    table: { from: 28, to: 50 },
    flat: { shortTon: '165', tonne: '182' },
  },
  'high-moisture-ear-corn': {
    accepted: { below: '28', above: '40' },
    wet: '36',
    starch: { from: '57', to: '63' },
    // 0.90 for ear corn: R. Rasby, Univ. of Nebraska 2010, read.
    energyPercent: '90',
    table: { from: 24, to: 46 },
    flat: { shortTon: '172', tonne: '190' },
  },
  'high-moisture-shelled-corn': {
    accepted: { below: '24', above: '34' },
    wet: '30',
    starch: { from: '68', to: '74' },
    energyPercent: '100',
    table: { from: 20, to: 38 },
    flat: { shortTon: '190', tonne: '209' },
  },
  'corn-silage': {
    accepted: { below: '60', above: '70' },
    wet: '68',
    starch: { from: '30', to: '36' },
    energyPercent: '75',
    table: { from: 55, to: 75 },
    flat: { shortTon: '140', tonne: '154' },
  },
  'dry-shelled-corn': {
    accepted: { above: '18' },
    wet: '15.5',
    starch: { from: '68', to: '74' },
    energyPercent: '100',
    table: { from: 10, to: 20 },
    flat: { shortTon: '190', tonne: '209' },
  },
};
