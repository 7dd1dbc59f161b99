/**
 * A price line in a few words, for the head of its panel. What is not filled in yet shows as "…".
 */
import { MEASURE_NAMES, MEASURE_UNITS, type Measure, type Part } from '../../domain/agreement/measures.ts';
import { withMinus } from '../../domain/numbers/printing.ts';
import { readAt, shownText } from './document-path.ts';
import { perWord } from './format-words.ts';

const GAP = '…';

/** "−4.25 USD per short ton as fed", "60 % of the corn price, for what is left after grain". */
export function termSummary(term: unknown, currency: string): string {
  const figure = (...path: string[]) => withMinus(shownText(readAt(term, path)) || GAP);
  const price = `${shownText(readAt(term, ['sharePercent'])) || '100'} % of the ${figure('at', 'reference')} price`;
  switch (readAt(term, ['term'])) {
    case 'constituent':
      return `${price}, for ${partWord(readAt(term, ['of']))}`;
    case 'remainder': {
      const after = readAt(term, ['after']);
      const parts = Array.isArray(after) ? after.map(partWord) : [];
      return `${price}, for ${parts.length === 0 ? 'all dry matter' : `what is left after ${parts.join(', ')}`}`;
    }
    case 'equivalent-bushels':
      return `${price}, by the bushel; bushels by ${METHODS[figure('method', 'kind')] ?? GAP}`;
    case 'flat':
      return `${figure('rate')} ${currency} ${perWords(term)}`;
    case 'schedule':
      return `${measureWord(readAt(term, ['on']))} outside ${figure('neutral', 'from')} to ${figure('neutral', 'to')}${unitWord(readAt(term, ['on']))}`;
    case 'limit': {
      const ends = [
        ...(readAt(term, ['floor']) === undefined ? [] : [`at least ${figure('floor')}`]),
        ...(readAt(term, ['ceiling']) === undefined ? [] : [`at most ${figure('ceiling')}`]),
      ];
      return `${ends.join(', ') || GAP} ${currency} ${perWords(term)}`;
    }
    default:
      return 'a line of no known kind';
  }
}

const METHODS: Readonly<Record<string, string>> = {
  'dry-matter': 'dry matter',
  shrink: 'shrink',
  table: 'a table',
};

function perWords(term: unknown): string {
  const weight = readAt(term, ['weight']);
  const of = weight === 'as-fed' ? ' as fed' : weight === 'dry-matter' ? ' of dry matter' : '';
  return `per ${perWord(readAt(term, ['per']))}${of}`;
}

function partWord(part: unknown): string {
  if (part === 'grain-equivalent') return 'grain by its starch';
  return (MEASURE_NAMES[part as Part] as string | undefined) ?? GAP;
}

export function measureWord(measure: unknown): string {
  return (MEASURE_NAMES[measure as Measure] as string | undefined) ?? GAP;
}

function unitWord(measure: unknown): string {
  const unit = MEASURE_UNITS[measure as Measure] as string | undefined;
  return unit ? ` ${unit}` : '';
}
