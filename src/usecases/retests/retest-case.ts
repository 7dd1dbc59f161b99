/**
 * A question with all that was recorded of it, read as the domain works it out.
 */
import type { Questioned } from '../../domain/agreement/retest-rules.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { decimal, subtract } from '../../domain/numbers/exact.ts';
import type { ScaleUnit } from '../../domain/quantities/units.ts';
import { type AskedRule, type CaseFigure, courseRules, parseRule } from '../../domain/retests/asked-rule.ts';
import type { Side } from '../../domain/retests/costs.ts';
import { type Course, courseOf } from '../../domain/retests/course.ts';
import { decimalsWritten, type RetestFigure, type Tester } from '../../domain/retests/figures.ts';
import type { ScaleMarks, WeighedTwice } from '../../domain/retests/weights.ts';
import type { AccuracyClass } from '../../domain/scales/divisions.ts';
import type { Transaction } from '../../store/open-store.ts';
import {
  type LoadRow,
  type LoadVersionRow,
  readTickets,
  type TicketRow,
  ticketKey,
} from '../../store/rows/load-rows.ts';
import type {
  RetestEndingRow,
  RetestFigureRow,
  RetestProposalRow,
  RetestRow,
  RetestRows,
} from '../../store/rows/retest-rows.ts';
import { readScaleVersions, type ScaleVersionRow } from '../../store/rows/scale-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { MoneyOf } from '../money/money-rows.ts';

export type FigureAnswerRow = RetestRows['figureAnswers'][number];
export type ProposalAnswerRow = RetestRows['proposalAnswers'][number];

/** A row of a figure, and the same as the domain reads it. */
export interface ReportedFigure extends CaseFigure {
  readonly row: RetestFigureRow;
  readonly said: FigureAnswerRow | undefined;
}

export interface RetestCase {
  readonly id: string;
  readonly about: Questioned;
  readonly row: RetestRow;
  readonly rule: AskedRule;
  readonly asker: Side;
  readonly askedOn: LocalDate;
  readonly first: RetestFigure;
  /** What the ticket said, of a weight. */
  readonly weighed: WeighedTwice | undefined;
  /** Oldest first, but for those that were taken back. */
  readonly figures: readonly ReportedFigure[];
  /** Whoever entered them took them back before they were answered. */
  readonly takenBack: readonly ReportedFigure[];
  readonly proposals: readonly {
    readonly row: RetestProposalRow;
    readonly answer: ProposalAnswerRow | undefined;
  }[];
  readonly ending: RetestEndingRow | undefined;
}

export interface CaseGround {
  readonly found: Pick<FoundAgreement, 'row'>;
  readonly rows: RetestRows;
  readonly scales: readonly ScaleVersionRow[];
  /** Tickets of questioned weights, by `ticketKey`. */
  readonly tickets: ReadonlyMap<string, TicketRow>;
  readonly dayOf: MoneyOf['dayOf'];
}

/** What the cases of an agreement are read with beside their own rows. */
export async function caseGround(
  tx: Transaction,
  of: Pick<CaseGround, 'found' | 'rows' | 'dayOf'>,
): Promise<CaseGround> {
  const loadIds = of.rows.questions.flatMap(({ fact }) => fact.load ?? []);
  if (loadIds.length === 0) return { ...of, scales: [], tickets: new Map() };
  return {
    ...of,
    tickets: await readTickets(tx, of.found.row.id, loadIds),
    scales: await readScaleVersions(tx),
  };
}

/** The questions of an agreement, the first asked first. */
export function casesOf(ground: CaseGround): readonly RetestCase[] {
  return ground.rows.questions.map((row) => caseOf(row, ground));
}

