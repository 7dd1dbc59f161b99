/**
 * Reads what happened to a season's money from plain dated lines, `money.txt` in its folder: a day, two spaces or more,
 * who, and what they did. A line that begins with # is a remark. Whatever is not understood is a problem with its line.
 * It lives with the demo and not in the program: each line is done on its own day, and outside of a story nobody may say
 * which day it is.
 */
import { type LocalDate, parseLocalDate } from '../src/domain/dates/local-date.ts';
import { QUESTION_PHRASES, type QuestionAct } from './question-lines.ts';
import { DAY, dated, FIGURE, figure, type Phrase, phrase, text } from './story-phrase.ts';

/** One act; each is one use case. Amounts and weights are decimal strings without commas. */
export type StoryAct = MoneyAct | QuestionAct;

type MoneyAct =
  | {
      readonly act: 'record-loads';
      readonly until: LocalDate;
      /** The scale's name, where it is told. */
      readonly scale: string | undefined;
    }
  | { readonly act: 'record-quotes'; readonly until: LocalDate }
  | {
      readonly act: 'enter-results';
      readonly samples: readonly string[];
      readonly laboratory: string | undefined;
    }
  | { readonly act: 'settle' | 'give-advances' | 'issue' | 'agree-set-off' }
  | { readonly act: 'charge-interest'; readonly through: LocalDate }
  | {
      readonly act: 'pay';
      readonly amount: string;
      readonly method: string;
      readonly reference: string;
      readonly isJoint: boolean;
      /** The part that is meant for one invoice. */
      readonly part: { readonly amount: string; readonly document: string } | undefined;
      readonly pastLien: string | undefined;
    }
  | { readonly act: 'confirm-payment'; readonly payment: string }
  | { readonly act: 'return-payment'; readonly payment: string; readonly reason: string }
  | {
      readonly act: 'propose-weights';
      readonly ticket: string;
      readonly gross: string;
      readonly tare: string;
      readonly reason: string;
    }
  | { readonly act: 'confirm-weights' | 'release'; readonly ticket: string }
  | {
      readonly act: 'hold';
      readonly ticket: string;
      readonly document: string;
      readonly figure: string;
      readonly reason: string;
    }
  | {
      readonly act: 'record-lien';
      readonly lender: string;
      readonly cropYear: string;
      readonly county: string;
      readonly conditions: string;
    }
  | { readonly act: 'propose-set-off'; readonly amount: string; readonly reason: string };

export interface StoryLine {
  /** Counted from 1. */
  readonly line: number;
  readonly day: LocalDate;
  /** A party's name. */
  readonly by: string;
  readonly act: StoryAct;
}

export interface ReadStory {
  readonly lines: readonly StoryLine[];
  /** "line 7: …", all of them; where there is one, the story is not to be played. */
  readonly problems: readonly string[];
}

const PAYMENT = String.raw`(?:check|transfer|cash|other)(?: [\w-]+)?`;

