/**
 * What the journal should remember of each row that stands, by the row's id.
 */
import type { Fact } from '../../journal/facts.ts';
import type { StandingRows } from '../../store/rows/audit-rows.ts';
import { answerFact, correctionFact } from '../corrections/correction-fact.ts';
import { choiceFact } from '../loads/choice-fact.ts';
import { loadFact, loadVersionFact } from '../loads/load-fact.ts';
import { seriesFact, spentTicketFact, weighingFact } from '../loads/ticket-fact.ts';
import { closingFact, signingFact } from '../offers/signing-fact.ts';
import { quoteFact } from '../prices/quote-fact.ts';
import { seriesTermsFact } from '../prices/series-terms.ts';
import { resultAnswerFact } from '../results/answer-fact.ts';
import { resultFact } from '../results/result-fact.ts';
import { handoverFact, partFact, takingFact } from '../samples/sample-fact.ts';
import { settlementFact } from '../settlements/settlement-row.ts';

export function rememberedFacts(rows: StandingRows): ReadonlyMap<string, Fact> {
  const { agreement } = rows;
  const facts: [string, Fact][] = [
    ...rows.versions.map(({ id, version, fingerprint }): [string, Fact] => [
      id,
      {
        kind: 'agreement',
        fact: {
          number: agreement.number,
          seller: agreement.sellerId,
          buyer: agreement.buyerId,
          version: String(version),
          fingerprint,
        },
      },
    ]),
    ...[...rows.corrections, ...rows.allowances].flatMap((row): [string, Fact][] => [
      [row.id, { kind: 'correction', fact: correctionFact(row) }],
      ...(row.answerId === null || row.answer === null
        ? []
        : [[row.answerId, { kind: 'correction-answer', fact: answerFact(row) }] as [string, Fact]]),
    ]),
    ...rows.weighings.map((row): [string, Fact] => [row.id, { kind: 'weighing', fact: weighingFact(row) }]),
    ...rows.series.map((row): [string, Fact] => [row.id, { kind: 'ticket-series', fact: seriesFact(row) }]),
    ...rows.spentTickets.map((row): [string, Fact] => [
      row.id,
      { kind: 'spent-ticket', fact: spentTicketFact(row) },
    ]),
    ...rows.seriesTerms.map((row): [string, Fact] => [
      row.id,
      { kind: 'series-terms', fact: seriesTermsFact(row) },
    ]),
    ...rows.signings.map((row): [string, Fact] => [row.id, { kind: 'signing', fact: signingFact(row) }]),
    ...(rows.closing
      ? [[rows.closing.id, { kind: 'closing', fact: closingFact(rows.closing) }] as [string, Fact]]
      : []),
    ...rows.quotes.map((row): [string, Fact] => [row.id, { kind: 'quote', fact: quoteFact(row) }]),
    ...rows.loads.map((row): [string, Fact] => [row.id, { kind: 'load', fact: loadFact(row) }]),
    ...rows.loadVersions.map((row): [string, Fact] => [
      row.id,
      { kind: 'load-version', fact: loadVersionFact(row) },
    ]),
    ...rows.results.map((row): [string, Fact] => [row.id, { kind: 'result', fact: resultFact(row) }]),
    ...rows.elections.map(({ id, loadId, series, date }): [string, Fact] => [
      id,
      { kind: 'election', fact: { load: loadId, series, date } },
    ]),
    ...rows.choices.map((row): [string, Fact] => [row.id, { kind: 'choice', fact: choiceFact(row) }]),
    ...rows.resultAnswers.map((row): [string, Fact] => [
      row.id,
      { kind: 'result-answer', fact: resultAnswerFact(row) },
    ]),
    ...rows.takings.map((row): [string, Fact] => [row.id, { kind: 'sample-taking', fact: takingFact(row) }]),
    ...rows.parts.map((row): [string, Fact] => [row.id, { kind: 'sample-part', fact: partFact(row) }]),
    ...rows.handovers.map((row): [string, Fact] => [
      row.id,
      { kind: 'part-handover', fact: handoverFact(row) },
    ]),
    ...rows.settlements.map((row): [string, Fact] => [
      row.id,
      { kind: 'settlement', fact: settlementFact(row) },
    ]),
  ];
  return new Map([
    ...facts,
    ...moneyFacts(rows.money),
    ...retestFacts(rows.retests),
    ...seasonFacts(rows.seasonNotes),
  ]);
}

function moneyFacts(money: StandingRows['money']): [string, Fact][] {
  const facts: readonly (readonly [Fact, string])[] = [
    ...money.documents.map(({ id, fact }) => [{ kind: 'document', fact }, id] as const),
    ...money.payments.map(({ id, fact }) => [{ kind: 'payment', fact }, id] as const),
    ...money.answers.map(({ id, fact }) => [{ kind: 'payment-answer', fact }, id] as const),
    ...money.reversals.map(({ id, fact }) => [{ kind: 'payment-reversal', fact }, id] as const),
    ...money.holds.map(({ id, fact }) => [{ kind: 'hold', fact }, id] as const),
    ...money.holdEnds.map(({ id, fact }) => [{ kind: 'hold-end', fact }, id] as const),
    ...money.setOffs.map(({ id, fact }) => [{ kind: 'set-off', fact }, id] as const),
    ...money.setOffAnswers.map(({ id, fact }) => [{ kind: 'set-off-answer', fact }, id] as const),
    ...money.liens.map(({ id, fact }) => [{ kind: 'lien-notice', fact }, id] as const),
    ...money.lienEnds.map(({ id, fact }) => [{ kind: 'lien-end', fact }, id] as const),
  ];
  return facts.map(([fact, id]) => [id, fact]);
}

function retestFacts(retests: StandingRows['retests']): [string, Fact][] {
  const facts: readonly (readonly [Fact, string])[] = [
    ...retests.questions.map(({ id, fact }) => [{ kind: 'retest', fact }, id] as const),
    ...retests.figures.map(({ id, fact }) => [{ kind: 'retest-figure', fact }, id] as const),
    ...retests.figureAnswers.map(({ id, fact }) => [{ kind: 'retest-figure-answer', fact }, id] as const),
    ...retests.proposals.map(({ id, fact }) => [{ kind: 'retest-proposal', fact }, id] as const),
    ...retests.proposalAnswers.map(({ id, fact }) => [{ kind: 'retest-proposal-answer', fact }, id] as const),
    ...retests.endings.map(({ id, fact }) => [{ kind: 'retest-ending', fact }, id] as const),
  ];
  return facts.map(([fact, id]) => [id, fact]);
}

function seasonFacts({ notes, answers }: StandingRows['seasonNotes']): [string, Fact][] {
  return [
    ...notes.map(({ id, fact }): [string, Fact] => [id, { kind: 'season-note', fact }]),
    ...answers.map(({ id, fact }): [string, Fact] => [id, { kind: 'season-note-answer', fact }]),
  ];
}
