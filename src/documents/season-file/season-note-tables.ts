/**
 * Tables of what two parties put to each other about seasons, and of the notes of money for a season as a whole. A season that
 * has none has no such file: what was saved before there were any must fit for years.
 */
import { figureCell, safeCsvTable } from '../csv.ts';
import { lastLoads } from './input-tables.ts';
import type { EntryOf, SeasonJournal } from './season-journal.ts';

export function seasonNoteTables(journal: SeasonJournal): readonly (readonly [name: string, text: string])[] {
  const money = journal.of('document').filter(({ fact }) => fact.seasonRule !== undefined);
  return [
    ...(journal.of('season-note').length === 0 ? [] : [['season-notes.csv', notes(journal)] as const]),
    ...(money.length === 0 ? [] : [['season-documents.csv', documents(money)] as const]),
  ];
}

/** About a load of another season, a note names it by the id that it has there. */
function notes(journal: SeasonJournal): string {
  const loads = lastLoads(journal);
  const answers = new Map(journal.of('season-note-answer').map(({ fact }) => [fact.note, fact]));
  const numbers = new Map(journal.of('document').map(({ subject, fact }) => [subject, fact.serial]));
  return safeCsvTable(
    [
      'kind',
      'put_by',
      'ticket',
      'of_agreement',
      'of_load',
      'amount',
      'reason',
      'answer',
      'answer_reason',
      'document',
    ],
    journal.of('season-note').map(({ subject, fact }) => {
      const answer = answers.get(subject);
      const document = answer?.document ?? null;
      return [
        fact.kind,
        journal.partyName(fact.party),
        fact.load === null ? '' : (loads.get(fact.load)?.fact.ticket ?? fact.load),
        fact.ofAgreement ?? '',
        fact.ofLoad ?? '',
        figureCell(fact.amount),
        fact.reason,
        answer?.answer ?? '',
        answer?.reason ?? '',
        document === null ? '' : figureCell(numbers.get(document) ?? ''),
      ];
    }),
  );
}

function documents(money: readonly EntryOf<'document'>[]): string {
  return safeCsvTable(
    ['number', 'rule', 'of_agreement', 'payable', 'currency'],
    money.map(({ fact }) => [
      figureCell(fact.serial),
      fact.seasonRule ?? '',
      fact.ofAgreement ?? '',
      figureCell(fact.payable),
      fact.currency,
    ]),
  );
}
