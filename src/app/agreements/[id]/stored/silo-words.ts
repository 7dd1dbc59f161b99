/**
 * What a silo's account says, in sentences.
 */
import { dayInWords } from '../../../../domain/dates/day-words.ts';
import type { LocalDate } from '../../../../domain/dates/local-date.ts';
import type { Lack, ShrinkStanding } from '../../../../domain/storage/silo-account.ts';
import type { SiloEntryKind } from '../../../../domain/storage/silo-row.ts';
import type { SiloEntryView, SiloView } from '../../../../usecases/storage/read-silos.ts';
import { TON_WORDS } from '../progress/progress-words.ts';

interface Reader {
  readonly show: (decimal: string) => string;
  readonly today: LocalDate;
}

/** The first sentence of an account: what is gone, or why that cannot be said yet. */
export function standingSentence(silo: SiloView, { show, today }: Reader): string {
  const { shrink, until, isBelowZero, lacks, notAccounted, unit } = silo;
  const amount = `${show(notAccounted.replace('-', ''))} ${TON_WORDS[unit]} of dry matter`;
  if (shrink !== undefined && until !== undefined) {
    const day = dayInWords(until, today);
    return isBelowZero
      ? `More came out than went in: look at the figures. By ${day} it is ${amount} too much, a shrink of ${show(shrink)} %, which cannot be.`
      : `${show(shrink)} % of the dry matter that went in is gone by ${day}: ${amount}.`;
  }
  const [lack, ...more] = lacks;
  if (lack?.why !== 'nothing-left-measured' || more.length > 0) return 'What is gone cannot be said yet.';
  return isBelowZero
    ? `More came out than went in: look at the figures. ${amount} more was fed than was put in.`
    : `${amount} is not accounted for yet: what lies in the silo still, and what is gone.`;
}

export function lackSentence(lack: Lack, today: LocalDate): string {
  switch (lack.why) {
    case 'nothing-delivered':
      return 'No load is put in yet.';
    case 'not-settled':
      return `${lack.tickets.join(', ')}: not settled yet, and counted as nothing until then.`;
    case 'no-dry-matter':
      return `${lack.tickets.join(', ')}: no test tells the dry matter, so nothing is counted for it. Have a result recorded, or leave it out of the silo.`;
    case 'nothing-left-measured':
      return 'It is fed from without a measure of what is left. Write down what is left, or that it is empty, and its shrink is worked out.';
    case 'period-across':
      return `Feed is written down in one sum from ${dayInWords(lack.from, today)} to ${dayInWords(lack.to, today)}, across the day when what was left was measured. Put it right as two sums, one up to that day.`;
  }
}

export const STANDING_WORDS: Readonly<Record<ShrinkStanding, string>> = {
  'more-out-than-in': 'cannot be',
  below: 'yours is less',
  within: 'yours is within it',
  above: 'yours is more',
};

export const ENTRY_NAMES: Readonly<Record<Exclude<SiloEntryKind, 'silo'>, string>> = {
  filling: 'Put in',
  fed: 'Fed',
  left: 'Left',
};

const UNIT_WORDS: Readonly<Record<string, string>> = {
  lb: 'lb',
  kg: 'kg',
  'short-ton': 'short tons',
  tonne: 'tonnes',
};

/** An entry as it was written down: "20,000 lb at 59 % dry matter, 3 November to 9 November". */
export function entrySentence({ kind, content }: SiloEntryView, { show, today }: Reader): string {
  const text = (column: string) => content[column] ?? '';
  const day = (column: string) => dayInWords(text(column) as LocalDate, today);
  const period =
    text('to') === '' || text('to') === text('from') ? day('from') : `${day('from')} to ${day('to')}`;
  const dryMatter = `at ${show(text('dry_matter'))} % dry matter`;
  const weight = `${show(text('weight'))} ${UNIT_WORDS[text('unit')] ?? ''} ${dryMatter}`;
  switch (kind) {
    case 'silo':
      return text('name');
    case 'filling':
      return text('tickets') === ''
        ? `all loads of ${period}`
        : `of the loads of ${period}: ${text('tickets')}`;
    case 'fed':
      return `${weight}, ${period}`;
    case 'left': {
      if (text('how') === 'empty') return `nothing, ${day('on')}`;
      if (text('how') === 'weighed') return `${weight}, ${day('on')}`;
      const [volume, density] =
        text('measures') === 'feet'
          ? ['cubic feet', 'lb a cubic foot']
          : ['cubic metres', 'kg a cubic metre'];
      return `${show(text('volume'))} ${volume} at ${show(text('density'))} ${density} ${dryMatter}, ${day('on')}`;
    }
  }
}
