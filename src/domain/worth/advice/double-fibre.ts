/**
 * Fibre taken off twice: two schedules on one husky load, or a schedule on fibre that the price of the rest already
 * pays little for.
 */
import type { PriceTerm, TermOf } from '../../agreement/document.ts';
import {
  add,
  compare,
  decimal,
  divide,
  type Exact,
  multiply,
  subtract,
  whole,
  ZERO,
} from '../../numbers/exact.ts';
import { printDecimal } from '../../numbers/printing.ts';
import { listed } from '../../words/figures-in-words.ts';
import { moveFigures } from '../plausible-figures.ts';
import type { TrialFigures } from '../try-out.ts';
import { usualFeed } from '../usual-figures.ts';
import type { Advice } from './advice.ts';
import { type Ground, moneyFrom } from './ground.ts';

/** Cob and husk are often priced at 60 % of corn's dry matter (common practice, no source); less is a discount. */
const USUAL_FIBRE_SHARE = decimal('60');
const POINTS = 12;

/** What the schedules take off one husky load. */
interface Charged {
  readonly figures: TrialFigures;
  readonly taken: readonly { readonly term: TermOf<'schedule'>; readonly amount: bigint }[];
}

/** At most one warning: two schedules at once, else one beside fibre that is priced low. */
export function adviseOnFibre(ground: Ground): Advice[] {
  const charged = huskyLoads(ground).map((figures) => chargesOn(ground, figures));
  const onFibre = (term: TermOf<'schedule'>) => term.on === 'ndf' || term.on === 'adf';
  const twice = heaviest(
    charged.filter(({ taken }) => taken.length > 1 && taken.some(({ term }) => onFibre(term))),
  );
  if (twice) return [{ kind: 'fibre-twice', message: tellTwice(ground, twice) }];
  const share = fibreShare(ground.agreement.price);
  const once = heaviest(charged.filter(({ taken }) => taken.some(({ term }) => onFibre(term))));
  if (!share || !once || compare(share.percent, USUAL_FIBRE_SHARE) >= 0) return [];
  return [{ kind: 'fibre-twice', message: tellLowShare(ground, { share, charged: once }) }];
}

/** From the usual load to half a range beyond the least starch that is seen, NDF and ADF rising as starch falls. */
function huskyLoads({ agreement, usual }: Ground): TrialFigures[] {
  const { low, high } = usualFeed(agreement.feed).range.starch;
  const least = subtract(low, divide(subtract(high, low), whole(2)));
  const way = subtract(least, usual.get('starch') ?? ZERO);
  return Array.from({ length: POINTS }, (_, index) =>
    moveFigures(usual, { starch: divide(multiply(way, whole(index + 1)), whole(POINTS)) }),
  );
}

/** The schedules that take something off for fibre above, or starch below, what they call neutral. */
function chargesOn(ground: Ground, figures: TrialFigures): Charged {
  const tried = ground.tryLoad(figures);
  if (tried.impossible !== undefined) return { figures, taken: [] };
  return {
    figures,
    taken: ground.agreement.price.flatMap((term, index) => {
      const amount = tried.lines[index]?.amount ?? 0n;
      return term.term === 'schedule' && amount < 0n && isForFibre(term, figures) ? [{ term, amount }] : [];
    }),
  };
}

function isForFibre({ on, neutral }: TermOf<'schedule'>, figures: TrialFigures): boolean {
  const figure = on === 'moisture' ? undefined : figures.get(on);
  if (!figure) return false;
  if (on === 'ndf' || on === 'adf') return compare(figure, decimal(neutral.to)) > 0;
  return on === 'starch' && compare(figure, decimal(neutral.from)) < 0;
}

function heaviest(charged: readonly Charged[]): Charged | undefined {
  const sum = ({ taken }: Charged) => taken.reduce((total, { amount }) => total + amount, 0n);
  return charged.toSorted((a, b) => (sum(a) < sum(b) ? -1 : sum(a) > sum(b) ? 1 : 0))[0];
}

interface FibreShare {
  readonly percent: Exact;
  /** The line that pays it; none where fibre is not paid for at all. */
  readonly label: string | undefined;
}

/**
 * What fibre is paid, in percent of the price of grain, where grain and the rest are priced apart; undefined where
 * the formula does not part them, or pays them by different references.
 */
function fibreShare(price: readonly PriceTerm[]): FibreShare | undefined {
  const grain = price.find(
    (term) => term.term === 'constituent' && (term.of === 'starch' || term.of === 'grain-equivalent'),
  );
  if (grain?.term !== 'constituent') return undefined;
  const others = price.filter((term) => term !== grain);
  const rest = others.filter((term) => term.term === 'remainder');
  const wholeToo = others.some(
    (term) =>
      term.term === 'equivalent-bushels' ||
      (term.term === 'constituent' && (term.of === 'dry-matter' || term.of === 'ndf' || term.of === 'adf')) ||
      (term.term === 'flat' && term.weight !== undefined && !term.rate.startsWith('-')),
  );
  if (wholeToo || rest.some(({ at }) => at.reference !== grain.at.reference || at.per !== 'dry-matter'))
    return undefined;
  return {
    percent: rest.reduce((sum, { sharePercent }) => add(sum, decimal(sharePercent ?? '100')), ZERO),
    label: rest[0]?.label,
  };
}

function tellTwice(ground: Ground, charged: Charged): string {
  return `Fibre is taken off twice: on ${ground.loadInWords} with ${tellHusky(charged)}, ${tellTaken(ground, charged)}. Where fibre rises, starch falls, and NDF holds the ADF, so these measure the same husk. Keep one of them, or make each smaller, since they add up.`;
}

function tellLowShare(
  ground: Ground,
  { share, charged }: { readonly share: FibreShare; readonly charged: Charged },
): string {
  const paid =
    share.label === undefined
      ? 'fibre earns nothing in this formula'
      : `“${share.label}” pays fibre at ${printDecimal(share.percent, 2)} % of the price of grain already`;
  return `Fibre is taken off twice: ${paid}, and on ${ground.loadInWords} with ${tellHusky(charged)} ${tellTaken(ground, charged)} besides. Pay the fibre at a fuller share (about 60 % is common practice), or leave the schedule out.`;
}

function tellHusky({ figures }: Charged): string {
  const figure = (measure: 'starch' | 'ndf') => printDecimal(figures.get(measure) ?? ZERO, 1);
  return `${figure('starch')} % starch and ${figure('ndf')} % NDF`;
}

function tellTaken(ground: Ground, { taken }: Charged): string {
  return listed(
    taken.map(
      ({ term, amount }) => `“${term.label}” takes off ${ground.tellMoney(moneyFrom(ground, amount))}`,
    ),
  );
}
