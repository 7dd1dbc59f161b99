/**
 * One price for the dry matter of a ton, settled before harvest, with schedules for starch and for water. The schedules
 * count exactly and have a wide middle where nothing changes, so that no figure is a cliff.
 */
import { currencyDecimals } from '../money/currency.ts';
import { drawAgreement } from './drawn-agreement.ts';
import { STARTING } from './starting-figures.ts';
import type { Template, TemplateBasics } from './template.ts';

/** The usual rate; a hundred times as much in a currency that has no cents, which is nearer to its prices. */
function usualRate({ feed, metric, currency }: TemplateBasics): string {
  const { shortTon, tonne } = STARTING[feed].flat;
  const rate = metric ? tonne : shortTon;
  return currencyDecimals(currency) === 0 ? `${rate}00` : rate;
}

/** The percents a point are common practice, no source. */
export const FLAT_WITH_SCHEDULES: Template = {
  id: 'flat-with-schedules',
  name: 'Flat per ton of dry matter, with schedules',
  suits:
    'Suits parties who want to know the price before harvest, with only unusual starch or water to move it.',
  leavesToLuck:
    'Leaves to luck where the corn market goes between signing and delivery: one side gains what the other loses.',
  draw(basics) {
    const { starch, wet } = STARTING[basics.feed];
    return drawAgreement(basics, {
      references: {},
      price: [
        {
          term: 'flat',
          label: 'Dry matter',
          rate: usualRate(basics),
          per: basics.metric ? 'tonne' : 'short-ton',
          weight: 'dry-matter',
        },
        {
          term: 'schedule',
          label: 'Starch outside the usual range',
          on: 'starch',
          neutral: starch,
          above: [{ points: '6', perPoint: '0.5' }],
          below: [{ points: '6', perPoint: '-0.5' }, { perPoint: '-1' }],
          count: 'exact',
          unit: 'percent',
        },
        {
          term: 'schedule',
          label: 'Water above the usual range',
          on: 'moisture',
          neutral: { from: '0', to: wet },
          above: [{ perPoint: '-0.5' }],
          count: 'exact',
          unit: 'percent',
        },
      ],
      tested: ['dry-matter', 'starch'],
    });
  },
};
