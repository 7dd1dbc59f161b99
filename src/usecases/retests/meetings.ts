/**
 * Who met whom in retests: the laboratory of a questioned result and each that tested the sample again, the scale of a
 * questioned ticket and the second scale. Several figures of one laboratory on one question are one meeting, by their mean:
 * they were tested from one sample, and two of them are no two witnesses.
 */
import type { Tested } from '../../domain/agreement/measures.ts';
import type { Questioned } from '../../domain/agreement/retest-rules.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { compare, decimal } from '../../domain/numbers/exact.ts';
import { decimalsWritten, meanOf } from '../../domain/retests/figures.ts';
import type { Meeting } from '../../domain/retests/patterns.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readTickets, type TicketRow, ticketKey } from '../../store/rows/load-rows.ts';
import { type ResultRecord, readResultRecords } from '../../store/rows/result-rows.ts';
import type { RetestFigureRow, RetestRow, RetestRows } from '../../store/rows/retest-rows.ts';
import { readScaleVersions, type ScaleVersionRow } from '../../store/rows/scale-rows.ts';
import { groupRows } from '../group-rows.ts';
import { figureUnit } from './questionable.ts';

export interface RetestMeeting extends Meeting {
  readonly retestId: string;
  readonly agreementId: string;
  /** "sample S1", "ticket 1075". */
  readonly subject: string;
  /** Of the more precise figure. */
  readonly decimals: number;
  /** What whoever asked made of the questioned figure. */
  readonly doubted: 'too-high' | 'too-low';
}

export interface Meetings {
  readonly meetings: readonly RetestMeeting[];
  /** Retests of a figure whose laboratory, or whose one scale, is not named. */
  readonly unnamed: number;
}

/** In the order in which the questions were asked. */
export async function meetingsOf(tx: Transaction, rows: RetestRows): Promise<Meetings> {
  const contested = new Set(
    rows.figureAnswers.flatMap(({ fact }) => (fact.answer === 'confirm' ? [] : [fact.figure])),
  );
  const figures = groupRows(
    rows.figures.filter(({ id }) => !contested.has(id)),
    ({ fact }) => fact.retest,
  );
  const asked = rows.questions.filter(({ id }) => figures.has(id));
  const ground = await readGround(tx, asked);
  const meetings: RetestMeeting[] = [];
  let unnamed = 0;
  for (const question of asked) {
    const first = firstOf(question, ground);
    const later = figures.get(question.id) ?? [];
    if (!first) unnamed += later.length;
    else meetings.push(...meetingsOn(question, { first, later, ground }));
  }
  return { meetings, unnamed };
}

interface Ground {
  /** By `ticketKey`. */
  readonly tickets: ReadonlyMap<string, TicketRow>;
  /** By sample and version. */
  readonly results: ReadonlyMap<string, ResultRecord>;
  /** By id. */
  readonly scaleNames: ReadonlyMap<string, string>;
}

async function readGround(tx: Transaction, asked: readonly RetestRow[]): Promise<Ground> {
  const tickets = new Map<string, TicketRow>();
  const results = new Map<string, ResultRecord>();
  for (const [agreementId, questions] of groupRows(asked, (row) => row.agreementId)) {
    const loadIds = questions.flatMap(({ fact }) => fact.load ?? []);
    if (loadIds.length > 0) {
      for (const [key, ticket] of await readTickets(tx, agreementId, loadIds)) tickets.set(key, ticket);
    }
    if (loadIds.length === questions.length) continue;
    for (const result of await readResultRecords(tx, agreementId)) {
      results.set(resultKey(result.sampleId, result.version), result);
    }
  }
  const scales = tickets.size === 0 ? [] : await readScaleVersions(tx);
  return { tickets, results, scaleNames: namesOfScales(scales) };
}

function resultKey(sampleId: string, version: number): string {
  return `${sampleId} ${version}`;
}

/** As each is called now; where two are called the same, with its place and its party. */
function namesOfScales(versions: readonly ScaleVersionRow[]): ReadonlyMap<string, string> {
  const newest = new Map(versions.map((version) => [version.scaleId, version]));
  const called = groupRows([...newest.values()], ({ name }) => name.trim());
  return new Map(
    [...newest].map(([id, { name, place, partyName }]) => [
      id,
      called.get(name.trim())?.length === 1 ? name : `${name.trim()} (${place.trim()}, ${partyName})`,
    ]),
  );
}

interface FirstFigure {
  readonly by: string;
  readonly unit: string;
}

/** Who gave the questioned figure; undefined where that is not named, or where a ticket's two weights are of two scales. */
function firstOf({ fact }: RetestRow, { tickets, results, scaleNames }: Ground): FirstFigure | undefined {
  if (fact.load !== null) {
    const ticket = tickets.get(ticketKey(fact.load, Number(fact.firstVersion)));
    if (!ticket || ticket.grossScale === null || ticket.grossScale !== ticket.tareScale) return undefined;
    const by = scaleNames.get(ticket.grossScale);
    return by === undefined ? undefined : { by, unit: ticket.unit };
  }
  const result = results.get(resultKey(fact.sample ?? '', Number(fact.firstVersion)));
  const by = result?.laboratory?.trim();
  if (!result || !by) return undefined;
  return { by, unit: figureUnit(fact.about as Tested, result.basis) };
}

interface MetOn {
  readonly first: FirstFigure;
  readonly later: readonly RetestFigureRow[];
  readonly ground: Ground;
}

function meetingsOn(question: RetestRow, { first, later, ground }: MetOn): readonly RetestMeeting[] {
  const { id, agreementId, fact, sample, ticket } = question;
  const by = ({ fact: { weighing, testedBy } }: RetestFigureRow) =>
    (weighing === null ? undefined : ground.scaleNames.get(weighing.scale)) ?? testedBy.trim();
  const oneValue = decimal(fact.first);
  return [...groupRows(later, by)].map(([other, figures]) => ({
    about: fact.about as Questioned,
    unit: first.unit,
    one: first.by,
    other,
    oneValue,
    otherValue: meanOf(figures.map((figure) => decimal(figure.fact.value))),
    on: (figures
      .map((figure) => figure.fact.testedOn)
      .toSorted()
      .at(-1) ?? '') as LocalDate,
    retestId: id,
    agreementId,
    subject: fact.load === null ? `sample ${sample ?? ''}` : `ticket ${ticket ?? ''}`,
    decimals: Math.max(
      decimalsWritten(fact.first),
      ...figures.map(({ fact: { value } }) => decimalsWritten(value)),
    ),
    doubted: compare(decimal(fact.claimed), oneValue) < 0 ? 'too-high' : 'too-low',
  }));
}
