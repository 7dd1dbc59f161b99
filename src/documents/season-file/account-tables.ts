/**
 * What a sealed season came to, as tables for an auditor: every settlement, document, payment and question with the figure
 * that its journal gives it, and what each entry posted.
 */
import { figureCell, safeCsvTable } from '../csv.ts';
import { lastLoads } from './input-tables.ts';
import type { SeasonJournal } from './season-journal.ts';

/** Name and text of each file; columns with the name of a day hold days of UTC only where they end in `_at`. */
export function accountTables(journal: SeasonJournal): readonly (readonly [name: string, text: string])[] {
  return [
    ['settlements.csv', settlements(journal)],
    ['documents.csv', documents(journal)],
    ['payments.csv', payments(journal)],
    ['questions.csv', questions(journal)],
    ['postings.csv', postings(journal)],
  ];
}

/** A row a line of each settlement, earlier versions too. */
function settlements(journal: SeasonJournal): string {
  const loads = lastLoads(journal);
  return safeCsvTable(
    ['ticket', 'version', 'status', 'line', 'quantity', 'unit', 'rate', 'amount', 'currency', 'how'],
    journal.of('settlement').flatMap(({ fact }) => {
      const ticket = loads.get(fact.load)?.fact.ticket ?? fact.load;
      const start = [ticket, { figure: fact.version }, fact.status];
      return [
        ...fact.lines.map((line) => [
          ...start,
          line.label,
          figureCell(line.quantity),
          line.unit,
          figureCell(line.rate),
          figureCell(line.amount),
          fact.currency,
          line.how,
        ]),
        [...start, 'total', '', '', '', figureCell(fact.total), fact.currency, ''],
      ];
    }),
  );
}

function documents({ of }: SeasonJournal): string {
  const numbers = new Map(of('document').map(({ subject, fact }) => [subject, fact.serial]));
  return safeCsvTable(
    ['number', 'kind', 'issued_on', 'due_on', 'corrects', 'payable', 'currency', 'fingerprint'],
    of('document').map(({ fact }) => [
      figureCell(fact.serial),
      fact.kind,
      fact.issuedOn,
      fact.dueOn,
      fact.corrects === null ? '' : figureCell(numbers.get(fact.corrects) ?? ''),
      figureCell(fact.payable),
      fact.currency,
      fact.fingerprint,
    ]),
  );
}

function payments({ of, partyName }: SeasonJournal): string {
  const answers = new Map(of('payment-answer').map(({ fact }) => [fact.payment, fact.answer]));
  const reversed = new Map(of('payment-reversal').map(({ fact }) => [fact.payment, fact.reversedOn]));
  return safeCsvTable(
    ['paid_on', 'paid_by', 'amount', 'currency', 'method', 'reference', 'answer', 'reversed_on'],
    of('payment').map(({ subject, fact }) => [
      fact.paidOn,
      partyName(fact.payer),
      figureCell(fact.amount),
      fact.currency,
      fact.method,
      fact.reference ?? '',
      answers.get(subject) ?? '',
      reversed.get(subject) ?? '',
    ]),
  );
}

function questions(journal: SeasonJournal): string {
  const loads = lastLoads(journal);
  const endings = new Map(journal.of('retest-ending').map(({ fact }) => [fact.retest, fact]));
  return safeCsvTable(
    ['about', 'sample', 'ticket', 'first', 'claimed', 'asked_by', 'ending', 'because', 'decided'],
    journal.of('retest').map(({ subject, fact }) => {
      const ending = endings.get(subject);
      return [
        fact.about,
        fact.sample ?? '',
        fact.load === null ? '' : (loads.get(fact.load)?.fact.ticket ?? fact.load),
        figureCell(fact.first),
        figureCell(fact.claimed),
        journal.partyName(fact.party),
        ending?.ending ?? '',
        ending?.because ?? '',
        ending ? figureCell(ending.value) : '',
      ];
    }),
  );
}

/** A row for each account that an entry touches; below zero takes from it. */
function postings({ all }: SeasonJournal): string {
  return safeCsvTable(
    ['entry', 'posted_at', 'kind', 'account', 'amount', 'unit'],
    all.flatMap(({ sequence, postedAt, kind, postings: posted }) =>
      posted.map(({ account, amount, unit }) => [
        figureCell(sequence),
        postedAt,
        kind,
        account,
        figureCell(amount),
        unit,
      ]),
    ),
  );
}