const MONEY_PHRASES: readonly Phrase<MoneyAct>[] = [
  phrase(
    'records loads until 2026-09-11 weighed on Home Yard',
    `records loads until (?<day>${DAY})(?: weighed on (?<scale>.+))?`,
    ({ day, scale }) => dated(day, (until) => ({ act: 'record-loads', until, scale })),
  ),
  phrase('records quotes until 2026-09-11', `records quotes until (?<day>${DAY})`, ({ day }) =>
    dated(day, (until) => ({ act: 'record-quotes', until })),
  ),
  phrase(
    'enters results H-01, H-02 of Alder Bench',
    String.raw`enters results (?<samples>[^\s,]+(?:, [^\s,]+)*)(?: of (?<laboratory>.+))?`,
    ({ samples, laboratory }) => ({ act: 'enter-results', samples: text(samples).split(', '), laboratory }),
  ),
  phrase('settles what is ready', 'settles what is ready', () => ({ act: 'settle' })),
  phrase('gives advances', 'gives advances', () => ({ act: 'give-advances' })),
  phrase('issues what is over', 'issues what is over', () => ({ act: 'issue' })),
  phrase(
    'pays 7,000.00 by check 1060 made out jointly, 5,694.48 of it for invoice 7',
    `pays (?<amount>${FIGURE}) by (?<method>check|transfer|cash|other)(?: (?<reference>(?!made |past )[\\w-]+))?` +
      `(?<joint> made out jointly)?(?:, (?<part>${FIGURE}) of it for (?<document>invoice \\d+))?(?: past the lien: (?<past>.+))?`,
    ({ amount, method, reference, joint, part, document, past }) => ({
      act: 'pay',
      amount: figure(amount),
      method: text(method),
      reference: text(reference),
      isJoint: joint !== undefined,
      part: document === undefined ? undefined : { amount: figure(part), document },
      pastLien: past,
    }),
  ),
  phrase('confirms check 1043', `confirms (?<payment>${PAYMENT})`, ({ payment }) => ({
    act: 'confirm-payment',
    payment: text(payment),
  })),
  phrase(
    'has check 1047 back from the bank: no funds',
    `has (?<payment>${PAYMENT}) back from the bank: (?<reason>.+)`,
    ({ payment, reason }) => ({ act: 'return-payment', payment: text(payment), reason: text(reason) }),
  ),
  phrase(
    'proposes gross 79,620 and tare 31,020 for ticket 712: the tare was misread',
    `proposes gross (?<gross>${FIGURE}) and tare (?<tare>${FIGURE}) for ticket (?<ticket>\\S+): (?<reason>.+)`,
    ({ gross, tare, ticket, reason }) => ({
      act: 'propose-weights',
      ticket: text(ticket),
      gross: figure(gross),
      tare: figure(tare),
      reason: text(reason),
    }),
  ),
  phrase(
    'confirms the correction of ticket 712',
    String.raw`confirms the correction of ticket (?<ticket>\S+)`,
    ({ ticket }) => ({ act: 'confirm-weights', ticket: text(ticket) }),
  ),
  phrase(
    'makes ticket 714 on invoice 7 2,600.00: a wet patch',
    `makes ticket (?<ticket>\\S+) on (?<document>invoice \\d+) (?<figure>${FIGURE}): (?<reason>.+)`,
    ({ ticket, document, figure: made, reason }) => ({
      act: 'hold',
      ticket: text(ticket),
      document: text(document),
      figure: figure(made),
      reason: text(reason),
    }),
  ),
  phrase('lets go of ticket 714', String.raw`lets go of ticket (?<ticket>\S+)`, ({ ticket }) => ({
    act: 'release',
    ticket: text(ticket),
  })),
  phrase('charges interest through 2026-10-16', `charges interest through (?<day>${DAY})`, ({ day }) =>
    dated(day, (through) => ({ act: 'charge-interest', through })),
  ),
  phrase(
    'has notice of a lien of Fallow Creek Credit on the crop of 2026 in Larkspur: checks to both',
    String.raw`has notice of a lien of (?<lender>.+) on the crop of (?<year>\d{4}) in (?<county>[^:]+): (?<conditions>.+)`,
    ({ lender, year, county, conditions }) => ({
      act: 'record-lien',
      lender: text(lender),
      cropYear: text(year),
      county: text(county),
      conditions: text(conditions),
    }),
  ),
  phrase(
    'proposes to set off 1,000.00: for invoice 8',
    `proposes to set off (?<amount>${FIGURE}): (?<reason>.+)`,
    ({ amount, reason }) => ({ act: 'propose-set-off', amount: figure(amount), reason: text(reason) }),
  ),
  phrase('agrees to the set-off', 'agrees to the set-off', () => ({ act: 'agree-set-off' })),
];

const PHRASES: readonly Phrase<StoryAct>[] = [...MONEY_PHRASES, ...QUESTION_PHRASES];

/** Reads all lines, or says of each what is wrong with it; days must not go back. */
export function readStory(story: string, parties: readonly string[]): ReadStory {
  const lines: StoryLine[] = [];
  const problems: string[] = [];
  for (const [index, written] of story.split(/\r?\n/).entries()) {
    const line = index + 1;
    if (written.trim() === '' || written.startsWith('#')) continue;
    const read = readLine(written.trimEnd(), parties);
    if (typeof read === 'string') {
      problems.push(`line ${line}: ${read}`);
      continue;
    }
    const before = lines.at(-1)?.day;
    if (before !== undefined && read.day < before) {
      problems.push(`line ${line}: ${read.day} comes after ${before}; a story goes forward`);
    }
    lines.push({ line, ...read });
  }
  return { lines, problems };
}

function readLine(written: string, parties: readonly string[]): Omit<StoryLine, 'line'> | string {
  const [, date = '', said = ''] = /^(\S+)\s{2,}(.+)$/.exec(written) ?? [];
  const day = parseLocalDate(date);
  if (!day)
    return `must begin with a day and two spaces, like "2026-09-14  "; found ${JSON.stringify(written)}`;
  const by = parties.find((party) => said.startsWith(`${party} `));
  if (by === undefined) return `must say who: ${parties.join(' or ')}; found ${JSON.stringify(said)}`;
  const did = said.slice(by.length + 1);
  for (const { pattern, act } of PHRASES) {
    const groups = pattern.exec(did);
    const found = groups && act(groups.groups ?? {});
    if (found) return { day, by, act: found };
    if (groups) return `names a day that is not on the calendar: ${JSON.stringify(did)}`;
  }
  const known = PHRASES.map(({ like }) => `\n  ${like}`).join('');
  return `${JSON.stringify(did)} is none of the things that a story tells, which are like${known}`;
}