function caseOf(row: RetestRow, ground: CaseGround): RetestCase {
  const { found, rows, dayOf } = ground;
  const { id, fact } = row;
  const figures = rows.figures.flatMap((figure) =>
    figure.fact.retest === id ? [reported(figure, ground)] : [],
  );
  const isTakenBack = ({ said }: ReportedFigure) => said?.fact.answer === 'withdraw';
  const weighed = fact.load === null ? undefined : ticketWeighed(row, ground);
  return {
    id,
    about: fact.about as Questioned,
    row,
    rule: parseRule(fact.rule),
    asker: fact.party === found.row.sellerId ? 'seller' : 'buyer',
    askedOn: dayOf(row.recordedAt),
    first: { from: 'laboratory', value: decimal(fact.first), decimals: decimalsWritten(fact.first) },
    weighed,
    figures: figures.filter((figure) => !isTakenBack(figure)),
    takenBack: figures.filter(isTakenBack),
    proposals: rows.proposals.flatMap((proposal) =>
      proposal.fact.retest === id
        ? [{ row: proposal, answer: rows.proposalAnswers.find((said) => said.fact.proposal === proposal.id) }]
        : [],
    ),
    ending: rows.endings.find(({ fact: { retest } }) => retest === id),
  };
}

function reported(row: RetestFigureRow, ground: CaseGround): ReportedFigure {
  const { rows, dayOf } = ground;
  const { fact } = row;
  const said = rows.figureAnswers.find(({ fact: { figure } }) => figure === row.id);
  return {
    row,
    said,
    from: fact.tester as Tester,
    value: decimal(fact.value),
    decimals: decimalsWritten(fact.value),
    enteredOn: dayOf(row.recordedAt),
    answer: said && { word: said.fact.answer as 'confirm' | 'contest', on: dayOf(said.recordedAt) },
    weighed: fact.weighing === null ? undefined : secondWeighed(fact.weighing, ground),
  };
}

function secondWeighed(
  weighing: NonNullable<RetestFigureRow['fact']['weighing']>,
  { scales }: CaseGround,
): WeighedTwice {
  const scale = scales.find(
    ({ scaleId, version }) => scaleId === weighing.scale && String(version) === weighing.scaleVersion,
  );
  const marks = scale && scaleMarks(scale);
  return {
    gross: decimal(weighing.gross),
    tare: decimal(weighing.tare),
    unit: weighing.unit as ScaleUnit,
    grossScale: marks,
    tareScale: marks,
  };
}

function ticketWeighed({ fact, recordedAt }: RetestRow, { tickets, scales }: CaseGround): WeighedTwice {
  const ticket = tickets.get(ticketKey(fact.load ?? '', Number(fact.firstVersion)));
  if (!ticket) throw new Error('A questioned ticket is not there');
  return weighedBy(ticket, { scales, at: recordedAt });
}

/** A ticket's weighings with its scales as they were described by a moment. */
export function weighedBy(
  ticket: Pick<TicketRow | LoadRow | LoadVersionRow, 'gross' | 'tare' | 'unit' | 'grossScale' | 'tareScale'>,
  { scales, at }: { readonly scales: readonly ScaleVersionRow[]; readonly at: string },
): WeighedTwice {
  const marksOf = (id: string | null): ScaleMarks | undefined => {
    const version = scales.findLast(({ scaleId, recordedAt }) => scaleId === id && recordedAt <= at);
    return version && scaleMarks(version);
  };
  return {
    gross: decimal(ticket.gross),
    tare: decimal(ticket.tare),
    unit: ticket.unit as ScaleUnit,
    grossScale: marksOf(ticket.grossScale),
    tareScale: marksOf(ticket.tareScale),
  };
}

function scaleMarks({ accuracyClass, division, unit }: ScaleVersionRow): ScaleMarks {
  return {
    accuracyClass: accuracyClass as AccuracyClass,
    division: decimal(division),
    unit: unit as ScaleUnit,
  };
}

/** How a question stands on a day by its rule alone, whether or not that was recorded. */
export function courseOn(asked: RetestCase, today: LocalDate): Course<ReportedFigure> {
  const { rule, first, weighed, askedOn, figures } = asked;
  const rules = courseRules<ReportedFigure>(rule, { first, weighed });
  return courseOf(rules, { first, askedOn, figures }, today);
}

/** A net weight of a weighing, in its own unit. */
export function netOf({ gross, tare }: Pick<WeighedTwice, 'gross' | 'tare'>): WeighedTwice['gross'] {
  return subtract(gross, tare);
}
